import { mergingProblem, tellApartOperation } from '#api/doubles'
import { endpoint, serve } from '#api/serve'
import { forgetTellingApart, tellApart } from '#lib/db/merging/tell-apart'

const tell = serve(tellApartOperation, async ({ body }) => {
  const { forget, ...pair } = body
  const told = forget ? await forgetTellingApart(pair) : await tellApart(pair)
  return told.ok ? { firstId: body.firstId, secondId: body.secondId } : mergingProblem(told.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: tell })
