import { formatDate } from '#language/day'
import { numberText } from '#language/figures'
import { say, sayings } from '#language/say'
import type { ClassTotal, InsuranceList } from '#lib/insurance/insurance-list'
import type { Insured, InsuredClass, Valued } from '#lib/insurance/insured'
import type { InsuranceSheet } from '#lib/printing/insurance-sheet'
import { counted } from './amounts'
import { priceWords } from './price'

export const insuredClassWords: Record<InsuredClass, string> = sayings({
  solid: 'Solid threads',
  'hand-dyed': 'Hand-dyed threads',
  cloth: 'Cloth',
  charts: 'Charts',
  notions: 'Notions',
  finished: 'Finished pieces, at what their finishing cost',
})

const oneOf: Record<InsuredClass, string> = {
  solid: 'put-up',
  'hand-dyed': 'put-up',
  cloth: 'piece',
  charts: 'copy',
  notions: 'piece',
  finished: 'piece',
}

export const irreplaceableWords: Record<NonNullable<Insured['irreplaceable']>, string> = sayings({
  'out-of-print': 'out of print',
  'no-longer-made': 'no longer made',
  'own-work': 'worked by hand: the work itself cannot be bought',
})

const copies = (count: number): string => say('{count, number} {count, plural, one {copy} other {copies}}', { count })

/** How many there are: "12 put-ups and a part". */
export function manyWords({
  class: of,
  count,
  partTenThousandths,
}: Pick<Valued, 'class' | 'count' | 'partTenThousandths'>): string {
  const whole = of === 'charts' ? copies(count) : counted(count, oneOf[of])
  if (partTenThousandths === 0) return whole
  return count === 0 ? say('a part') : say('{whole} and parts', { whole })
}

export function totalWords({ class: of, count, partCount }: ClassTotal): string {
  const whole = of === 'charts' ? copies(count) : counted(count, oneOf[of])
  return partCount > 0 ? say('{whole}, {partCount, plural, one {# part} other {# parts}}', { whole, partCount }) : whole
}

/** What a class comes to; unknown is not nothing. */
export const totalValueWords = ({ valueMinor, unvalued }: ClassTotal, currency: string): string =>
  unvalued > 0 && valueMinor === 0 ? say('not known') : priceWords(valueMinor, currency)

/** What it is worth, and where that is from. */
export function valueWords({ valueMinor, oneMinor, valuedBy }: Valued, currency: string): string {
  if (oneMinor === null) return say('no value known')
  return `${priceWords(valueMinor, currency)}${valuedBy === 'class' ? say(', as its class') : ''}`
}

/** How a value comes about: "12 × EUR 1.20", "3.4 × EUR 6.00, rounded down", "30 × EUR 4.00 ÷ 10 to the pack"; null where none is known. */
export function valueHow(
  { count, partTenThousandths, oneMinor, pricedPer, valuedBy }: Valued,
  { currency, namesClass = true }: { currency: string; namesClass?: boolean },
): string | null {
  if (oneMinor === null) return null
  const per = valuedBy === 'own' ? pricedPer : 1
  const held = count * 10_000 + partTenThousandths
  return [
    `${numberText(held / 10_000, { maximumFractionDigits: 4 })} × ${priceWords(oneMinor, currency)}`,
    per > 1 ? say(' ÷ {per} to the pack', { per }) : '',
    namesClass && valuedBy === 'class' ? say(', the price of its class') : '',
    (oneMinor * held) % (10_000 * per) === 0 ? '' : say(', rounded down'),
  ].join('')
}

export const photoWords = ({ photoFile }: Insured): string => (photoFile === null ? say('no photograph') : say('photograph'))
export const receiptWords = ({ receiptCount }: Insured): string =>
  receiptCount === 0 ? say('no receipt') : counted(receiptCount, 'receipt')

/** What is said of a dear thing beside its picture. */
export const dearLines = (thing: Valued, currency: string): string[] => [
  thing.title,
  ...[
    thing.description,
    thing.number ? say('Number {number}', { number: thing.number }) : '',
    say('{many}: {irreplaceableCase, select, yes {last known } other {}}{value}', {
      many: manyWords(thing),
      irreplaceableCase: thing.irreplaceable === 'out-of-print' && thing.oneMinor !== null,
      value: valueWords(thing, currency),
    }),
    [
      thing.boughtOn ? say('bought {boughtOn}', { boughtOn: formatDate(thing.boughtOn) }) : '',
      thing.recordedOn ? say('on record since {recordedOn}', { recordedOn: formatDate(thing.recordedOn) }) : '',
      thing.recordedBy ? say('by {recordedBy}', { recordedBy: thing.recordedBy }) : '',
    ]
      .filter(Boolean)
      .join(', '),
    [thing.placeLabel, thing.irreplaceable && irreplaceableWords[thing.irreplaceable], receiptWords(thing)]
      .filter(Boolean)
      .join(', '),
  ].filter(Boolean),
]

const caution = () =>
  say(
    'Values are what is on record, not a valuation. Ask the insurer which proof is wanted, and keep a copy of this list, of the photographs and of the receipts in another house.',
  )

/** The list as it is printed. */
export function insuranceSheet(
  list: InsuranceList,
  { ownerNames, today, currency }: { ownerNames: string; today: string; currency: string },
): InsuranceSheet {
  const price = (minor: number) => priceWords(minor, currency)
  const listed = (things: readonly Valued[]) =>
    things.map((thing) => [
      [thing.title, thing.description].filter(Boolean).join(', '),
      thing.placeLabel ?? '',
      manyWords(thing),
      thing.oneMinor === null ? say('not known') : price(thing.oneMinor),
      thing.oneMinor === null ? '' : price(thing.valueMinor),
    ])
  const columns = [
    { head: say('What'), share: 5 },
    { head: say('Where'), share: 2 },
    { head: say('How many'), share: 2 },
    { head: say('Price of one'), share: 1.6, isRight: true },
    { head: say('Value'), share: 1.6, isRight: true },
  ]
  const classes = list.totals.filter(({ count, partCount }) => count > 0 || partCount > 0)
  return {
    title: say('Insurance list'),
    lines: [ownerNames, formatDate(today)],
    before: [
      { kind: 'paragraph', text: caution() },
      {
        kind: 'table',
        columns: [
          { head: say('Class'), share: 5 },
          { head: say('How many'), share: 3 },
          { head: say('To replace'), share: 2, isRight: true },
        ],
        rows: [
          ...classes
            .filter((total) => total.class !== 'finished')
            .map((total) => [insuredClassWords[total.class], totalWords(total), totalValueWords(total, currency)]),
          [say('Goods together'), '', price(list.goodsMinor)],
          ...classes
            .filter((total) => total.class === 'finished')
            .map((total) => [insuredClassWords.finished, totalWords(total), totalValueWords(total, currency)]),
          [
            say('In all'),
            list.unvalued > 0
              ? say('{unvalued, plural, one {# thing} other {# things}} without a value', { unvalued: list.unvalued })
              : '',
            price(list.totalMinor),
          ],
        ],
      },
      ...(list.apart.length > 0
        ? [
            { kind: 'heading', text: say('Charts out of print') } as const,
            {
              kind: 'paragraph',
              text: say(
                'In no total above, since they cannot be bought; with what they were last known to cost, {price} together.',
                { price: price(list.apartMinor) },
              ),
            } as const,
            { kind: 'table', columns, rows: listed(list.apart) } as const,
          ]
        : []),
    ],
    picturedHead: say('Dear, and not to be replaced'),
    noPicture: say('no photograph'),
    pictured: list.dear.map((thing) => ({ lines: dearLines(thing, currency), picture: thing.photoFile })),
    after: classes.flatMap((total) => [
      { kind: 'heading', text: insuredClassWords[total.class] } as const,
      { kind: 'table', columns, rows: listed(list.things.filter((thing) => thing.class === total.class)) } as const,
    ]),
    footer: say('Insurance list of {ownerNames}, {today}. With prices: not for sharing.', {
      ownerNames,
      today: formatDate(today),
    }),
    pageOf: (page, pages) => say('{page} of {pages}', { page, pages }),
  }
}

/** The list as a file for spreadsheets, a line a thing. */
export const insuranceRows = (list: InsuranceList): (string | number | null)[][] => [
  [
    ...[
      say('Class'),
      say('What'),
      say('Number'),
      say('How many'),
      say('Part of a put-up'),
      say('Description'),
      say('Place'),
      say('Owner'),
      say('Bought on'),
      say('On record since'),
    ],
    ...[
      say('Recorded by'),
      say('Price of one'),
      say('Value'),
      say('Valued by'),
      say('Cannot be replaced'),
      say('Photograph'),
      say('Receipts'),
    ],
  ],
  ...[...list.things, ...list.apart].map((thing) => [
    thing.irreplaceable === 'out-of-print' ? say('Charts out of print, apart') : insuredClassWords[thing.class],
    ...[thing.title, thing.number, thing.count, thing.partTenThousandths === 0 ? null : thing.partTenThousandths / 10_000],
    ...[thing.description, thing.placeLabel, thing.ownerName, thing.boughtOn, thing.recordedOn, thing.recordedBy],
    thing.oneMinor === null ? null : (thing.oneMinor / 100).toFixed(2),
    thing.oneMinor === null ? null : (thing.valueMinor / 100).toFixed(2),
    { own: say('its own price'), class: say('its class'), nothing: say('not known') }[thing.valuedBy],
    thing.irreplaceable && irreplaceableWords[thing.irreplaceable],
    thing.photoFile === null ? say('no') : say('yes'),
    thing.receiptCount,
  ]),
]
