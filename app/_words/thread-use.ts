import { numberText } from '#language/figures'
import type { Stitch } from '#lib/thread/stitches'
import type { ThreadUse } from '#lib/thread/thread-use'
import type { SumRow } from '#ui/sum'
import { counted } from './amounts'

export const stitchWords: Record<Stitch, string> = {
  full: 'Full crosses',
  half: 'Half crosses',
  quarter: 'Quarter stitches',
  threeQuarter: 'Three-quarter stitches',
  tent: 'Tent stitches',
  backstitch: 'Backstitch',
  backstitchDiagonal: 'Backstitch, diagonal',
  doubleRunning: 'Double running',
  satin: 'Satin, in units of throw',
  eyelet: 'Eyelets of eight arms',
  knotOneWrap: 'One-wrap knots',
  knotTwoWrap: 'Two-wrap knots',
  bead: 'Beads',
}

const whole = (value: number) => numberText(Math.round(value))
const mm = (strandTenths: number) => whole(strandTenths / 10)
const figure = (value: number, digits: number) => numberText(value, { maximumFractionDigits: digits })

/** The sum behind a use of thread, line by line, in millimetres of one strand: each stitch, the allowance, knots and beads' passes. */
export function threadUseRows(use: ThreadUse, { acrossUm, upUm }: { acrossUm: number; upUm: number }): SumRow[] {
  const pitch = acrossUm === upUm ? `${figure(acrossUm / 1000, 4)} mm` : null
  const followsCloth = use.parts.filter(({ lengthUm }) => lengthUm > 0)
  return [
    ...followsCloth.map(({ stitch, tally, strands, pitches, lengthUm, strandTenths }) => ({
      label: stitchWords[stitch],
      how: `${whole(tally)} × ${
        pitch && pitches !== null ? `${figure(pitches, 4)} pitches × ${pitch}` : `${figure(lengthUm / 1000, 3)} mm`
      } × ${counted(strands, 'strand')}`,
      figure: mm(strandTenths),
    })),
    {
      label: 'With allowance',
      how: `× ${figure(use.allowance, 2)}, for thick cloth, starts and ends`,
      figure: mm(use.allowedStrandTenths),
      kind: 'rule',
    },
    ...use.parts
      .filter(({ flatUm }) => flatUm > 0)
      .map(({ stitch, tally, strands, flatUm, flatStrandTenths }) => ({
        label: stitch === 'bead' ? 'Passes through beads' : stitchWords[stitch],
        how: `${whole(tally)} × ${figure(flatUm / 1000, 1)} mm × ${counted(strands, 'strand')}`,
        figure: mm(flatStrandTenths),
      })),
  ]
}
