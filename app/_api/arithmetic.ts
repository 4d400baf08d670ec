import type { NeedPart } from '#lib/coverage/need'
import { formatThreadLength } from '#lib/quantity/thread-length'
import type { Stitch } from '#lib/thread/stitches'
import type { ThreadUse } from '#lib/thread/thread-use'

const stitchWords: Record<Stitch, string> = {
  full: 'full crosses',
  half: 'half crosses',
  quarter: 'quarter stitches',
  threeQuarter: 'three-quarter stitches',
  tent: 'tent stitches',
  backstitch: 'units of backstitch',
  backstitchDiagonal: 'diagonal units of backstitch',
  doubleRunning: 'units of double running',
  satin: 'units of satin throw',
  eyelet: 'eyelets',
  knotOneWrap: 'knots of one wrap',
  knotTwoWrap: 'knots of two wraps',
  bead: 'beads',
}

const figures = new Intl.NumberFormat('en-GB', { maximumFractionDigits: 3 })
const number = (value: number): string => figures.format(value)
const mm = (strandTenths: number): string => `${number(strandTenths / 10)} mm`
const metres = (strandTenths: number): string => formatThreadLength(strandTenths, 'm')

/** The steps of a thread use, a line each. */
export function describeThreadUse(use: ThreadUse): string[] {
  const steps = use.parts.flatMap((part) => {
    const strands = `${part.strands} ${part.strands === 1 ? 'strand' : 'strands'}`
    const how =
      part.pitches === null
        ? `${number(part.lengthUm / 1_000)} mm`
        : `${number(part.pitches)} pitches of ${number(part.lengthUm / part.pitches / 1_000)} mm`
    const pitched = `${number(part.tally)} ${stitchWords[part.stitch]} × ${how} × ${strands} = ${mm(part.strandTenths)}`
    const flat = `${number(part.tally)} ${stitchWords[part.stitch]} × ${number(part.flatUm / 1_000)} mm × ${strands} = ${mm(part.flatStrandTenths)}, no allowance`
    return [...(part.lengthUm > 0 ? [pitched] : []), ...(part.flatUm > 0 ? [flat] : [])]
  })
  const allowed = `${mm(use.bareStrandTenths)} × ${number(use.allowance)} allowance = ${mm(use.allowedStrandTenths)}`
  const sum =
    use.flatStrandTenths > 0 ? [`${mm(use.allowedStrandTenths)} + ${mm(use.flatStrandTenths)} = ${mm(use.strandTenths)}`] : []
  return [...steps, ...(use.bareStrandTenths > 0 ? [allowed] : []), ...sum]
}

/** The steps by which one key line's need was worked out. */
export function describeNeedPart(part: NeedPart): string[] {
  switch (part.kind) {
    case 'tally':
      return describeThreadUse(part.use)
    case 'stated': {
      const putUps = part.hundredths / 100
      const same = part.chartPitchUm === part.yourPitchUm && part.chartedStrands === part.strands
      const scale = same
        ? ''
        : ` × ${number(part.yourPitchUm / 1_000)} mm pitch ÷ ${number(part.chartPitchUm / 1_000)} mm × ${part.strands} strands ÷ ${part.chartedStrands}`
      const stated = `The chart states ${number(putUps)} put-ups of ${metres(part.putUpStrandTenths)} of one strand${scale} = ${metres(part.strandTenths)}`
      return part.leastStrandTenths < part.strandTenths
        ? [stated, `Whole put-ups are rounded up, so the need lies above ${metres(part.leastStrandTenths)}; planned on the top.`]
        : [stated]
    }
    case 'estimated':
      return [
        `No amount in the key: ${number(part.width)} × ${number(part.height)} squares × ${number(part.coverPerMille / 10)} % stitched, less ${number(part.talliedStitches)} counted, shared by ${number(part.sharedByLines)} key lines = ${number(part.stitches)} full crosses`,
        ...describeThreadUse(part.use),
      ]
    case 'assumed':
      return [`No amount in the key: one put-up of ${metres(part.putUpStrandTenths)} of one strand is assumed`]
  }
}
