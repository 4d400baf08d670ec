import type { ReactNode } from 'react'
import { numberText } from '#language/figures'
import type { ThreadCover } from '#lib/coverage/line-status'
import type { NeedPart, ThreadNeed } from '#lib/coverage/need'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import type { FreeStock } from '#lib/stock/free-stock'
import { putUpRange } from '#lib/thread/put-ups'
import type { ThreadLine } from '#lib/thread/thread'
import { LinkButton } from '#ui/button'
import { Sum, type SumRow, Sums } from '#ui/sum'
import { counted, plural, threadLength } from '#words/amounts'
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
                label: 'Crosses, shared out',
                how: `(${whole(part.width)} × ${whole(part.height)} × ${figure(part.coverPerMille / 1000, 3)} stitched${
                  part.talliedStitches > 0 ? ` − ${whole(part.talliedStitches)} counted` : ''
                }) ÷ ${counted(part.sharedByLines, 'line')}`,
                figure: whole(part.stitches),
              },
            ]
          : []
      return [...head, ...threadUseRows(part.use, part)]
    }
    case 'stated':
      return [
        {
          label: 'As the chart states',
          how: `${figure(part.hundredths / 100, 2)} × ${threadLength(part.putUpStrandTenths, line.strands, unit)} of ${counted(line.strands, 'strand')}${
            part.chartPitchUm === part.yourPitchUm
              ? ''
              : ` × ${figure(part.yourPitchUm / 1000, 4)} ÷ ${figure(part.chartPitchUm / 1000, 4)} mm pitch`
          }${part.chartedStrands === part.strands ? '' : ` × ${part.strands} ÷ ${part.chartedStrands} strands`}`,
          figure: mm(part.strandTenths),
        },
      ]
    case 'assumed':
      return [{ label: 'No amount in the key', how: 'one put-up assumed', figure: mm(part.strandTenths) }]
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
      ...(symbols > 1 ? [{ label: <b>Key line {part.symbol ?? 'without a symbol'}</b>, figure: '' }] : []),
      ...partRows(part, line, unit),
    ]),
    { label: 'One strand', how: 'in millimetres', figure: `${mm(need.strandTenths)} mm`, kind: 'rule' },
    ...(line.strands > 1
      ? [
          {
            label: `Of ${counted(line.strands, 'strand')}`,
            how: isRange ? `÷ ${line.strands}; above ${length(need.leastStrandTenths)}, up to` : `÷ ${line.strands}`,
            figure: threadLength(need.strandTenths, line.strands, unit),
          },
        ]
      : []),
    {
      label: `${capital(plural(line.putUpWord))} of ${threadLength(putUp, line.strands, unit)}`,
      how: `${putUpsOf(need.strandTenths, putUp)}, rounded up${fewest < most ? `; ${fewest} might do` : ''}`,
      figure: cover.needPutUps,
      kind: 'end',
    },
  ]
  const freeRows: SumRow[] = [
    { label: 'Owned', figure: length(cover.ownedStrandTenths) },
    ...(free?.elsewhere ?? []).map(({ why, strandTenths, placeId }) => ({
      label: (
        <>
          {why === 'out' ? 'Out, in ' : 'Promised, in '}
          {placeWords(placeId)}
        </>
      ),
      figure: strandTenths > 0 ? `− ${length(strandTenths)}` : 'some',
    })),
    { label: 'Free', figure: length(cover.freeStrandTenths), kind: 'end' },
  ]
  const range = isRange
    ? ` The chart's whole ${plural(line.putUpWord)} mean anything above ${length(need.leastStrandTenths)}; this plans on the top.`
    : ''
  const beadWords = beads > 0 ? ` ${counted(beads, 'bead')} to be counted out as well.` : ''
  const lots = cover.lots.filter(({ lot }) => lot !== null)
  return (
    <Sums>
      <Sum title="How much this needs" rows={needRows} note={`${certaintyWords[need.certainty]}${range}${beadWords}`} />
      <Sum
        title="What is free"
        rows={freeRows}
        note={
          <>
            {[
              ...lots.map(({ lot, freeStrandTenths }) => `Lot ${lot}: ${length(freeStrandTenths)} free.`),
              ...(cover.isSomeHeld ? ['A part of unknown length is held too; measure it to count it.'] : []),
              ...(line.lotsMatter ? ['Lots matter for this line: all of it must come from one.'] : []),
            ].join(' ')}{' '}
            <LinkButton kind="quiet" href={reachHref(need)}>
              How far does it go?
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
  const perInch = (pitchUm: number) => String(Number((25_400 / pitchUm).toFixed(3)))
  const { acrossUm, upUm, strands, use } = counted
  const cloth = acrossUm === upUm ? perInch(acrossUm) : `${perInch(acrossUm)} x ${perInch(upUm)}`
  const query = new URLSearchParams({ cloth: `${cloth} over 1`, strands: String(strands), allowance: String(use.allowance) })
  return `/threads/${threadId}/reach?${query}`
}

const certaintyWords: Record<ThreadNeed['certainty'], string> = {
  measured: 'By stitch counts from the key; the allowance is yours to change, for this design or in Settings for all.',
  label: 'By the amount the chart states.',
  guess: 'Partly guessed.',
  estimated: "Estimated: the key gives no amounts, so the design's crosses are shared out evenly.",
  assumed: 'Assumed: nothing in the key says how much.',
}
