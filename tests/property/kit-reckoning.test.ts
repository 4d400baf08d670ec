import fc from 'fast-check'
import { expect, it } from 'vitest'
import { type CostedLine, costKits } from '#lib/project/kit/cost'
import { type KitItemStock, type KitStock, reckonKits } from '#lib/project/kit/reckoning'
import { shareNotions } from '#lib/project/kit/reserves'
import type { Batch } from '#lib/stock/batch'

const seeded = { seed: 20_261_129, numRuns: 300 }
const putUp = 80
const small = fc.integer({ min: 0, max: 30 })

const batch = fc.record({
  threadId: fc.constantFrom('a', 'b'),
  lot: fc.constantFrom('1', '2'),
  wholePutUps: fc.integer({ min: 0, max: 6 }),
})
const item = fc.record({
  perKit: fc.integer({ min: 1, max: 4 }),
  have: fc.option(small),
  packOf: fc.option(fc.integer({ min: 1, max: 7 })),
})

const stocks = fc
  .record({
    kits: fc.integer({ min: 1, max: 12 }),
    spares: fc.integer({ min: 0, max: 3 }),
    sold: fc.integer({ min: 0, max: 3 }),
    cuts: fc.tuple(fc.integer({ min: 1, max: 200 }), fc.integer({ min: 1, max: 80 })),
    batches: fc.array(batch, { maxLength: 6 }),
    lotsMatter: fc.boolean(),
    cloth: fc.option(fc.record({ cut: small, kept: small, free: small })),
    charts: small,
    items: fc.array(item, { maxLength: 3 }),
  })
  .map(({ kits, spares, sold, cuts, batches, lotsMatter, cloth, charts, items }): KitStock => {
    const line = { lotsMatter, putUpStrandTenths: putUp }
    return {
      ...{ copies: kits + spares, spares, soldSpares: Math.min(sold, spares) },
      threads: {
        needs: [
          { threadId: 'a', strandTenths: cuts[0] },
          { threadId: 'b', strandTenths: cuts[1] },
        ],
        cut: new Map(),
        batches: batches.map(
          (one, at): Batch => ({
            ...{ ...one, id: `b${at}`, ownerId: 'o', putUpWord: null, putUpStrandTenths: putUp, partStrandTenths: 0 },
            ...{ partCertainty: 'none', homePlaceId: null, currentPlaceId: null },
          }),
        ),
        promises: [],
        lines: new Map([
          ['a', line],
          ['b', line],
        ]),
        projectId: 'p',
      },
      cloth: cloth && { ...cloth, bolt: null },
      chart: { isFile: false, copies: charts },
      items: items.map((one, at): KitItemStock => ({ ...one, id: `i${at}` })),
    }
  })

it('no more kits can be made than any line allows, nor than are wanted, and what stops the next is just used up', () => {
  fc.assert(
    fc.property(stocks, (stock) => {
      const { makeable, lines, stops, copies } = reckonKits(stock)
      if (makeable === null) return
      expect(makeable).toBeLessThanOrEqual(copies)
      for (const { kits } of lines) if (kits !== null) expect(makeable).toBeLessThanOrEqual(kits)
      expect(stops.length > 0).toBe(makeable < copies)
      for (const { key } of stops) expect(lines.find((line) => line.key === key)?.kits).toBe(makeable)
    }),
    seeded,
  )
})

it('nothing is to be bought of a line just when it allows all kits', () => {
  fc.assert(
    fc.property(stocks, (stock) => {
      const { lines, copies } = reckonKits(stock)
      for (const { kits, toBuy } of lines) if (kits !== null) expect(toBuy === null).toBe(kits >= copies)
    }),
    seeded,
  )
})

it('more of anything never makes fewer kits', () => {
  fc.assert(
    fc.property(stocks, batch, (stock, more) => {
      const before = reckonKits(stock).makeable ?? 0
      const another: Batch = {
        ...{ ...more, id: 'more', ownerId: 'o', putUpWord: null, putUpStrandTenths: putUp, partStrandTenths: 0 },
        ...{ partCertainty: 'none', homePlaceId: null, currentPlaceId: null },
      }
      const grown: KitStock[] = [
        { ...stock, threads: { ...stock.threads, batches: [...stock.threads.batches, another] } },
        { ...stock, chart: { ...stock.chart, copies: stock.chart.copies + 1 } },
        { ...stock, cloth: stock.cloth && { ...stock.cloth, free: stock.cloth.free + 1 } },
        { ...stock, items: stock.items.map((one) => ({ ...one, have: one.have === null ? null : one.have + 1 })) },
      ]
      for (const one of grown) expect(reckonKits(one).makeable ?? 0).toBeGreaterThanOrEqual(before)
    }),
    seeded,
  )
})

it('what is bought of a line for one more kit makes it', () => {
  fc.assert(
    fc.property(stocks, (stock) => {
      const { makeable, stops } = reckonKits(stock)
      if (makeable === null) return
      let grown = stock
      for (const { key, toBuy } of stops) {
        if (toBuy?.kind === 'item')
          grown = {
            ...grown,
            items: grown.items.map((one) => (key === `item:${one.id}` ? { ...one, have: (one.have ?? 0) + toBuy.count } : one)),
          }
        else if (toBuy?.kind === 'chart')
          grown = { ...grown, chart: { ...grown.chart, copies: grown.chart.copies + toBuy.copies } }
        else if (toBuy?.kind === 'cloth' && grown.cloth)
          grown = { ...grown, cloth: { ...grown.cloth, free: grown.cloth.free + toBuy.pieces } }
        else if (toBuy?.kind === 'thread') {
          const threadId = key.slice('thread:'.length)
          const line = reckonKits(stock).lines.find((one) => one.key === key)
          const lot = line?.kind === 'thread' ? (line.lot ?? 'new') : 'new'
          const bought: Batch = {
            ...{ id: `bought ${threadId}`, threadId, ownerId: 'o', lot, putUpWord: null, putUpStrandTenths: putUp },
            ...{ wholePutUps: toBuy.putUps, partStrandTenths: 0, partCertainty: 'none', homePlaceId: null, currentPlaceId: null },
          }
          grown = { ...grown, threads: { ...grown.threads, batches: [...grown.threads.batches, bought] } }
        }
      }
      if (stops.length > 0) expect(reckonKits(grown).makeable ?? 0).toBeGreaterThan(makeable)
    }),
    seeded,
  )
})

it('shares out no more of a notion than there is, and no more than is wanted', () => {
  const rows = fc.array(
    fc.record({
      alike: fc.constantFrom('x', 'y'),
      count: small,
      isOut: fc.boolean(),
      projectId: fc.constantFrom(null, 'p', 'q'),
    }),
    { maxLength: 8 },
  )
  const wants = fc.array(fc.record({ alike: fc.constantFrom('x', 'y'), count: small, projectId: fc.constantFrom('p', 'q') }), {
    maxLength: 6,
  })
  fc.assert(
    fc.property(rows, wants, (held, wanted) => {
      const named = wanted.map((want, at) => ({ ...want, itemId: `i${at}` }))
      const shares = shareNotions(held, named)
      for (const alike of ['x', 'y']) {
        const given = named.flatMap((want) => (want.alike === alike ? [shares.get(want.itemId)] : []))
        const sum = given.reduce((total, share) => total + (share?.taken ?? 0) + (share?.reserved ?? 0), 0)
        const usable = held.reduce(
          (total, row) => (row.alike === alike && (row.projectId !== null || !row.isOut) ? total + row.count : total),
          0,
        )
        expect(sum + (given[0]?.free ?? 0)).toBeLessThanOrEqual(usable)
      }
      for (const { itemId, count } of named) {
        const { taken = 0, reserved = 0 } = shares.get(itemId) ?? {}
        expect(taken + reserved).toBeLessThanOrEqual(count)
      }
    }),
    seeded,
  )
})

it('used and left over are together what is bought, and sums are the sums of the lines', () => {
  const line = fc.record({
    perKitStrandTenths: fc.integer({ min: 1, max: 100_000 }),
    more: fc.integer({ min: 0, max: 5 }),
    putUpPriceMinor: fc.option(fc.integer({ min: 0, max: 2_000 })),
  })
  fc.assert(
    fc.property(fc.array(line, { maxLength: 6 }), fc.integer({ min: 1, max: 40 }), (threads, copies) => {
      const lines = threads.map(({ more, ...thread }, at): CostedLine => {
        const putUpsForAll = Math.ceil((thread.perKitStrandTenths * copies) / 80_000) + more
        return { ...thread, kind: 'thread', key: `t${at}`, putUpsForAll, putUpStrandTenths: 80_000 }
      })
      const cost = costKits({ copies, spares: 0, soldSpares: 0, lines, kitPriceMinor: null })
      for (const [at, one] of cost.lines.entries()) {
        const of = lines[at]
        if (of?.kind !== 'thread' || of.putUpPriceMinor === null) continue
        expect((one.forAllMinor ?? 0) + one.leftOverMinor).toBe(of.putUpsForAll * of.putUpPriceMinor)
        expect(one.leftOverMinor).toBeGreaterThanOrEqual(0)
      }
      expect(cost.perKitMinor).toBe(cost.lines.reduce((sum, { perKitMinor }) => sum + (perKitMinor ?? 0), 0))
    }),
    seeded,
  )
})
