import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type MergingChart, mergedChart, mergedFields, pairDesigns, takes } from '#lib/chart/doubles-merged'
import { type ComparedChart, compareCharts, pairKey, suggestDoubles } from '#lib/chart/doubles-suggested'
import { titleForm } from '#lib/chart/likeness'

const settings = { seed: 20261130, numRuns: 60 }

const words = ['rook', 'hill', 'snow', 'lantern', 'kettle', 'cross', 'three', '3', 'The', 'wren', 'salt', 'road']
const title = fc.array(fc.constantFrom(...words), { minLength: 1, maxLength: 4 }).map((some) => some.join(' '))
const oneOf = <T>(...values: T[]) => fc.constantFrom(...values)

const compared = fc.record({
  ownerId: oneOf('shop', 'hanne'),
  isFile: fc.boolean(),
  titles: fc.array(title.map(titleForm), { minLength: 1, maxLength: 2 }),
  designerIds: fc.uniqueArray(oneOf('stoat', 'pindar', 'quayle'), { maxLength: 2 }),
  sizes: fc.array(oneOf('80×90', '98×140', '50×50'), { maxLength: 2 }).map((sizes) => sizes.sort()),
  threads: fc.uniqueArray(fc.integer({ min: 0, max: 12 }), { maxLength: 9 }).map((some) => Uint32Array.from(some).sort()),
  cover: fc.option(
    oneOf([0x0f0f0f0f, 0x0f0f0f0f], [0x0f0f0f0e, 0x0f0f0f0f], [0x70f0f0f0, 0x00ff00ff]) as fc.Arbitrary<[number, number]>,
  ),
  fileHashes: fc.array(oneOf('f1', 'f2'), { maxLength: 1 }),
  edition: fc.option(oneOf('1st', '2nd')),
})
const larder = fc
  .array(compared, { maxLength: 14 })
  .map((charts) =>
    charts.map((chart, at): ComparedChart => ({ ...chart, id: `c${String(at).padStart(2, '0')}`, designCount: 1 })),
  )

describe('suggestions', () => {
  it('are those of holding every chart against every other, as far as title, file, cover, or designer and size are the same', () => {
    fc.assert(
      fc.property(larder, (charts) => {
        const found = suggestDoubles(charts, new Set())
        const byPair = new Map(found.map((pair) => [pairKey(pair.firstId, pair.secondId), pair]))
        expect(byPair.size).toBe(found.length)
        for (const [at, b] of charts.entries())
          for (const a of charts.slice(0, at)) {
            const { weight, reasons } = compareCharts(a, b)
            const pair = byPair.get(pairKey(a.id, b.id))
            const isOne = a.ownerId === b.ownerId && a.isFile === b.isFile && weight >= 5
            if (!isOne) expect(pair).toBeUndefined()
            const kinds = reasons.map(({ kind }) => kind)
            const isKeyed =
              kinds.some((kind) => kind === 'same-title' || kind === 'same-file' || kind === 'same-cover') ||
              (kinds.includes('same-designer') && kinds.includes('same-size'))
            if (isOne && isKeyed) expect(pair, `${kinds}`).toMatchObject({ weight })
          }
      }),
      settings,
    )
  })

  it('do not depend on the order charts come in, and leave out what was told apart', () => {
    fc.assert(
      fc.property(larder, fc.infiniteStream(fc.nat()), (charts, turns) => {
        const found = suggestDoubles(charts, new Set())
        const mixed = charts.map((chart) => ({ chart, turn: turns.next().value as number })).sort((a, b) => a.turn - b.turn)
        const told = ({ firstId, secondId, weight }: (typeof found)[number]) => [firstId, secondId, weight]
        expect(
          suggestDoubles(
            mixed.map(({ chart }) => chart),
            new Set(),
          ).map(told),
        ).toEqual(found.map(told))
        const [first] = found
        if (!first) return
        const apart = new Set([pairKey(first.secondId, first.firstId)])
        expect(suggestDoubles(charts, apart).map(told)).toEqual(found.slice(1).map(told))
      }),
      settings,
    )
  })
})

const merging = (id: string): fc.Arbitrary<MergingChart> =>
  fc.record({
    id: fc.constant(id),
    title: oneOf('Rook Hill', 'Rooks', 'rook hill'),
    kind: oneOf('leaflet' as const, 'booklet' as const),
    copies: fc.integer({ min: 0, max: 9 }),
    edition: fc.option(oneOf('1st', '2nd')),
    partsNeeded: fc.constant(1),
    partsHeld: fc.constant(1),
    homePlaceId: fc.option(oneOf('R1', 'R2')),
    currentPlaceId: fc.option(oneOf('R1', 'R2', 'ines')),
    outSince: fc.constant(null),
    boughtOn: fc.option(oneOf('2024-01-01', '2025-01-01')),
    priceMinor: fc.option(fc.integer({ min: 0, max: 900 })),
    isOutOfPrint: fc.boolean(),
    coverFile: fc.option(oneOf('a.webp', 'b.webp')),
    coverHash: fc.constant(null),
    note: fc.option(oneOf('a gift', 'torn')),
    designerIds: fc.uniqueArray(oneOf('stoat', 'pindar'), { maxLength: 2 }),
  })
const choices = fc.dictionary(oneOf(...mergedFields), oneOf(...takes))

describe('two charts made one', () => {
  it('hold the copies of both, say nothing that neither said, and keep or remember each title', () => {
    fc.assert(
      fc.property(merging('a'), merging('b'), choices, (kept, other, chosen) => {
        const { chart, givenUpTitle } = mergedChart(kept, other, chosen)
        expect(chart.copies).toBe(kept.copies + other.copies)
        for (const field of ['edition', 'boughtOn', 'priceMinor', 'coverFile', 'title', 'kind'] as const)
          expect([kept[field], other[field]]).toContain(chart[field])
        const titles = [chart.title, givenUpTitle ?? chart.title].map((one) => one.toLowerCase())
        for (const { title: one } of [kept, other]) expect(titles).toContain(one.toLowerCase())
        // Where nobody chose, nothing that one of them knew is forgotten.
        const unasked = mergedChart(kept, other, {}).chart
        for (const field of ['edition', 'boughtOn', 'priceMinor', 'coverFile', 'note', 'homePlaceId'] as const)
          expect(unasked[field] === null).toBe(kept[field] === null && other[field] === null)
      }),
      settings,
    )
  })

  it('take every design of the other, and none of theirs twice', () => {
    const designs = (mark: string) =>
      fc
        .uniqueArray(title, { maxLength: 4, selector: (one) => one.toLowerCase() })
        .map((some) => some.map((one, at) => ({ id: `${mark}${at}`, title: one })))
    fc.assert(
      fc.property(designs('k'), designs('o'), (kept, other) => {
        const pairs = pairDesigns(kept, other)
        expect(pairs.map(({ otherId }) => otherId)).toEqual(other.map(({ id }) => id))
        const united = pairs.flatMap(({ keptId }) => keptId ?? [])
        expect(new Set(united).size).toBe(united.length)
      }),
      settings,
    )
  })
})
