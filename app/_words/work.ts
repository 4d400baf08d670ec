import { formatDate } from '#language/day'
import { numberText } from '#language/figures'
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
      return 'Give stitches, hours or a percentage; or say that it was worked on.'
    case 'stitches-and-percent':
      return 'Give the stitches, or how far it has come in per cent, not both: the one follows from the other.'
    case 'not-yet':
      return `${formatDate(refusal.day)} has not come yet. Give a day up to today.`
    case 'below-nothing':
      return `No more can be unpicked than was done: ${counted(refusal.stitchesDone, 'stitch')}.`
    case 'given-up':
      return 'It was given up; its log stays as it was.'
    case 'no-timer':
      return 'Its timer does not run any more: somebody stopped it. Give the hours instead.'
    case 'timer-too-long':
      return `The timer ran for ${minutesWords(refusal.minutes)}, so it was forgotten. Give the hours you sat at it.`
    case 'no-such-entry':
      return 'This entry is not in the log any more. Load the page again.'
  }
}

/** "2 h 30 min", "45 min", "3 h". */
export function minutesWords(minutes: number): string {
  const [hours, rest] = [Math.floor(minutes / 60), minutes % 60]
  return [hours > 0 ? `${numberText(hours)} h` : null, rest > 0 || hours === 0 ? `${rest} min` : null].filter(Boolean).join(' ')
}

/** "17.5 %". */
export const percentWords = (perMille: number): string => `${numberText(Number((perMille / 10).toFixed(1)))} %`

/** What an entry says: "310 stitches, 2 h 30 min"; "up to 20 %"; "worked on". */
export function workWords({ stitches, minutes, donePerMille }: Omit<LoggedWork, 'id' | 'day'>): string {
  const said = [
    donePerMille !== null
      ? `up to ${percentWords(donePerMille)}`
      : stitches < 0
        ? `${counted(-stitches, 'stitch')} unpicked`
        : stitches > 0
          ? counted(stitches, 'stitch')
          : null,
    minutes > 0 ? minutesWords(minutes) : null,
  ]
  return said.filter(Boolean).join(', ') || 'worked on'
}

/** "2,300 stitches", "7.5 %". */
export const amountWords = (amount: number, unit: WorkUnit): string =>
  unit === 'stitches' ? counted(Math.round(amount), 'stitch') : percentWords(amount)

/** Whose mean a pace is. */
export const paceHeads: Record<PaceKind, string> = {
  'stitched-weeks': 'In the weeks you stitched',
  'all-weeks': 'Over all weeks',
  said: 'As you say',
}

const weekdayNames = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'] as const

/** Days of the week to choose from: 1 Monday to 7 Sunday. */
export const weekdayOptions = weekdayNames.map((label, at) => ({ value: String(at + 1), label }))

/** "Monday and Saturday". @param weekdays  as a set of bits, Monday the lowest */
export const weekdaysWords = (weekdays: number): string => listed(weekdayNames.filter((_, at) => (weekdays & (1 << at)) !== 0))
