import { expect, it } from 'vitest'
import type { ThreadList } from '#lib/chart/thread-list'
import { compareThreadLists, coverDesign } from '#lib/coverage/design-cover'
import { needOfList } from '#lib/coverage/need'
import { freeStockByThread } from '#lib/stock/free-stock'
import type { ThreadLine } from '#lib/thread/thread'

// Source: the project's trade notes, scenario A16 "Two lists", worked by hand. Orchard Gate has a cotton list (12 threads) and a
// hand-dyed list (9; three pairs of symbols share a thread). Stash holds 11 of 12 and 9 of 9: hand-dyed is complete but merges 3 pairs;
// cotton is 1 short and keeps all 12.

const symbols = ['a', 'b', 'c', 'd', 'e', 'f', 'g', 'h', 'i', 'j', 'k', 'l']
const aList = (name: string, threadOf: (index: number) => number): ThreadList => ({
  id: name,
  designId: 'Orchard Gate',
  name,
  keyLines: symbols.map((symbol, index) => ({
    id: `${name} ${symbol}`,
    symbol,
    tally: { full: 200 },
    threads: [{ threadId: `${name} ${threadOf(index)}`, strands: 2, stated: null }],
  })),
})
const cotton = aList('cotton', (index) => index)
const handDyed = aList('hand-dyed', (index) => index % 9)

const line: ThreadLine = {
  id: 'line',
  makerId: 'maker',
  makerName: 'Larkholm',
  name: 'Stranded cotton',
  fibre: 'cotton',
  strands: 6,
  putUpStrandTenths: 480_000,
  putUpWord: 'skein',
  dyeing: 'solid',
  lotsMatter: false,
  working: 'rows',
}
const dyedLine: ThreadLine = {
  ...line,
  makerName: 'Oddny Loft',
  putUpStrandTenths: 274_320,
  dyeing: 'overdyed',
  lotsMatter: true,
}
const threadIds = (list: ThreadList) => [
  ...new Set(list.keyLines.flatMap((keyLine) => keyLine.threads.map((thread) => thread.threadId))),
]
const lines = new Map([
  ...threadIds(cotton).map((id): [string, ThreadLine] => [id, line]),
  ...threadIds(handDyed).map((id): [string, ThreadLine] => [id, dyedLine]),
])
const free = freeStockByThread({
  batches: [...lines].flatMap(([threadId, { putUpStrandTenths }]) =>
    threadId === 'cotton 4'
      ? []
      : [
          {
            id: threadId,
            threadId,
            ownerId: 'own stash',
            lot: 'one',
            putUpWord: null,
            putUpStrandTenths,
            wholePutUps: 1,
            partStrandTenths: 0,
            partCertainty: 'none' as const,
            homePlaceId: null,
            currentPlaceId: null,
          },
        ],
  ),
  promises: [],
  ownerIds: ['own stash'],
})

const cover = (list: ThreadList) => ({
  list,
  cover: coverDesign({
    needs: needOfList({ list, lines, advised: null, size: null, coverKind: null, settings: { allowance: 1.5 } }),
    free,
    lines,
    standIns: new Map(),
  }),
})

it('puts the complete list first and says what it merges', () => {
  const compared = compareThreadLists([cover(cotton), cover(handDyed)])
  expect(compared).toMatchObject([
    {
      listId: 'hand-dyed',
      symbolCount: 12,
      colourCount: 9,
      mergedCount: 3,
      cover: { isStitchable: true, readyCount: 9, threadCount: 9 },
    },
    {
      listId: 'cotton',
      symbolCount: 12,
      colourCount: 12,
      mergedCount: 0,
      cover: { isStitchable: false, readyCount: 11, shortPutUps: 1 },
    },
  ])
  expect(compareThreadLists([cover(handDyed), cover(cotton)])).toEqual(compared)
})
