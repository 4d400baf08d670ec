import { numberText } from '#language/figures'
import { say, sayings } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { NeedPart, ThreadNeed } from '#lib/coverage/need'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { putUpRange } from '#lib/thread/put-ups'
import type { ThreadLine } from '#lib/thread/thread'
import { Sum, type SumRow } from '#ui/sum'
import { plural, threadLength } from '#words/amounts'
import { capital } from '#words/capital'
import { threadUseRows } from '#words/thread-use'

const whole = (value: number) => numberText(Math.round(value))
const mm = (strandTenths: number) => whole(strandTenths / 10)
const figure = (value: number, digits: number) => numberText(value, { maximumFractionDigits: digits })

/** A key line's part, with this design's own numbers. */
function partRows(part: NeedPart, line: ThreadLine, unit: ThreadLengthUnit): SumRow[] {
  switch (part.kind) {
    case 'tally':
    case 'estimated': {
      const head: SumRow[] =
        part.kind === 'estimated'
          ? [
              {
                label: say('Crosses, shared out'),
                how: say(
                  '({whole} × {whole2} × {figure} stitched{rest}) ÷ {sharedByLines, plural, one {# line} other {# lines}}',
                  {
                    whole: whole(part.width),
                    whole2: whole(part.height),
                    figure: figure(part.coverPerMille / 1000, 3),
                    rest: part.talliedStitches > 0 ? say(' − {whole} counted', { whole: whole(part.talliedStitches) }) : '',
                    sharedByLines: part.sharedByLines,
                  },
                ),
                figure: whole(part.stitches),
              },
            ]
          : []
      return [...head, ...threadUseRows(part.use, part)]
    }
    case 'stated':
      return [
        {
          label: say('As the chart states'),
          how: say('{figure} × {threadLength} of {strands, plural, one {# strand} other {# strands}}{rest}{rest2}', {
            figure: figure(part.hundredths / 100, 2),
            threadLength: threadLength(part.putUpStrandTenths, line.strands, unit),
            strands: line.strands,
            rest:
              part.chartPitchUm === part.yourPitchUm
                ? ''
                : say(' × {figure} ÷ {figure2} mm pitch', {
                    figure: figure(part.yourPitchUm / 1000, 4),
                    figure2: figure(part.chartPitchUm / 1000, 4),
                  }),
            rest2:
              part.chartedStrands === part.strands
                ? ''
                : say(' × {strands} ÷ {chartedStrands} strands', { strands: part.strands, chartedStrands: part.chartedStrands }),
          }),
          figure: mm(part.strandTenths),
        },
      ]
    case 'assumed':
      return [{ label: say('No amount in the key'), how: say('one put-up assumed'), figure: mm(part.strandTenths) }]
  }
}

const putUpsOf = (strandTenths: number, putUpStrandTenths: number) => figure(strandTenths / putUpStrandTenths, 2)

type NeedSlipProps = {
  /** Of all copies. */
  need: ThreadNeed
  line: ThreadLine
  unit: ThreadLengthUnit
  copies?: number
  /** Where the need is told in whole put-ups: of what length, and how many that makes. */
  putUps?: { strandTenths: number; needed: number }
}

/** How much of a thread is needed, from the key to the length or the put-ups. All millimetres are of one strand. */
export function NeedSlip({ need, line, unit, copies = 1, putUps }: NeedSlipProps) {
  const length = (strandTenths: number) => threadLength(strandTenths, line.strands, unit)
  const isRange = need.leastStrandTenths < need.strandTenths && need.from.some(({ kind }) => kind === 'stated')
  const beads = need.from.reduce((sum, part) => sum + (part.kind === 'tally' ? (part.tally.bead ?? 0) : 0), 0)
  const symbols = new Set(need.from.map(({ keyLineId }) => keyLineId)).size
  const range = isRange
    ? say(" The chart's whole {plural} mean anything above {length}; this plans on the top.", {
        plural: plural(line.putUpWord),
        length: length(need.leastStrandTenths),
      })
    : ''
  const beadWords = beads > 0 ? say(' {beads, plural, one {# bead} other {# beads}} to be counted out as well.', { beads }) : ''
  const rows: SumRow[] = [
    ...need.from.flatMap((part) => [
      ...(symbols > 1
        ? [{ label: <b>{sayParts('Key line {symbol}', { symbol: part.symbol ?? say('without a symbol') })}</b>, figure: '' }]
        : []),
      ...partRows(part, line, unit),
    ]),
    {
      label: say('One strand'),
      how: say('in millimetres'),
      figure: say('{mm} mm', { mm: mm(need.strandTenths / copies) }),
      kind: 'rule',
    },
    ...(line.strands > 1 || !putUps
      ? [
          {
            label:
              line.strands > 1
                ? say('Of {strands, plural, one {# strand} other {# strands}}', { strands: line.strands })
                : say('Needed'),
            how: isRange
              ? say('÷ {strands}; above {length}, up to', {
                  strands: line.strands,
                  length: length(need.leastStrandTenths / copies),
                })
              : line.strands > 1
                ? `÷ ${line.strands}`
                : undefined,
            figure: length(need.strandTenths / copies),
          },
        ]
      : []),
    ...(copies > 1
      ? [
          {
            label: say('{copies, plural, one {# copy} other {# copies}}', { copies }),
            how: `× ${copies}`,
            figure: length(need.strandTenths),
          },
        ]
      : []),
  ]
  return (
    <Sum
      title={say('How much this needs')}
      rows={putUps ? [...rows, putUpRow({ need, line, unit, putUps, isRange })] : endingIn(rows)}
      note={`${certaintyWords[need.certainty]}${range}${beadWords}`}
    />
  )
}

const endingIn = (rows: readonly SumRow[]): SumRow[] =>
  rows.map((row, at) => (at === rows.length - 1 ? { ...row, kind: 'end' } : row))

function putUpRow({
  need,
  line,
  unit,
  putUps: { strandTenths: putUp, needed },
  isRange,
}: Pick<NeedSlipProps, 'need' | 'line' | 'unit'> & {
  putUps: NonNullable<NeedSlipProps['putUps']>
  isRange: boolean
}): SumRow {
  const { fewest, most } = isRange ? putUpRange(need, putUp) : { fewest: needed, most: needed }
  return {
    label: say('{plural} of {threadLength}', {
      plural: capital(plural(line.putUpWord)),
      threadLength: threadLength(putUp, line.strands, unit),
    }),
    how: say('{putUpsOf}, rounded up{rest}', {
      putUpsOf: putUpsOf(need.strandTenths, putUp),
      rest: fewest < most ? say('; {fewest} might do', { fewest }) : '',
    }),
    figure: needed,
    kind: 'end',
  }
}

const certaintyWords: Record<ThreadNeed['certainty'], string> = sayings({
  measured: 'By stitch counts from the key; the allowance is yours to change, for this design or in Settings for all.',
  label: 'By the amount the chart states.',
  guess: 'Partly guessed.',
  estimated: "Estimated: the key gives no amounts, so the design's crosses are shared out evenly.",
  assumed: 'Assumed: nothing in the key says how much.',
})
