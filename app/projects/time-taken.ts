import { say } from '#language/say'
import type { PaceReading } from '#lib/db/planning/pace/read-pace'
import { daysBetween } from '#lib/quantity/day'
import { counted } from '#words/amounts'
import { hoursWords } from '#words/hours'
import { amountWords } from '#words/work'

/** What a finished work took, as far as it is known: from the first day to the last, days stitched, hours, and how many stitches an hour. */
export function timeTaken(pace: PaceReading, hoursTenths: number): { label: string; value: string }[] {
  const { startedOn, finishedOn, log, done, unit } = pace
  const days = startedOn !== null && finishedOn !== null ? daysBetween(startedOn, finishedOn) + 1 : null
  return [
    ...(days === null
      ? []
      : [{ label: say('From first to last day'), value: days < 14 ? counted(days, 'day') : weeksWords(days) }]),
    ...(log.days > 0 ? [{ label: say('Stitched on'), value: counted(log.days, 'day') }] : []),
    ...(hoursTenths > 0 ? [{ label: say('Hours at it'), value: hoursWords(hoursTenths) }] : []),
    ...(hoursTenths > 0 && done > 0 && unit === 'stitches'
      ? [{ label: say('An hour'), value: amountWords((done * 10) / hoursTenths, unit) }]
      : []),
  ]
}

const weeksWords = (days: number): string =>
  say('{round, plural, one {# week} other {# weeks}} ({days, plural, one {# day} other {# days}})', {
    round: Math.round(days / 7),
    days,
  })
