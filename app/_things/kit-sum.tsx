import { numberText } from '#language/figures'
import { say } from '#language/say'
import type { KitThread } from '#lib/db/coverage/design-kits'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { putUpsFor } from '#lib/thread/put-ups'
import { Sum, type SumRow, Sums } from '#ui/sum'
import { counted, plural, singular, threadLength } from '#words/amounts'

const capital = (words: string) => words.replace(/^./, (first) => first.toUpperCase())
const ratio = (a: number, b: number) => numberText(a / b, { maximumFractionDigits: 2 })
const number = (count: number) => numberText(count)
/** "= 2.58, rounded down"; where it comes out even there is nothing to round. */
const rounded = (a: number, b: number, way: 'up' | 'down') =>
  a % b === 0
    ? ''
    : way === 'up'
      ? say(' = {figure}, rounded up', { figure: ratio(a, b) })
      : say(' = {figure}, rounded down', { figure: ratio(a, b) })

/** A thread of a kit with all that its sum is made of. */
type SummedThread = Omit<KitThread, 'threadId' | 'need' | 'lot' | 'freeStrandTenths'>

type KitSumProps = {
  thread: SummedThread
  wanted: number
  unit: ThreadLengthUnit
  /** Of a batch of kits under way: some have their cut already, and no more are counted than are wanted. */
  batch?: { alreadyCut: number }
}

/** How many put-ups of a thread so many kits take, how many kits what is free gives, and what is left to buy, written out. */
export function KitSum({ thread, wanted, unit, batch }: KitSumProps) {
  const { line, perKitStrandTenths: cut, cutsPerPutUp, putUpsForAll, lots, lotToMatch, kits, toBuyPutUps } = thread
  const alreadyCut = batch?.alreadyCut ?? 0
  const possible = alreadyCut + kits
  const isMore = batch !== undefined && possible > wanted
  const putUp = line.putUpStrandTenths
  const length = (strandTenths: number) => threadLength(strandTenths, line.strands, unit)
  const many = capital(plural(line.putUpWord))
  const byLength = putUpsFor(cut * wanted, putUp)
  const kept = line.lotsMatter ? (lotToMatch?.kits ?? 0) : kits
  const lacking = wanted - alreadyCut - kept
  const freeRows: SumRow[] = lots.map(({ lot, freeStrandTenths, kits: fromIt }) => ({
    label: lot === null ? say('Without a lot mark') : say('Lot {lot}', { lot }),
    how: say('{length} free', { length: length(freeStrandTenths) }),
    figure: number(fromIt),
  }))
  return (
    <Sums>
      <Sum
        title={say('{many} for {number}', { many, number: number(wanted) })}
        rows={cutRows(thread, { wanted, unit, needWords: batch ? say('what one piece needs') : say('the need above') })}
        note={
          byLength < putUpsForAll
            ? say('By length alone {length} would be {number}, but then some cuts would have a join.', {
                length: length(cut * wanted),
                number: number(byLength),
              })
            : undefined
        }
      />
      <Sum
        title={say('Kits from what is free')}
        rows={[
          ...(alreadyCut > 0 ? [{ label: say('Have their cut'), figure: number(alreadyCut) }] : []),
          ...(freeRows.length > 0 ? freeRows : [{ label: say('Nothing is free'), figure: 0 }]),
          {
            label: say('Kits'),
            how: [
              lots.length < 2 ? '' : line.lotsMatter ? say('the best lot alone') : say('all lots together'),
              isMore ? say('enough for {possible, number}, no more are wanted', { possible }) : '',
            ]
              .filter(Boolean)
              .join('; '),
            figure: number(isMore ? wanted : possible),
            kind: 'end',
          },
        ]}
      />
      {toBuyPutUps > 0 && (
        <Sum
          title={say('To buy')}
          rows={[
            { label: say('Kits and spares'), figure: number(wanted) },
            ...(alreadyCut > 0 ? [{ label: say('Have their cut'), figure: `− ${number(alreadyCut)}` }] : []),
            ...(kept > 0
              ? [
                  {
                    label: lotToMatch ? say('From lot {lot}', { lot: lotToMatch.lot }) : say('From what is free'),
                    figure: `− ${number(kept)}`,
                  },
                ]
              : []),
            { label: say('Kits to buy for'), figure: number(lacking), kind: 'rule' },
            {
              label: many,
              how: cutsPerPutUp > 0 ? `÷ ${number(cutsPerPutUp)}${rounded(lacking, cutsPerPutUp, 'up')}` : say('as at the left'),
              figure: number(toBuyPutUps),
              kind: 'end',
            },
          ]}
          note={
            lotToMatch
              ? say('Of lot {lot}; where it is not to be had, {counted} of one new lot.', {
                  lot: lotToMatch.lot,
                  counted: counted(putUpsForAll, line.putUpWord),
                })
              : line.lotsMatter && toBuyPutUps > 1
                ? say('All of one lot, so buy them at once.')
                : undefined
          }
        />
      )}
    </Sums>
  )
}

/** A kit's length as one cut, or as whole put-ups and a cut of the rest; and how many put-ups such cuts come out of. */
function cutRows(
  { line, perKitStrandTenths: cut, cutsPerPutUp, putUpsForAll }: SummedThread,
  { wanted, unit, needWords }: { wanted: number; unit: ThreadLengthUnit; needWords: string },
): SumRow[] {
  const putUp = line.putUpStrandTenths
  const length = (strandTenths: number) => threadLength(strandTenths, line.strands, unit)
  const many = plural(line.putUpWord)
  if (cutsPerPutUp > 0) {
    return [
      { label: say('Cut for one kit'), how: needWords, figure: length(cut) },
      {
        label: say('Cuts in one {putUpWord}', { putUpWord: singular(line.putUpWord) }),
        how: `${length(putUp)} ÷ ${length(cut)}${rounded(putUp, cut, 'down')}`,
        figure: number(cutsPerPutUp),
      },
      {
        label: say('{many} for the cuts', { many: capital(many) }),
        how: `${number(wanted)} ÷ ${number(cutsPerPutUp)}${rounded(wanted, cutsPerPutUp, 'up')}`,
        figure: number(putUpsForAll),
        kind: 'end',
      },
    ]
  }
  const whole = Math.floor(cut / putUp)
  const rest = cut - whole * putUp
  const cuts = rest === 0 ? 0 : Math.floor(putUp / rest)
  return [
    { label: say('For one kit'), how: needWords, figure: length(cut) },
    {
      label: say('Whole {many}', { many }),
      how: say('{number} of {length} in each kit; {number2} × {number}', {
        number: number(whole),
        length: length(putUp),
        number2: number(wanted),
      }),
      figure: number(wanted * whole),
      ...(rest === 0 && { kind: 'end' as const }),
    },
    ...(rest === 0
      ? []
      : [
          {
            label: say('The rest, a cut without a join'),
            how: say('{length}, {number} in one {putUpWord}; {number2} ÷ {number}{rounded}', {
              length: length(rest),
              number: number(cuts),
              putUpWord: singular(line.putUpWord),
              number2: number(wanted),
              rounded: rounded(wanted, cuts, 'up'),
            }),
            figure: number(Math.ceil(wanted / cuts)),
          },
          { label: capital(many), figure: number(putUpsForAll), kind: 'end' as const },
        ]),
  ]
}
