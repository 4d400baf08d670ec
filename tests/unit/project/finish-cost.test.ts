import { describe, expect, it } from 'vitest'
import { reckonCost } from '#lib/project/finish-cost'
import { sumYear, type YearFinish } from '#lib/project/finish-year'

/** 8 m of six strands. */
const skein = 480_000

describe('what a piece cost', () => {
  it('adds thread by length, cloth by area, the chart, the framer and the rest, each to the nearest penny', () => {
    const cost = reckonCost([
      // 13.16 m of an 8 m skein at 1.15: 1.645 × 115 = 189.2 (the thread of scenario A3).
      { kind: 'thread', threadId: 'a', strandTenths: 789_600, putUpStrandTenths: skein, putUpPriceMinor: 115 },
      // Half a skein at 1.15: 57.5, which goes up.
      { kind: 'thread', threadId: 'b', strandTenths: skein / 2, putUpStrandTenths: skein, putUpPriceMinor: 115 },
      { kind: 'thread', threadId: 'c', strandTenths: skein, putUpStrandTenths: skein, putUpPriceMinor: null },
      { kind: 'cloth', pieceId: 'd', usedUm2: 360, ofUm2: 486, priceMinor: 1_450, isShare: false },
      // One of five designs of a booklet at 11.00.
      { kind: 'chart', chartId: 'e', copies: 1, designs: 5, priceMinor: 1_100 },
      { kind: 'sent', loanId: 'f', priceMinor: 4_500 },
      { kind: 'sent', loanId: 'g', priceMinor: null },
      { kind: 'other', priceMinor: 650 },
    ])
    expect(cost.lines.map(({ costMinor }) => costMinor)).toEqual([189, 58, null, 1_074, 220, 4_500, null, 650])
    expect(cost.totalMinor).toBe(189 + 58 + 1_074 + 220 + 4_500 + 650)
    expect(cost.unknown).toBe(2)
  })

  it('gives each kit of a batch its chart', () => {
    const chart = { kind: 'chart' as const, chartId: 'e', copies: 12, designs: 1, priceMinor: 700 }
    expect(reckonCost([chart]).totalMinor).toBe(8_400)
    expect(reckonCost([])).toEqual({ lines: [], totalMinor: 0, unknown: 0 })
  })
})

describe('a year of finishes', () => {
  const finish = (id: string, finishedOn: string, over: Partial<YearFinish> = {}): YearFinish => ({
    ...{ id, quantity: 1, startedOn: null, finishedOn, stitches: 0, hoursTenths: 0, colours: [] },
    ...{ cost: { lines: [], totalMinor: 0, unknown: 0 } },
    ...over,
  })
  const thread = (threadId: string, strandTenths: number) => ({ threadId, strandTenths, strands: 6 })

  it('sums pieces, stitches, hours, thread and cost, month by month, with the longest and the first', () => {
    const sum = sumYear(
      '2026',
      [
        finish('geese', '2026-09-08', {
          ...{ stitches: 11_270, hoursTenths: 1_120, colours: [thread('red', skein), thread('blue', skein / 2)] },
          cost: reckonCost([
            { kind: 'thread', threadId: 'red', strandTenths: skein, putUpStrandTenths: skein, putUpPriceMinor: 115 },
            { kind: 'sent', loanId: 'f', priceMinor: null },
          ]),
        }),
        finish('lanterns', '2026-03-01', {
          ...{ quantity: 3, stitches: 2_000, hoursTenths: 205, colours: [thread('red', skein)] },
          cost: reckonCost([{ kind: 'other', priceMinor: 300 }]),
        }),
        finish('wrens', '2026-09-30', { stitches: 730 }),
      ],
      [
        { day: '2026-02-28', amount: 500 },
        { day: '2026-03-01', amount: 250 },
        // Of other years.
        { day: '2025-03-01', amount: 9_000 },
        { day: '2027-03-01', amount: 9_000 },
      ],
    )
    expect(sum).toMatchObject({ pieces: 5, stitches: 14_000, hoursTenths: 1_325, firstId: 'lanterns' })
    // 2.5 skeins of 8 m are 20 m.
    expect(sum.threadTenths).toBe(200_000)
    expect(sum.colours).toEqual([
      { threadId: 'red', strandTenths: 2 * skein, pieces: 2 },
      { threadId: 'blue', strandTenths: skein / 2, pieces: 1 },
    ])
    expect(sum.cost).toMatchObject({ totalMinor: 415, unknown: 1, threadMinor: 115, otherMinor: 300, sentMinor: 0 })
    expect(sum.longest).toEqual({ id: 'geese', by: 'hours', hoursTenths: 1_120 })
    expect(sum.months).toHaveLength(12)
    expect(sum.months[1]).toEqual({ month: '2026-02', pieces: 0, stitches: 0, hoursTenths: 0, logged: 500 })
    expect(sum.months[2]).toEqual({ month: '2026-03', pieces: 3, stitches: 2_000, hoursTenths: 205, logged: 250 })
    expect(sum.months[8]).toMatchObject({ pieces: 2, stitches: 12_000 })
  })

  it('takes the longest by days where no hours are known, both days counted', () => {
    const sum = sumYear('2026', [finish('a', '2026-03-10', { startedOn: '2026-03-01' }), finish('b', '2026-03-02')], [])
    expect(sum.longest).toEqual({ id: 'a', by: 'days', days: 10 })
    expect(sumYear('2026', [], [])).toMatchObject({ pieces: 0, longest: null, firstId: null })
  })
})
