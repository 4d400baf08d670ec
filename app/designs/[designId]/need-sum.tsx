import type { ReactNode } from 'react'
import type { ThreadCover } from '#lib/coverage/line-status'
import type { NeedPart, ThreadNeed } from '#lib/coverage/need'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import type { FreeStock } from '#lib/stock/free-stock'
import type { Stitch } from '#lib/thread/stitches'
import type { ThreadLine } from '#lib/thread/thread'
import { Sum, type SumRow, Sums } from '#ui/sum'
import { counted, plural, threadLength } from '#words/amounts'

const stitchWords: Record<Stitch, string> = {
  full: 'Full crosses',
  half: 'Half crosses',
  quarter: 'Quarter stitches',
  threeQuarter: 'Three-quarter stitches',
  tent: 'Tent stitches',
  backstitch: 'Backstitch',
  backstitchDiagonal: 'Backstitch, diagonal',
  doubleRunning: 'Double running',
  knotOneWrap: 'One-wrap knots',
  knotTwoWrap: 'Two-wrap knots',
  bead: 'Beads',
}

const whole = (value: number) => Math.round(value).toLocaleString('en-GB')
const mm = (strandTenths: number) => whole(strandTenths / 10)
const figure = (value: number, digits: number) => value.toLocaleString('en-GB', { maximumFractionDigits: digits })

/** A key line's part, with this design's own numbers. */
function partRows(part: NeedPart, line: ThreadLine, unit: ThreadLengthUnit): SumRow[] {
  switch (part.kind) {
    case 'tally':
    case 'estimated': {
      const { use, acrossUm, upUm } = part
      const pitch = acrossUm === upUm ? `${figure(acrossUm / 1000, 4)} mm` : null
      const rows: SumRow[] = use.parts.map(({ stitch, tally, strands, pitches, lengthUm, strandTenths }) => ({
        label: stitchWords[stitch],
        how: `${whole(tally)} × ${
          pitch && pitches !== null ? `${figure(pitches, 4)} pitches × ${pitch}` : `${figure(lengthUm / 1000, 3)} mm`
        } × ${counted(strands, 'strand')}`,
        figure: mm(strandTenths),
      }))
      const flat: SumRow[] = use.parts
        .filter(({ flatUm }) => flatUm > 0)
        .map(({ stitch, tally, strands, flatUm, flatStrandTenths }) => ({
          label: stitch === 'bead' ? 'Passes through beads' : stitchWords[stitch],
          how: `${whole(tally)} × ${figure(flatUm / 1000, 1)} mm × ${counted(strands, 'strand')}`,
          figure: mm(flatStrandTenths),
        }))
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
      return [
        ...head,
        ...rows.filter((_, at) => (use.parts[at]?.lengthUm ?? 0) > 0),
        {
          label: 'With allowance',
          how: `× ${figure(use.allowance, 2)}, for thick cloth, starts and ends`,
          figure: mm(use.allowedStrandTenths),
          kind: 'rule',
        },
        ...flat,
      ]
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
            how: `÷ ${line.strands}`,
            figure: threadLength(need.strandTenths, line.strands, unit),
          },
        ]
      : []),
    {
      label: `${capital(plural(line.putUpWord))} of ${threadLength(putUp, line.strands, unit)}`,
      how: `${putUpsOf(need.strandTenths, putUp)}, rounded up`,
      figure: cover.needPutUps,
      kind: 'end',
    },
  ]
  const length = (strandTenths: number) => threadLength(strandTenths, line.strands, unit)
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
  const range =
    need.leastStrandTenths < need.strandTenths && need.from.some(({ kind }) => kind === 'stated')
      ? ` The chart's whole ${plural(line.putUpWord)} mean anything above ${length(need.leastStrandTenths)}; this plans on the top.`
      : ''
  const lots = cover.lots.filter(({ lot }) => lot !== null)
  return (
    <Sums>
      <Sum title="How much this needs" rows={needRows} note={`${certaintyWords[need.certainty]}${range}`} />
      <Sum
        title="What is free"
        rows={freeRows}
        note={[
          ...lots.map(({ lot, freeStrandTenths }) => `Lot ${lot}: ${length(freeStrandTenths)} free.`),
          ...(cover.isSomeHeld ? ['A part of unknown length is held too; measure it to count it.'] : []),
          ...(line.lotsMatter ? ['Lots matter for this line: all of it must come from one.'] : []),
        ].join(' ')}
      />
    </Sums>
  )
}

const certaintyWords: Record<ThreadNeed['certainty'], string> = {
  measured: 'By stitch counts from the key; the allowance is yours to change in Settings.',
  label: 'By the amount the chart states.',
  guess: 'Partly guessed.',
  estimated: "Estimated: the key gives no amounts, so the design's crosses are shared out evenly.",
  assumed: 'Assumed: nothing in the key says how much.',
}
