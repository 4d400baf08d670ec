import { Cron } from 'croner'
import { describe, expect, it } from 'vitest'
import { daysWithout, isOverdue, patternOf } from '#lib/backup/schedule'

const day = 86_400_000

describe('when backups are made', () => {
  it('is each night at its hour', () => {
    const cron = new Cron(patternOf('02:30'), { paused: true })
    expect(cron.nextRun(new Date(2026, 10, 30, 2, 29))).toEqual(new Date(2026, 10, 30, 2, 30))
    expect(cron.nextRun(new Date(2026, 10, 30, 2, 31))).toEqual(new Date(2026, 11, 1, 2, 30))
    expect(new Cron(patternOf('00:05'), { paused: true }).nextRun(new Date(2026, 11, 31, 12))).toEqual(new Date(2027, 0, 1, 0, 5))
    for (const hour of ['24:00', '2:30', '02:60', '']) expect(() => patternOf(hour)).toThrow(RangeError)
  })

  it('is at once when the last is over a day old, or there is none', () => {
    expect([isOverdue(null, 5 * day), isOverdue(4 * day - 1, 5 * day), isOverdue(4 * day, 5 * day)]).toEqual([true, true, false])
  })

  it('is spoken of when there was no good one for more than three days', () => {
    expect([daysWithout(null, 9 * day), daysWithout(5 * day, 9 * day - 1), daysWithout(5 * day, 9 * day)]).toEqual([
      null,
      null,
      4,
    ])
  })
})
