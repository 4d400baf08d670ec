import { carryOutFilingOperation, describeFilingRefusal } from '#api/filing'
import { endpoint, serve } from '#api/serve'
import { carryOutFiling } from '#lib/db/filing/carry-out-filing'

const carryOut = serve(carryOutFilingOperation, async ({ body }) => {
  const done = await carryOutFiling(body)
  return done.ok ? done.value : describeFilingRefusal(done.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: carryOut })
