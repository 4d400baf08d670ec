import fc from 'fast-check'
import { expect, it } from 'vitest'
import { dayOfRule, nextDay, type OccasionRule, parseRule, printRule } from '#lib/planning/days/occasion-rule'
import { addDays, daysBetween, weekdayOf } from '#lib/quantity/day'

const weekday = fc.integer({ min: 1, max: 7 })
const month = fc.integer({ min: 1, max: 12 })
const monthDay = fc.tuple(month, fc.integer({ min: 1, max: 28 }))
const rules: fc.Arbitrary<OccasionRule> = fc.oneof(
  monthDay.map(([m, day]) => ({ kind: 'fixed' as const, month: m, day })),
  fc.integer({ min: -300, max: 300 }).map((days) => ({ kind: 'easter' as const, days })),
  fc
    .tuple(fc.constantFrom(1 as const, 2 as const, 3 as const, 4 as const, 5 as const, 'last' as const), weekday, month)
    .map(([nth, w, m]) => ({ kind: 'weekday' as const, nth, weekday: w, month: m })),
  fc
    .tuple(weekday, monthDay, fc.integer({ min: -60, max: 60 }))
    .map(([w, [m, day], days]) => ({ kind: 'nearest' as const, weekday: w, month: m, day, days })),
  fc.integer({ min: 0, max: 40_000 }).map((days) => ({ kind: 'once' as const, on: addDays('1990-01-01', days) })),
)
const years = fc.integer({ min: 1900, max: 2200 })

it('is read as it is printed', () => {
  fc.assert(
    fc.property(rules, (rule) => {
      expect(parseRule(printRule(rule))).toEqual(rule)
    }),
    { seed: 12, numRuns: 500 },
  )
})

it('falls where it says: on its weekday, in its month, within three days of what it is nearest to', () => {
  fc.assert(
    fc.property(rules, years, (rule, year) => {
      const day = dayOfRule(rule, year)
      if (day === null) return
      if (rule.kind === 'weekday') {
        expect(weekdayOf(day)).toBe(rule.weekday)
        expect(Number(day.slice(5, 7))).toBe(rule.month)
        const date = Number(day.slice(8))
        if (rule.nth === 'last') expect(addDays(day, 7).slice(5, 7)).not.toBe(day.slice(5, 7))
        else expect(Math.ceil(date / 7)).toBe(rule.nth)
      }
      if (rule.kind === 'nearest') {
        const it = addDays(day, -rule.days)
        expect(weekdayOf(it)).toBe(rule.weekday)
        const to = `${year}-${String(rule.month).padStart(2, '0')}-${String(rule.day).padStart(2, '0')}`
        expect(Math.abs(daysBetween(to, it))).toBeLessThanOrEqual(3)
      }
    }),
    { seed: 13, numRuns: 1_000 },
  )
})

it('comes next on the first day that is its own in its year or the ones around it', () => {
  const yearly = rules.filter(({ kind }) => kind !== 'once')
  fc.assert(
    fc.property(yearly, years, fc.integer({ min: 0, max: 364 }), (rule, year, days) => {
      const from = addDays(`${year}-01-01`, days)
      const dayInYear = (of: number) => dayOfRule(rule, of)
      const next = nextDay(dayInYear, from)
      const all = Array.from({ length: 60 }, (_, at) => dayInYear(year - 2 + at)).flatMap((day) => day ?? [])
      expect(next).toBe(all.filter((day) => day >= from).sort()[0])
    }),
    { seed: 14, numRuns: 500 },
  )
})
