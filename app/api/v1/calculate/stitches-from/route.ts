import { describeThreadUse } from '#api/arithmetic'
import { toNanometre } from '#api/quantities'
import { endpoint, serve } from '#api/serve'
import { calculateStitchesFrom } from '#api/stitches-from'
import { pitchUm } from '#lib/quantity/count'
import { stitchesFrom, threadUse } from '#lib/thread/thread-use'

const calculate = serve(calculateStitchesFrom, async ({ body }) => {
  const { strands, working, allowance, strandTenths } = body
  const { ends, picks, over } = body.cloth
  const acrossUm = pitchUm(body.isTurned ? picks : ends, over)
  const upUm = pitchUm(body.isTurned ? ends : picks, over)
  const how = { strands, working, allowance, acrossUm, upUm }
  return {
    acrossUm: toNanometre(acrossUm),
    upUm: toNanometre(upUm),
    reaches: body.stitches.map((stitch) => {
      const count = stitchesFrom(strandTenths, { stitch, ...how })
      const use = threadUse({ tally: { [stitch]: count }, ...how })
      return {
        stitch,
        count,
        usedStrandTenths: use.strandTenths,
        leftStrandTenths: strandTenths - use.strandTenths,
        arithmetic: describeThreadUse(use),
      }
    }),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: calculate })
