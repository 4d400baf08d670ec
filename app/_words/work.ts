import { formatDate } from '#language/day'
import { numberText } from '#language/figures'
import { say, sayings } from '#language/say'
import type { ChangeWorkRefused } from '#lib/db/work/change-work'
import type { LogRefused } from '#lib/db/work/log-work'
import type { PaceKind } from '#lib/planning/pace/project-pace'
import type { LoggedWork, WorkUnit } from '#lib/project/work-log'
import { counted, listed } from './amounts'

type OfTheLog =
  | 'nothing-logged'
  | 'stitches-and-percent'
  | 'not-yet'
  | 'below-nothing'
  | 'given-up'
  | 'no-timer'
  | 'timer-too-long'
  | 'no-such-entry'

/** Why nothing was written in a log, or changed in it. */
export function workRefusalWords(refusal: Extract<LogRefused | ChangeWorkRefused, { kind: OfTheLog }>): string {
  switch (refusal.kind) {
    case 'nothing-logged':
      return say('Give stitches, hours or a percentage; or say that it was worked on.')
    case 'stitches-and-percent':
      return say('Give the stitches, or how far it has come in per cent, not both: the one follows from the other.')
    case 'not-yet':
      return say('{day} has not come yet. Give a day up to today.', { day: formatDate(refusal.day) })
    case 'below-nothing':
      return say('No more can be unpicked than was done: {stitchesDone, plural, one {# stitch} other {# stitches}}.', {
        stitchesDone: refusal.stitchesDone,
      })
    case 'given-up':
      return say('It was given up; its log stays as it was.')
    case 'no-timer':
      return say('Its timer does not run any more: somebody stopped it. Give the hours instead.')
    case 'timer-too-long':
      return say('The timer ran for {minutes}, so it was forgotten. Give the hours you sat at it.', {
        minutes: minutesWords(refusal.minutes),
      })
    case 'no-such-entry':
      return say('This entry is not in the log any more. Load the page again.')
  }
}

/** "2 h 30 min", "45 min", "3 h". */
export function minutesWords(minutes: number): string {
  const [hours, rest] = [Math.floor(minutes / 60), minutes % 60]
  return [hours > 0 ? `${numberText(hours)} h` : null, rest > 0 || hours === 0 ? say('{rest} min', { rest }) : null]
    .filter(Boolean)
    .join(' ')
}

/** "17.5 %". */
export const percentWords = (perMille: number): string => `${numberText(Number((perMille / 10).toFixed(1)))} %`

/** What an entry says: "310 stitches, 2 h 30 min"; "up to 20 %"; "worked on". */
export function workWords({ stitches, minutes, donePerMille }: Omit<LoggedWork, 'id' | 'day'>): string {
  const said = [
    donePerMille !== null
      ? say('up to {percent}', { percent: percentWords(donePerMille) })
      : stitches < 0
        ? say('{stitches, plural, one {# stitch} other {# stitches}} unpicked', { stitches: -stitches })
        : stitches > 0
          ? counted(stitches, 'stitch')
          : null,
    minutes > 0 ? minutesWords(minutes) : null,
  ]
  return said.filter(Boolean).join(', ') || say('worked on')
}

/** "2,300 stitches", "7.5 %". */
export const amountWords = (amount: number, unit: WorkUnit): string =>
  unit === 'stitches' ? counted(Math.round(amount), 'stitch') : percentWords(amount)

/** Whose mean a pace is. */
export const paceHeads: Record<PaceKind, string> = sayings({
  'stitched-weeks': 'In the weeks you stitched',
  'all-weeks': 'Over all weeks',
  said: 'As you say',
})

const weekdayNames = sayings(['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'])

/** Days of the week to choose from: 1 Monday to 7 Sunday. */
export const weekdayOptions = () => weekdayNames.map((label, at) => ({ value: String(at + 1), label }))

/** "Monday and Saturday". @param weekdays  as a set of bits, Monday the lowest */
export const weekdaysWords = (weekdays: number): string => listed(weekdayNames.filter((_, at) => (weekdays & (1 << at)) !== 0))
