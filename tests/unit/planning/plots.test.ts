import { describe, expect, it } from 'vitest'
import { meansOf, paceWeeks } from '#lib/planning/pace/pace'
import { clothByCount } from '#lib/planning/plots/cloth-counts'
import { outByAge } from '#lib/planning/plots/out-ages'
import { coverBySeason, nearnessOf } from '#lib/planning/plots/season-cover'
import { monthsUpTo, type StashMovement, stashMonths } from '#lib/planning/plots/stash-months'
import { UM_PER_INCH } from '#lib/quantity/cloth-length'

describe('pace over time', () => {
  it('has the weeks and both means of scenario A7, whatever the number of weeks asked for', () => {
    const work = [
      ['2026-08-11', 2_450],
      ['2026-08-23', 2_120],
      ['2026-09-02', 2_330],
    ].map(([day, amount]) => ({ day: day as string, amount: amount as number, minutes: 0 }))
    const away = [{ fromOn: '2026-08-24', toOn: '2026-08-30' }]
    const asked = { work, away, today: '2026-09-07', firstWeekday: 1 }
    const { weeks } = paceWeeks({ ...asked, most: 26 })
    expect(weeks.map(({ amount, isAway }) => [amount, isAway])).toEqual([
      [2_450, false],
      [2_120, false],
      [0, true],
      [2_330, false],
    ])
    // 6,900 in three weeks is 2,300; in four, 1,725.
    expect(meansOf(weeks)).toEqual({ stitchedWeeks: { amount: 6_900, weeks: 3 }, allWeeks: { amount: 6_900, weeks: 4 } })
    expect(paceWeeks({ ...asked, most: 2 }).weeks.map(({ startsOn }) => startsOn)).toEqual(['2026-08-24', '2026-08-31'])
  })
})

describe('a stash by the month', () => {
  const [hanne, shop] = ['hanne', 'shop']
  const moved = (day: string, kind: StashMovement['kind'], amount: number, over: Partial<StashMovement> = {}): StashMovement => ({
    ...{ day, kind, amount, ownerId: hanne, fromOwnerId: null, toOwnerId: null },
    ...over,
  })
  const asked = { months: ['2026-10', '2026-11'], ownerIds: new Set([hanne]) }

  it('goes back over the turn of a year', () => {
    expect(monthsUpTo('2027-02-28', 4)).toEqual(['2026-11', '2026-12', '2027-01', '2027-02'])
    expect(monthsUpTo('2026-03-31', 2)).toEqual(['2026-02', '2026-03'])
  })

  it('tells what came in and went out, and what was only counted right, apart', () => {
    const months = stashMonths(
      [
        moved('2026-10-31', 'receive', 6),
        moved('2026-11-01', 'use', -1.5),
        moved('2026-11-30', 'receive', 2),
        moved('2026-11-30', 'correct', -1),
        moved('2026-11-30', 'undo', -2),
        // Nothing that is owned changes by these.
        ...(['move', 'take', 'return', 'split', 'merge'] as const).map((kind) => moved('2026-11-02', kind, 4)),
        // Before, and after.
        moved('2026-09-30', 'receive', 50),
        moved('2026-12-01', 'receive', 50),
        // Somebody else's.
        moved('2026-11-03', 'receive', 50, { ownerId: shop }),
      ],
      asked,
    )
    expect(months).toEqual([
      { month: '2026-10', in: 6, out: 0, otherwise: 0 },
      { month: '2026-11', in: 2, out: 1.5, otherwise: -3 },
    ])
  })

  it('takes what changed hands as in for the one and out for the other, and as neither for both together', () => {
    const given = [moved('2026-11-05', 'transfer', 3, { fromOwnerId: shop, toOwnerId: hanne, ownerId: hanne })]
    const of = (...ownerIds: string[]) => stashMonths(given, { months: ['2026-11'], ownerIds: new Set(ownerIds) })[0]
    expect(of(hanne)).toMatchObject({ in: 3, out: 0 })
    expect(of(shop)).toMatchObject({ in: 0, out: 3 })
    expect(of(hanne, shop)).toMatchObject({ in: 0, out: 0 })
  })
})

describe('cover by season', () => {
  it('calls a design near when two put-ups are to be bought at most', () => {
    expect([
      nearnessOf({ isReady: true, buyPutUps: 0 }),
      nearnessOf({ isReady: false, buyPutUps: 2 }),
      nearnessOf({ isReady: false, buyPutUps: 3 }),
      nearnessOf({ isReady: false, buyPutUps: null }),
    ]).toEqual(['now', 'near', 'far', 'unknown'])
  })

  it('counts a design in every season it has, and those of none last', () => {
    const names = new Map([
      ['w', 'Winter'],
      ['a', 'Autumn'],
      ['s', 'Spring'],
    ])
    const cover = coverBySeason(
      [
        { seasonIds: [], nearness: 'unknown' },
        { seasonIds: [], nearness: 'far' },
        { seasonIds: [], nearness: 'far' },
        { seasonIds: ['w', 'a'], nearness: 'now' },
        { seasonIds: ['w'], nearness: 'near' },
        { seasonIds: ['s'], nearness: 'near' },
      ],
      (id) => names.get(id) ?? '',
    )
    expect(cover).toEqual([
      { seasonId: 'w', designs: 2, now: 1, near: 1, far: 0, unknown: 0 },
      { seasonId: 'a', designs: 1, now: 1, near: 0, far: 0, unknown: 0 },
      { seasonId: 's', designs: 1, now: 0, near: 1, far: 0, unknown: 0 },
      { seasonId: null, designs: 3, now: 0, near: 0, far: 2, unknown: 1 },
    ])
  })
})

describe('cloth by count', () => {
  const inches = (threads: number) => ({ threads, perUm: UM_PER_INCH })
  it('adds up the area of every count by how it is known, blocks and coarse cloth first', () => {
    const piece = (threads: number, weave: 'block' | 'single', width: number, height: number) => ({
      ...{ weave, ends: inches(threads), picks: inches(threads), countCertainty: 'label' as const, isCountStale: false },
      ...{ widthUm: width * UM_PER_INCH, heightUm: height * UM_PER_INCH },
    })
    const found = clothByCount([
      piece(32, 'single', 18, 27),
      { ...piece(28, 'single', 10, 10), countCertainty: 'measured' },
      // 110 per 10 cm is 27.94 an inch: spoken of as 28.
      { ...piece(28, 'single', 5, 5), ends: { threads: 110, perUm: 100_000 }, picks: { threads: 110, perUm: 100_000 } },
      { ...piece(28, 'single', 2, 3), countCertainty: 'guess', isCountStale: true },
      piece(14, 'block', 4, 4),
    ])
    const sqIn = UM_PER_INCH ** 2
    expect(found.map(({ weave, label, pieces, areaUm2 }) => [weave, label, pieces, areaUm2 / sqIn])).toEqual([
      ['block', '14', 1, 16],
      ['single', '28', 3, 131],
      ['single', '32', 1, 486],
    ])
    const { measured = 0, label = 0, guess = 0, stale = 0 } = found[1]?.areaUm2By ?? {}
    expect([measured, label, guess, stale].map((area) => area / sqIn)).toEqual([100, 25, 0, 6])
  })
})

describe('what is out', () => {
  it('lies in the shortest span that holds its days, and undated things in one of their own', () => {
    const today = '2026-11-30'
    const since = (sinceOn: string | null, noun: 'thread' | 'chart' = 'thread') => ({ noun, sinceOn })
    // 23 November is 7 days ago, 22 November 8; 30 November a year ago 365, the day before it 366.
    const spans = outByAge(
      [since('2026-11-30'), since('2026-11-23', 'chart'), since('2026-11-22'), since('2025-11-30'), since('2025-11-29')],
      today,
    )
    expect(spans.map(({ upToDays, total }) => [upToDays, total])).toEqual([
      [7, 2],
      [28, 1],
      [91, 0],
      [365, 1],
      [null, 1],
    ])
    expect(spans[0]).toMatchObject({ thread: 1, chart: 1, cloth: 0, notion: 0 })
    expect(outByAge([since(null)], today).at(-1)).toMatchObject({ upToDays: 'unknown', total: 1 })
  })
})
