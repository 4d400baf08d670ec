import { expect, it } from 'vitest'
import { sideBySide } from '#lib/place/side-by-side'
import type { Batch } from '#lib/stock/batch'
import { accuracyOf, type CountedLine, countLinesOf, findSwapSuspects } from '#lib/stock/stocktake'
import { shareWords } from '#words/count'

// Source: the project's trade notes, scenario A14 "Stocktake", worked by hand. Owned 0311 10, 0742 6, Ecru 5, 0087 4, 1204 3 of which 1
// is out, last seen K-07. Expected on the shelf = owned - out = 10, 6, 5, 4, 2 = 27. Counted 8, 8, 5, 4, 2 = 27. Lines right 3 of 5 =
// 60%; gross error 2 + 2 = 4 of 27 = 14.8%. 0311 -2 with 0742 +2: look before adjusting. 1204 is right on the shelf; ignoring "out"
// would wrongly report 2 of 5 and 5 of 28.
// Where the five lie is not said; here each in a drawer of its own, none next to another.

const skein = 480_000
const held = (code: string, wholePutUps: number, home: string, current = home): Batch => ({
  ...{ id: `${code} in ${current}`, threadId: code, ownerId: 'shop', lot: null, putUpWord: null, putUpStrandTenths: skein },
  ...{ wholePutUps, partStrandTenths: 0, partCertainty: 'none', homePlaceId: home, currentPlaceId: current },
})
const owned = [
  held('0311', 10, 'T2.2'),
  held('0742', 6, 'T2.4'),
  held('Ecru', 5, 'T2.6'),
  held('0087', 4, 'T2.8'),
  held('1204', 2, 'T3.1'),
  held('1204', 1, 'T3.1', 'K-07'),
]
const counted: Record<string, number> = { '0311': 8, '0742': 8, Ecru: 5, '0087': 4, '1204': 2 }
const place = (id: string) => ({
  ...{ id, label: id, name: null, kind: 'drawer' as const, parentId: null, path: `/${id}/` },
  ...{ walkOrder: null, capacity: null },
})
const places = ['T2.2', 'T2.3', 'T2.4', 'T2.5', 'T2.6', 'T2.7', 'T2.8', 'T3.1'].map(place)
const codeOf = (batchId: string) => owned.find(({ id }) => id === batchId)?.threadId as string
const lines = countLinesOf(owned, new Set(places.map(({ id }) => id))).map(({ batchId, placeId, expected }): CountedLine => {
  const code = codeOf(batchId)
  const thread = { id: code, makerName: 'Larkholm', lineName: 'stranded', code }
  return { id: code, placeId, thread, expected, counted: counted[code] ?? null }
})

it('expects what is owned less what is out', () => {
  expect(lines.map(({ id, expected }) => [id, expected])).toEqual([
    ['0311', 10],
    ['0742', 6],
    ['Ecru', 5],
    ['0087', 4],
    ['1204', 2],
  ])
})

it('says 3 of 5 lines right and 4 of 27 wrong, though over and under cancel', () => {
  const accuracy = accuracyOf(lines)
  expect(accuracy).toEqual({ lines: 5, linesCounted: 5, linesRight: 3, expected: 27, counted: 27, grossError: 4 })
  expect(shareWords(accuracy.linesRight, accuracy.linesCounted)).toBe('60\u00a0%')
  expect(shareWords(accuracy.grossError, accuracy.expected)).toBe('14.8\u00a0%')
})

it('suspects two skeins of 0311 in the compartment of 0742, and nothing else', () => {
  expect(findSwapSuspects(lines, sideBySide(places))).toEqual([
    { underId: '0311', overId: '0742', putUps: 2, nearness: 'neighbouring-code' },
  ])
})

it('would report 2 of 5 and 5 of 28 if what is out were looked for on the shelf', () => {
  const asIfIn = lines.map((line) => (line.id === '1204' ? { ...line, expected: 3 } : line))
  expect(accuracyOf(asIfIn)).toMatchObject({ linesRight: 2, linesCounted: 5, grossError: 5, expected: 28 })
})
