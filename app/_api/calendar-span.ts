import { daysBetween } from '#lib/quantity/day'
import { Problem } from './problem'

const mostDays = 800

/** The days a calendar is asked for, yyyy-mm-dd, both counted. */
export function readCalendarSpan(fromOn: string, toOn: string): { fromOn: string; toOn: string } | Problem {
  const days = daysBetween(fromOn, toOn)
  if (days >= 0 && days <= mostDays) return { fromOn, toOn }
  const errors = [
    { parameter: 'to', message: 'It is before `from`, or too long after it.', accepted: `up to ${mostDays} days on` },
  ]
  return new Problem('bad-parameter', `to: from ${fromOn} to ${toOn} is no span of up to ${mostDays} days.`, { errors })
}
