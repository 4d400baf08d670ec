import { numberText } from '#language/figures'
import { say, sayings } from '#language/say'
import type { Stitch } from '#lib/thread/stitches'
import type { ThreadUse } from '#lib/thread/thread-use'
import type { SumRow } from '#ui/sum'
import { counted } from './amounts'

export const stitchWords: Record<Stitch, string> = sayings({
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
})

const whole = (value: number) => numberText(Math.round(value))
const mm = (strandTenths: number) => whole(strandTenths / 10)
const figure = (value: number, digits: number) => numberText(value, { maximumFractionDigits: digits })

/** The sum behind a use of thread, line by line, in millimetres of one strand: each stitch, the allowance, knots and beads' passes. */
export function threadUseRows(use: ThreadUse, { acrossUm, upUm }: { acrossUm: number; upUm: number }): SumRow[] {
  const pitch = acrossUm === upUm ? `${figure(acrossUm / 1000, 4)} mm` : null
  const followsCloth = use.parts.filter(({ lengthUm }) => lengthUm > 0)
  const flat = use.parts.filter(({ flatUm }) => flatUm > 0)
  // Rounded up to a tenth once, at the end: here, where nothing is added to it.
  const allowed = flat.length > 0 ? use.allowedStrandTenths : Math.ceil(use.allowedStrandTenths - 1e-6)
  return [
    ...followsCloth.map(({ stitch, tally, strands, pitches, lengthUm, strandTenths }) => ({
      label: stitchWords[stitch],
      how: `${whole(tally)} × ${
        pitch && pitches !== null
          ? say('{pitches} pitches × {pitch}', { pitches: figure(pitches, 4), pitch })
          : `${figure(lengthUm / 1000, 3)} mm`
      } × ${counted(strands, 'strand')}`,
      figure: mm(strandTenths),
    })),
    {
      label: say('With allowance'),
      how: say('× {figure}, for thick cloth, starts and ends', { figure: figure(use.allowance, 2) }),
      figure: mm(allowed),
      kind: 'rule',
    },
    ...flat.map(({ stitch, tally, strands, flatUm, flatStrandTenths }) => ({
      label: stitch === 'bead' ? say('Passes through beads') : stitchWords[stitch],
      how: say('{whole} × {figure} mm × {strands, plural, one {# strand} other {# strands}}', {
        whole: whole(tally),
        figure: figure(flatUm / 1000, 1),
        strands,
      }),
      figure: mm(flatStrandTenths),
    })),
  ]
}
