import { describe, expect, it } from 'vitest'
import { hashWords } from '#lib/chart/cover-hash'
import { suggestNames } from '#lib/chart/doubles-names'
import { type ComparedChart, compareCharts, pairKey, sharedCount, suggestDoubles } from '#lib/chart/doubles-suggested'
import { titleForm } from '#lib/chart/likeness'

const none = new Set<string>()

const chart = (id: string, title: string, over: Partial<ComparedChart> = {}): ComparedChart => ({
  ...{ id, ownerId: 'shop', isFile: false, titles: [titleForm(title)], designerIds: ['stoat'], sizes: [], designCount: 1 },
  ...{ threads: new Uint32Array(), cover: null, fileHashes: [], edition: null },
  ...over,
})
const threads = (...numbers: number[]) => Uint32Array.from(numbers)
const reasons = (a: ComparedChart, b: ComparedChart) => suggestDoubles([a, b], none)[0]?.reasons.map(({ kind }) => kind) ?? null

describe('charts', () => {
  it('of one title and designer are suggested, sizes that differ notwithstanding', () => {
    expect(reasons(chart('a', 'Rook Hill in Snow'), chart('b', 'Rook Hill in the Snow'))).toEqual(['same-title', 'same-designer'])
    const [pair] = suggestDoubles(
      [
        chart('a', 'Nine Wrens', { sizes: ['80×90'], threads: threads(1, 2, 3, 4) }),
        chart('b', '9 Wrens', { sizes: ['80×90'], threads: threads(5, 6, 7, 8), edition: 'second' }),
      ],
      none,
    )
    expect(pair).toMatchObject({ doubts: ['other-threads'] })
    expect(
      compareCharts(chart('a', 'Nine Wrens', { sizes: ['80×90'] }), chart('b', 'Nine Wrens', { sizes: ['80×95'] })).doubts,
    ).toEqual(['other-size'])
  })

  it('under another title are known by designer, size and threads', () => {
    const palette = { sizes: ['98×140'], threads: threads(3, 8, 11, 20, 31, 44, 57, 60, 71, 83) }
    const other = { ...palette, threads: threads(3, 8, 11, 20, 31, 44, 57, 60, 71, 99) }
    expect(reasons(chart('a', 'Rook Hill', palette), chart('b', 'Winter Post', other))).toEqual([
      'same-designer',
      'same-size',
      'same-threads',
    ])
    // Nine of eleven threads in common.
    expect(compareCharts(chart('a', 'x', palette), chart('b', 'y', other)).reasons).toContainEqual({
      kind: 'same-threads',
      shared: 9,
      of: 11,
    })
  })

  it('with another cover or title are known by the cover picture, or the very file', () => {
    const one = { cover: hashWords('0f0f0f0f0f0f0f0f'), designerIds: [] }
    const near = { cover: hashWords('0f0f0f0f0f0f0f0c'), designerIds: [] }
    expect(reasons(chart('a', 'Rook Hill', one), chart('b', 'Winter Post', near))).toEqual(['same-cover'])
    expect(
      reasons(chart('a', 'Rook Hill', { fileHashes: ['f1'] }), chart('b', 'Page', { fileHashes: ['f1'], designerIds: [] })),
    ).toEqual(['same-file'])
  })

  it.each([
    ['two parts of a series', chart('a', 'Winter Post 1'), chart('b', 'Winter Post 2')],
    ['one title by two designers', chart('a', 'Nine Wrens'), chart('b', 'Nine Wrens', { designerIds: ['pindar'] })],
    ['two owners’ copies', chart('a', 'Nine Wrens'), chart('b', 'Nine Wrens', { ownerId: 'hanne' })],
    ['a file and a leaflet', chart('a', 'Nine Wrens'), chart('b', 'Nine Wrens', { isFile: true })],
    [
      'one designer and size alone',
      chart('a', 'Nine Wrens', { sizes: ['80×90'] }),
      chart('b', 'Salt Road', { sizes: ['80×90'] }),
    ],
  ])('that are %s are not suggested', (_what, a, b) => expect(suggestDoubles([a, b], none)).toEqual([]))

  it('are not suggested once told apart, and in one order however they come', () => {
    const charts = [
      chart('c', 'Salt Road'),
      chart('a', 'The Salt Road'),
      chart('b', 'Nine Wrens'),
      chart('d', 'Nine Wrens', { sizes: ['8×9'] }),
    ]
    const pairs = suggestDoubles(charts, none).map(({ firstId, secondId }) => [firstId, secondId])
    expect(pairs).toEqual([
      ['a', 'c'],
      ['b', 'd'],
    ])
    expect(suggestDoubles(charts.toReversed(), none).map(({ firstId, secondId }) => [firstId, secondId])).toEqual(pairs)
    expect(suggestDoubles(charts, new Set([pairKey('d', 'b')])).map(({ firstId }) => firstId)).toEqual(['a'])
  })

  it('share so many threads', () => {
    expect(sharedCount(threads(1, 3, 5), threads(3, 4, 5, 6))).toBe(2)
    expect(sharedCount(threads(), threads(1))).toBe(0)
  })
})

describe('names', () => {
  it('that may be two spellings of one stand with their reason, the surest first', () => {
    const all = [
      'Mirabel Stoat',
      'M. Stoat',
      'Hester Pindar',
      'Hester Pinder',
      'Plover & Rye',
      'Plover and Rye Designs',
      'Wilf Sarratt',
    ]
    const named = all.map((name) => ({ id: name, name }))
    expect(suggestNames(named, none).map(({ firstId, secondId, reason }) => [firstId, secondId, reason])).toEqual([
      ['Plover & Rye', 'Plover and Rye Designs', 'same-name'],
      ['M. Stoat', 'Mirabel Stoat', 'initials'],
      ['Hester Pindar', 'Hester Pinder', 'near-name'],
    ])
    expect(suggestNames(named, new Set([pairKey('Hester Pinder', 'Hester Pindar')]))).toHaveLength(2)
  })
})
