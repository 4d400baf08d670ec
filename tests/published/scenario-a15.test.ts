import { expect, it } from 'vitest'
import { mayLendChart } from '#lib/loan/chart-out'
import { clashOf } from '#lib/loan/clash'
import { dueAfterWeeks } from '#lib/loan/loan'
import { formatDate } from '#lib/quantity/date'

// Trade notes, A15, worked by hand: Hollin Staithe Alphabets lent Tue 3 Mar 2026 for 8 weeks; Hanne plans design 4 from 20 Apr.
// The whole of it, with all five designs and the finished one, is tests/database/loan.test.ts.
it('is due Tue 28 Apr', () => {
  expect(formatDate('2026-03-03')).toBe('Tue 3 Mar 2026')
  expect(formatDate(dueAfterWeeks('2026-03-03', 8))).toBe('Tue 28 Apr 2026')
})

it('clashes for nine days: 20 to 28 Apr, both counted', () => {
  expect(clashOf({ fromOn: '2026-03-03', untilOn: '2026-04-28' }, '2026-04-20')).toEqual({
    fromOn: '2026-04-20',
    untilOn: '2026-04-28',
    days: 9,
  })
})

it('cannot lend the file version of Wick Lane', () => {
  expect(mayLendChart({ kind: 'file', copies: 1, copiesOut: 0, awayAt: null, hasHome: true }, 1)).toEqual({
    ok: false,
    error: { kind: 'is-a-file' },
  })
})
