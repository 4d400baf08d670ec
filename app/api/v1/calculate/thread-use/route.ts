import { describeThreadUse } from '#api/arithmetic'
import { describeThreadLength, toNanometre, toThousandth } from '#api/quantities'
import { endpoint, serve } from '#api/serve'
import { calculateThreadUse } from '#api/thread-use'
import { pitchUm } from '#lib/quantity/count'
import { formatThreadLength } from '#lib/quantity/thread-length'
import { putUpLabel, putUpsFor } from '#lib/thread/put-ups'
import { threadUse } from '#lib/thread/thread-use'

const calculate = serve(calculateThreadUse, async ({ body }) => {
  const { ends, picks, over } = body.cloth
  const acrossUm = pitchUm(body.isTurned ? picks : ends, over)
  const upUm = pitchUm(body.isTurned ? ends : picks, over)
  const uses = body.lines.map((line) => threadUse({ ...line, acrossUm, upUm, allowance: body.allowance }))
  const needTenths = uses.reduce((sum, use) => sum + use.strandTenths, 0)
  return {
    need: describeThreadLength(needTenths),
    acrossUm: toNanometre(acrossUm),
    upUm: toNanometre(upUm),
    allowance: body.allowance,
    lines: uses.map((use) => ({
      strandTenths: use.strandTenths,
      bareStrandTenths: toThousandth(use.bareStrandTenths),
      allowedStrandTenths: toThousandth(use.allowedStrandTenths),
      flatStrandTenths: toThousandth(use.flatStrandTenths),
      parts: use.parts.map((part) => ({
        ...part,
        lengthUm: toNanometre(part.lengthUm),
        pitches: part.pitches === null ? null : toThousandth(part.pitches),
        strandTenths: toThousandth(part.strandTenths),
        flatStrandTenths: toThousandth(part.flatStrandTenths),
      })),
      arithmetic: describeThreadUse(use),
    })),
    putUps: body.putUps.map(({ putUpStrandTenths, strands }) => ({
      putUpStrandTenths,
      putUpText: putUpLabel(putUpStrandTenths, strands),
      exactPutUps: toThousandth(needTenths / putUpStrandTenths),
      wholePutUps: putUpsFor(needTenths, putUpStrandTenths),
      needText: `${formatThreadLength(needTenths / strands, 'm')}${strands === 1 ? ' of one strand' : ` of ${strands} strands`}`,
    })),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: calculate })
