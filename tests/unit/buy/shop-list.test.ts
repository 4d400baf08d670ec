import { expect, it } from 'vitest'
import type { ListDetail, ShownLine } from '#lib/db/buying/queries'
import type { BoughtThread } from '#lib/db/order/bought-threads'
import type { ThreadLine } from '#lib/thread/thread'
import { amountWords, groupLines, listCsv, listSheet, listText } from '../../../app/buy/lists/[listId]/list-rows'
import { addLineSchema, keepListSchema, listQuerySchema } from '../../../app/buy/lists/schema'

const line: ThreadLine = {
  ...{ id: 'l', makerId: 'm', makerName: 'Larkholm', name: 'stranded', fibre: null, strands: 6, putUpStrandTenths: 480_000 },
  ...{ putUpWord: 'skein', lotsMatter: false },
  dyeing: 'solid',
  working: 'rows',
}
const thread = (code: string, makerName = 'Larkholm'): BoughtThread => ({
  ...{ id: code, code, name: null, lab: null, priceMinor: 150, isLeaving: false, line: { ...line, makerName } },
})
const shown = (id: string, change: Partial<ShownLine>): ShownLine => ({
  ...{ id, position: 0, thread: null, text: null, putUpWord: null, putUpStrandTenths: 480_000, putUps: 1, packPutUps: 1 },
  ...{ isOneLot: false, matchLot: null, supplier: null, priceMinor: null, status: 'open', boughtPutUps: null, lot: null },
  ...{ paidMinor: null, instead: null, tickedAt: null, tickedBy: 'Hanne Drewitt', isCarried: false, home: null, note: null },
  ...change,
})
const lines = [
  shown('1', { thread: thread('0017'), putUps: 12, packPutUps: 6, supplier: 'Marl Street', priceMinor: 660 }),
  shown('2', { thread: thread('Tarn Blue', 'Oddny Loft'), putUps: 2, isOneLot: true, status: 'bought', paidMinor: 310 }),
  shown('3', { text: 'needles 26', putUps: 2, note: '=1+1' }),
]
const list: Pick<ListDetail, 'list' | 'lines' | 'sums'> = {
  list: {
    ...{ id: 's', title: 'Saturday', ownerId: 'o', ownerName: 'Hanne Drewitt', startedAt: new Date(0) },
    ...{ startedBy: 'Hanne Drewitt', closedAt: null, closedBy: null, note: null, version: 0 },
    status: 'open',
  },
  lines,
  sums: { expectedMinor: 1_320, unpriced: 2, paidMinor: 310, unpaid: 0 },
}
const said = { by: 'supplier', unit: 'm', currency: '€', withPrices: false } as const

it('says a list as text, by shop, without prices or whom it is for', () => {
  expect(listText(list, said)).toBe(
    [
      'Saturday',
      '',
      'Marl Street',
      '- Larkholm 0017: 2 packs of 6 skeins of 8 m (stranded)',
      '',
      'Anywhere',
      '- Oddny Loft Tarn Blue: 2 skeins of 8 m (stranded, all of one lot, bought)',
      '- needles 26 × 2 (=1+1)',
    ].join('\n'),
  )
})

it('says prices where they are asked for', () => {
  const text = listText(list, { ...said, by: 'maker', withPrices: true })
  expect(text).toContain('Larkholm 0017: 2 packs of 6 skeins of 8 m (stranded, € 13.20)')
  expect(text).toContain('Expected: € 13.20, and 2 lines without a price')
  expect(groupLines(lines, 'maker').map(({ title }) => title)).toEqual(['Larkholm', 'Oddny Loft', 'Other things'])
})

it('writes a file no spreadsheet reckons with, and without prices has no column for them', () => {
  const plain = listCsv({ lines }, said).split('\r\n')
  expect(plain[0]).not.toContain('Paid')
  expect(plain[1]).toContain('0017')
  expect(plain[3]).not.toMatch(/(^|,)=1\+1/)
  expect(listCsv({ lines }, { ...said, withPrices: true })).toContain('13.20')
})

it('has a box for every line on paper', () => {
  const { blocks } = listSheet(list, 'Sat 5 Sep 2026', said)
  const rows = blocks.flatMap((block) => (block.kind === 'table' ? block.rows : []))
  expect(rows.map(([box, what]) => [box, what])).toEqual([
    ['[   ]', 'Larkholm stranded 0017'],
    ['bought', 'Oddny Loft stranded Tarn Blue'],
    ['[   ]', 'needles 26'],
  ])
  expect(amountWords(lines[2] as ShownLine, 'm')).toBe('2')
})

it('reads its forms', () => {
  expect(keepListSchema.parse({ listId: 's', title: 'a', ownerId: 'o', designs: 'd1 d2', lists: '' })).toMatchObject({
    ...{ designs: ['d1', 'd2'], lists: [], projects: [], withPerhaps: false },
  })
  expect(addLineSchema.parse({ listId: 's', lineId: 'l', what: 'needles 26', putUps: '' }).putUps).toBe(1)
  expect(addLineSchema.safeParse({ listId: 's', lineId: 'l', what: '', putUps: 'two' }).error?.issues).toHaveLength(2)
  expect(listQuerySchema.parse({ by: 'price', prices: 'yes' })).toEqual({ by: 'supplier', prices: false })
})
