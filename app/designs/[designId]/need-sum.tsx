import type { ReactNode } from 'react'
import { numberText, plainFigure } from '#language/figures'
import { say, sayings } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { ThreadCover } from '#lib/coverage/line-status'
import type { NeedPart, ThreadNeed } from '#lib/coverage/need'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import type { FreeStock } from '#lib/stock/free-stock'
import { putUpRange } from '#lib/thread/put-ups'
import type { ThreadLine } from '#lib/thread/thread'
import { LinkButton } from '#ui/button'
import { Sum, type SumRow, Sums } from '#ui/sum'
import { plural, threadLength } from '#words/amounts'
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

const capital = (words: string) => words.replace(/^./, (first) => first.toUpperCase())
const putUpsOf = (strandTenths: number, putUpStrandTenths: number) => figure(strandTenths / putUpStrandTenths, 2)

type NeedSumProps = {
  need: ThreadNeed
  cover: ThreadCover
  free: FreeStock | undefined
  line: ThreadLine
  unit: ThreadLengthUnit
  placeWords: (placeId: string | null) => ReactNode
}

/** How much of a thread the design needs and how much of it is free, written out. All millimetres are of one strand. */
export function NeedSum({ need, cover, free, line, unit, placeWords }: NeedSumProps) {
  const putUp = cover.putUpStrandTenths
  const length = (strandTenths: number) => threadLength(strandTenths, line.strands, unit)
  const isRange = need.leastStrandTenths < need.strandTenths && need.from.some(({ kind }) => kind === 'stated')
  const { fewest, most } = isRange ? putUpRange(need, putUp) : { fewest: cover.needPutUps, most: cover.needPutUps }
  const beads = need.from.reduce((sum, part) => sum + (part.kind === 'tally' ? (part.tally.bead ?? 0) : 0), 0)
  const symbols = new Set(need.from.map(({ keyLineId }) => keyLineId)).size
  const needRows: SumRow[] = [
    ...need.from.flatMap((part) => [
      ...(symbols > 1
        ? [{ label: <b>{sayParts('Key line {symbol}', { symbol: part.symbol ?? say('without a symbol') })}</b>, figure: '' }]
        : []),
      ...partRows(part, line, unit),
    ]),
    { label: say('One strand'), how: say('in millimetres'), figure: say('{mm} mm', { mm: mm(need.strandTenths) }), kind: 'rule' },
    ...(line.strands > 1
      ? [
          {
            label: say('Of {strands, plural, one {# strand} other {# strands}}', { strands: line.strands }),
            how: isRange
              ? say('÷ {strands}; above {length}, up to', { strands: line.strands, length: length(need.leastStrandTenths) })
              : `÷ ${line.strands}`,
            figure: threadLength(need.strandTenths, line.strands, unit),
          },
        ]
      : []),
    {
      label: say('{plural} of {threadLength}', {
        plural: capital(plural(line.putUpWord)),
        threadLength: threadLength(putUp, line.strands, unit),
      }),
      how: say('{putUpsOf}, rounded up{rest}', {
        putUpsOf: putUpsOf(need.strandTenths, putUp),
        rest: fewest < most ? say('; {fewest} might do', { fewest }) : '',
      }),
      figure: cover.needPutUps,
      kind: 'end',
    },
  ]
  const freeRows: SumRow[] = [
    { label: say('Owned'), figure: length(cover.ownedStrandTenths) },
    ...(free?.elsewhere ?? []).map(({ why, strandTenths, placeId }) => ({
      label: (
        <>
          {why === 'out' ? say('Out, in ') : say('Promised, in ')}
          {placeWords(placeId)}
        </>
      ),
      figure: strandTenths > 0 ? `− ${length(strandTenths)}` : say('some'),
    })),
    { label: say('Free'), figure: length(cover.freeStrandTenths), kind: 'end' },
  ]
  const range = isRange
    ? say(" The chart's whole {plural} mean anything above {length}; this plans on the top.", {
        plural: plural(line.putUpWord),
        length: length(need.leastStrandTenths),
      })
    : ''
  const beadWords = beads > 0 ? say(' {beads, plural, one {# bead} other {# beads}} to be counted out as well.', { beads }) : ''
  const lots = cover.lots.filter(({ lot }) => lot !== null)
  return (
    <Sums>
      <Sum title={say('How much this needs')} rows={needRows} note={`${certaintyWords[need.certainty]}${range}${beadWords}`} />
      <Sum
        title={say('What is free')}
        rows={freeRows}
        note={
          <>
            {[
              ...lots.map(({ lot, freeStrandTenths }) =>
                say('Lot {lot}: {length} free.', { lot, length: length(freeStrandTenths) }),
              ),
              ...(cover.isSomeHeld ? [say('A part of unknown length is held too; measure it to count it.')] : []),
              ...(line.lotsMatter ? [say('Lots matter for this line: all of it must come from one.')] : []),
            ].join(' ')}{' '}
            <LinkButton kind="quiet" href={reachHref(need)}>
              {say('How far does it go?')}
            </LinkButton>
          </>
        }
      />
    </Sums>
  )
}

/** The page that says how many stitches a length covers, on the cloth and with the strands of this need. */
function reachHref({ threadId, from }: ThreadNeed): string {
  const counted = from.find((part) => part.kind === 'tally' || part.kind === 'estimated')
  if (!counted) return `/threads/${threadId}/reach`
  const perInch = (pitchUm: number) => plainFigure(Number((25_400 / pitchUm).toFixed(3)))
  const { acrossUm, upUm, strands, use } = counted
  const cloth = acrossUm === upUm ? perInch(acrossUm) : `${perInch(acrossUm)} x ${perInch(upUm)}`
  const query = new URLSearchParams({
    cloth: say('{cloth} over 1', { cloth }),
    strands: String(strands),
    allowance: String(use.allowance),
  })
  return `/threads/${threadId}/reach?${query}`
}

const certaintyWords: Record<ThreadNeed['certainty'], string> = sayings({
  measured: 'By stitch counts from the key; the allowance is yours to change, for this design or in Settings for all.',
  label: 'By the amount the chart states.',
  guess: 'Partly guessed.',
  estimated: "Estimated: the key gives no amounts, so the design's crosses are shared out evenly.",
  assumed: 'Assumed: nothing in the key says how much.',
})
