import { formatDate } from '#language/day'
import type { CalendarEvent, CalendarKind } from '#lib/planning/days/calendar'
import type { FileEvent } from '#lib/planning/days/calendar-file'
import type { PaceKind } from '#lib/planning/pace/project-pace'
import { counted, listed } from './amounts'
import { capital } from './capital'
import { clashDays } from './loan'
import { monthOptions } from './occasion'

/** What a day in the calendar is, in a word or two. */
export const kindWords: Record<CalendarKind, string> = {
  due: 'due',
  'start-by': 'start by',
  planned: 'planned',
  'part-out': 'part comes out',
  'part-due': 'part due',
  clash: 'clash',
  occasion: 'occasion',
  away: 'away',
  loan: 'loan due',
  order: 'expected',
}

/** A pace in the middle of a sentence. */
export const paceWords: Record<PaceKind, string> = {
  'stitched-weeks': 'at the pace of the weeks you stitched',
  'all-weeks': 'at the pace of all weeks',
  said: 'at the pace you say',
}

/** "December 2026". */
export const monthWords = (month: string): string =>
  `${monthOptions[Number(month.slice(5, 7)) - 1]?.label ?? ''} ${month.slice(0, 4)}`

/** What an event says, without its day. People are named only for those who are looking at the collection itself. */
export function eventWords(event: CalendarEvent, { namesPeople }: { namesPeople: boolean }): string {
  switch (event.kind) {
    case 'due':
      return `${event.project.title}: due${event.occasion ? `, for ${event.occasion}` : ''}`
    case 'start-by': {
      const paces = listed(event.paces.map((kind) => paceWords[kind].replace(/^at the pace /, '')))
      return `${event.project.title}: ${event.isBegun ? 'go on' : 'start'} by today, at the pace ${paces}`
    }
    case 'planned':
      return `${event.project.title}: to be begun, as planned`
    case 'part-out':
      return `${event.project.title}: ${event.part} comes out`
    case 'part-due':
      return `${event.project.title}: ${event.part} due`
    case 'clash':
      return `${event.project.title}: its chart is out${namesPeople ? ` with ${event.placeLabel}` : ''}, ${clashDays({ ...event, fromOn: event.on })}`
    case 'occasion':
      return capital(event.name)
    case 'away':
      return `Away${event.what ? `: ${event.what}` : ''}${namesPeople ? ` (${event.ownerName})` : ''}`
    case 'loan': {
      const things = listed(event.things) || 'a loan'
      const who = namesPeople ? ` ${event.isBorrowed ? 'to' : 'from'} ${event.placeLabel}` : ''
      return `${things}: ${event.isBorrowed ? 'to be given back' : 'due back'}${who}`
    }
    case 'order': {
      const [first, ...others] = event.threads
      const what = others.length === 0 ? first : `${first} and ${counted(others.length, 'other thread')}`
      return `${what}: ${counted(event.putUps, 'put-up')} expected${namesPeople && event.supplier ? ` from ${event.supplier}` : ''}`
    }
  }
}

/** What is no help to anybody in a calendar of theirs, or is only of this machine, stays out of the file. */
const inFile: ReadonlySet<CalendarKind> = new Set(['due', 'start-by', 'planned', 'part-out', 'part-due', 'loan', 'away'])

/** The events of a calendar file: no people, prices or notes; of occasions those of her own and those a work is due for. */
export const fileEvents = (events: readonly CalendarEvent[]): FileEvent[] => {
  const dueFor = new Set(events.flatMap((event) => (event.kind === 'due' && event.occasion ? [event.occasion] : [])))
  return events
    .filter((event) => inFile.has(event.kind) || (event.kind === 'occasion' && (event.isOwn || dueFor.has(event.name))))
    .map((event) => ({
      ...{ uid: event.uid, sequence: event.sequence, on: event.on, toOn: event.toOn },
      ...{ summary: eventWords(event, { namesPeople: false }), description: null },
    }))
}

/** "4 weeks late", "5 days late". */
export const lateWords = (days: number): string =>
  days % 7 === 0
    ? `${counted(days / 7, 'week')} late`
    : days > 14
      ? `${counted(Math.ceil(days / 7), 'week')} late`
      : `${counted(days, 'day')} late`

/** "from Mon 3 Aug 2026 to Sun 16 Aug 2026". */
export const spanWords = ({ fromOn, toOn }: { fromOn: string; toOn: string }): string =>
  fromOn === toOn ? `on ${formatDate(fromOn)}` : `from ${formatDate(fromOn)} to ${formatDate(toOn)}`
