import { say } from '#language/say'
import type { BuyListRow } from '#lib/db/order/read-buy-list'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { Sum, type SumRow, Sums } from '#ui/sum'
import { plural, threadLength } from '#words/amounts'
import { packedWords } from '#words/buying'
import { priceWords } from '#words/price'
import { mixWords, nameOf, putUpWords } from './words'

type BuySumProps = {
  row: BuyListRow
  titleOf: (key: string) => string
  unit: ThreadLengthUnit
  /** Prices only where they are asked for. */
  currency: string | null
}

/** How much of a thread all of them need together, what is there, and what that leaves to buy, written out. */
export function BuySum({ row, titleOf, unit, currency }: BuySumProps) {
  const { line, thread, standIn } = row
  const { strands, putUpWord, lotsMatter } = thread.line
  const length = (strandTenths: number) => threadLength(strandTenths, strands, unit)
  const less = (label: string, strandTenths: number): SumRow[] =>
    strandTenths > 0 ? [{ label, figure: `− ${length(strandTenths)}` }] : []
  const sold = row.mix && line.putUps > 0 ? mixWords(row.mix, thread, { unit, withSuppliers: currency !== null }) : null
  const putUps = Number((line.shortStrandTenths / line.putUpStrandTenths).toFixed(2))
  return (
    <Sums>
      <Sum
        title={say('What to buy')}
        rows={[
          ...line.uses.map(({ key, needStrandTenths }) => ({ label: titleOf(key), figure: length(needStrandTenths) })),
          { label: say('Together'), figure: length(line.needStrandTenths), kind: 'rule' as const },
          ...less(say('Promised to them already'), line.promisedStrandTenths),
          ...less(say('Free'), line.freeStrandTenths),
          ...less(say('On order'), line.onOrderStrandTenths),
          ...less(say('On a list to shop by'), line.onListStrandTenths),
          {
            label: lotsMatter ? say('To be had in one lot') : say('Short'),
            figure: length(line.shortStrandTenths),
            kind: 'rule' as const,
          },
          {
            label: say('{replace} of {length}', {
              replace: plural(putUpWord).replace(/^./, (first) => first.toUpperCase()),
              length: length(line.putUpStrandTenths),
            }),
            how: putUps === line.putUps ? undefined : say('{putUps}, rounded up', { putUps }),
            figure: line.putUps,
            ...(sold === null && { kind: 'end' as const }),
          },
          ...(sold === null ? [] : [{ label: say('As it is sold'), figure: sold, kind: 'end' as const }]),
        ]}
        note={[
          lotsMatter
            ? say(
                'Lots matter for this line: what each design needs must come from one lot, so what is held counts only where one lot is enough, or can be added to.',
              )
            : say('Summed over all of them before anything is rounded up.'),
          ...(line.cutStrandTenths !== null
            ? [
                say(
                  'Kits are cut without a join: remnants count as needed, and a put-up of another length counts by the cuts that come out of it.',
                ),
              ]
            : []),
          ...(line.outStrandTenths > 0
            ? [
                say('{length} more is out and promised to nobody; it is not counted on.', {
                  length: length(line.outStrandTenths),
                }),
              ]
            : []),
          ...(standIn
            ? [say('Swaps are not assumed; {nameOf} is an accepted one and enough of it is free.', { nameOf: nameOf(standIn) })]
            : []),
        ].join(' ')}
      />
      {currency !== null && <PriceSum row={row} unit={unit} currency={currency} />}
    </Sums>
  )
}

/** What that costs, as it is sold. */
function PriceSum({ row: { line, thread, mix }, unit, currency }: { row: BuyListRow; unit: ThreadLengthUnit; currency: string }) {
  const price = (minor: number) => priceWords(minor, currency)
  const total = mix ? mix.priceMinor : thread.priceMinor === null ? null : thread.priceMinor * line.putUps
  if (total === null || line.putUps === 0) return null
  const { strands, putUpWord } = thread.line
  const rows: SumRow[] = mix
    ? mix.parts.map(({ offer, packs }) => ({
        label: [
          packedWords(
            {
              ...{ putUps: packs * offer.packPutUps, packPutUps: offer.packPutUps, strands },
              ...{ putUpStrandTenths: offer.putUpStrandTenths, putUpWord: offer.putUpWord ?? putUpWord },
            },
            unit,
          ),
          offer.supplier === null ? '' : say('from {supplier}', { supplier: offer.supplier }),
        ]
          .filter(Boolean)
          .join(' '),
        how: `${packs} × ${price(offer.priceMinor ?? 0)}`,
        figure: price(packs * (offer.priceMinor ?? 0)),
      }))
    : [
        {
          label: putUpWords(line.putUps, thread),
          how: `${line.putUps} × ${price(thread.priceMinor ?? 0)}`,
          figure: price(total),
        },
      ]
  return (
    <Sum
      title={say('What it costs')}
      rows={[...rows, { label: say('Together'), figure: price(total), kind: 'end' }]}
      note={mix?.by === 'price' ? say('Of the ways it is sold that reach what is short, the one that costs least.') : undefined}
    />
  )
}
