import { describeWalkProblem } from '#api/describe-walk'
import { endpoint, serve } from '#api/serve'
import { carryOutWalk } from '#api/walks'
import { carryOut } from '#lib/db/walk/carry-out'

const carry = serve(carryOutWalk, async ({ path, body }) => {
  const carried = await carryOut({ ...path, bags: body.bags, lineIds: body.lineIds, who: body.by })
  return carried.ok ? carried.value : describeWalkProblem(carried.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: carry })
