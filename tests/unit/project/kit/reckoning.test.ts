import { describe, expect, it } from 'vitest'
import { type KitStock, reckonKits } from '#lib/project/kit/reckoning'
import type { Batch } from '#lib/stock/batch'

const batch = (over: Partial<Batch>): Batch => ({
  ...{ id: 'b1', threadId: 'red', ownerId: 'shop', lot: null, putUpWord: null, putUpStrandTenths: 80, wholePutUps: 1 },
  ...{ partStrandTenths: 0, partCertainty: 'none', homePlaceId: 'drawer', currentPlaceId: 'drawer' },
  ...over,
})

const stock = (over: Partial<KitStock> = {}): KitStock => ({
  ...{ copies: 4, spares: 1, soldSpares: 0 },
  threads: {
    needs: [{ threadId: 'red', strandTenths: 30 }],
    cut: new Map(),
    ...{ batches: [batch({ wholePutUps: 2 })], promises: [], projectId: 'p1' },
    lines: new Map([['red', { lotsMatter: false, putUpStrandTenths: 80 }]]),
  },
  cloth: { cut: 1, kept: 2, free: 1, bolt: null },
  chart: { isFile: false, copies: 3 },
  items: [],
  ...over,
})

const lineOf = (reckoning: ReturnType<typeof reckonKits>, key: string) => reckoning.lines.find((line) => line.key === key)

describe('a batch of kits', () => {
  it('can be made as far as the line there is least of', () => {
    // Two put-ups give two cuts of 30 each; cloth 1 + 2 + 1; three charts for three kits and none for the spare.
    expect(reckonKits(stock())).toMatchObject({ makeable: 4, stops: [], unknown: [] })
    expect(reckonKits(stock({ cloth: { cut: 1, kept: 0, free: 1, bolt: null } }))).toMatchObject({
      makeable: 2,
      stops: [{ key: 'cloth', toBuy: { kind: 'cloth', pieces: 1, lengthUm: null } }],
    })
  })

  it('lets short charts stop kits that are sold, and a spare only when it is', () => {
    expect(lineOf(reckonKits(stock({ chart: { isFile: false, copies: 2 } })), 'chart')).toMatchObject({ kits: 2, wanted: 3 })
    expect(lineOf(reckonKits(stock({ chart: { isFile: false, copies: 3 } })), 'chart')).toMatchObject({ kits: 4, toBuy: null })
    expect(reckonKits(stock({ soldSpares: 1 }))).toMatchObject({
      makeable: 3,
      stops: [{ key: 'chart', toBuy: { kind: 'chart', copies: 1 } }],
    })
  })

  it('is not stopped by what nobody can count, and names it', () => {
    const reckoning = reckonKits(
      stock({ cloth: null, chart: { isFile: true, copies: 0 }, items: [{ id: 'sheet', perKit: 1, have: null, packOf: null }] }),
    )
    expect(reckoning).toMatchObject({ makeable: 4, unknown: ['cloth', 'chart', 'item:sheet'] })
    expect(lineOf(reckoning, 'chart')).toMatchObject({ wanted: 3, toBuy: { copies: 3 } })
  })

  it('counts items by the kit: 7 beads of 3 a kit are two kits, and what is short is bought in packs', () => {
    const reckoning = reckonKits(stock({ items: [{ id: 'beads', perKit: 3, have: 7, packOf: 4 }] }))
    expect(reckoning).toMatchObject({
      makeable: 2,
      // Nine for three kits, of which seven are there: two, one pack.
      stops: [{ key: 'item:beads', toBuy: { kind: 'item', count: 2, packs: 1 } }],
    })
    expect(lineOf(reckoning, 'item:beads')).toMatchObject({ wanted: 12, packsForAll: 3, toBuy: { count: 5, packs: 2 } })
  })

  it('wants no more thread for kits that have their cut', () => {
    const threads = { ...stock().threads, batches: [batch({ wholePutUps: 1 })], cut: new Map([['red', 2]]) }
    const reckoning = reckonKits(stock({ threads }))
    expect(reckoning.makeable).toBe(4)
    expect(lineOf(reckoning, 'thread:red')).toMatchObject({ cut: 2, kits: 4, toBuy: null, putUpsForAll: 2 })
    const none = { ...threads, batches: [] }
    expect(lineOf(reckonKits(stock({ threads: none })), 'thread:red')).toMatchObject({ kits: 2, toBuy: { putUps: 1 } })
  })

  it('says nothing while nobody said what goes into a kit', () => {
    const threads = { ...stock().threads, needs: [] }
    expect(reckonKits(stock({ threads }))).toMatchObject({ makeable: null, stops: [] })
  })

  it('refuses numbers that make no sense', () => {
    expect(() => reckonKits(stock({ copies: 0, spares: 0 }))).toThrow(RangeError)
    expect(() => reckonKits(stock({ spares: 5 }))).toThrow(RangeError)
    expect(() => reckonKits(stock({ soldSpares: 2 }))).toThrow(RangeError)
    expect(() => reckonKits(stock({ items: [{ id: 'x', perKit: 0, have: 1, packOf: null }] }))).toThrow(RangeError)
  })
})
