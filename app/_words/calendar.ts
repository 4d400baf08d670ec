import { formatDate } from '#language/day'
import { say, sayings } from '#language/say'
import type { CalendarEvent, CalendarKind } from '#lib/planning/days/calendar'
import type { FileEvent } from '#lib/planning/days/calendar-file'
import type { PaceKind } from '#lib/planning/pace/project-pace'
import { listed } from './amounts'
import { capital } from './capital'
import { givenName } from './given'
import { clashDays } from './loan'
import { monthOptions } from './occasion'

/** What a day in the calendar is, in a word or two. */
export const kindWords: Record<CalendarKind, string> = sayings({
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
})

/** A pace in the middle of a sentence. */
export const paceWords: Record<PaceKind, string> = sayings({
  'stitched-weeks': 'at the pace of the weeks you stitched',
  'all-weeks': 'at the pace of all weeks',
  said: 'at the pace you say',
})

/** "at the pace …" */
const paceOf: Record<PaceKind, string> = sayings({
  'stitched-weeks': 'of the weeks you stitched',
  'all-weeks': 'of all weeks',
  said: 'you say',
})

/** "December 2026". */
export const monthWords = (month: string): string =>
  `${monthOptions()[Number(month.slice(5, 7)) - 1]?.label ?? ''} ${month.slice(0, 4)}`

/** What an event says, without its day. People are named only for those who are looking at the collection itself. */
export function eventWords(event: CalendarEvent, { namesPeople }: { namesPeople: boolean }): string {
  switch (event.kind) {
    case 'due':
      return say('{title}: due{rest}', {
        title: event.project.title,
        rest: event.occasion ? say(', for {occasion}', { occasion: givenName(event.occasion) }) : '',
      })
    case 'start-by': {
      const paces = listed(event.paces.map((kind) => paceOf[kind]))
      return say('{title}: {isBegun, select, yes {go on} other {start}} by today, at the pace {paces}', {
        title: event.project.title,
        isBegun: event.isBegun,
        paces,
      })
    }
    case 'planned':
      return say('{title}: to be begun, as planned', { title: event.project.title })
    case 'part-out':
      return say('{title}: {part} comes out', { title: event.project.title, part: event.part })
    case 'part-due':
      return say('{title}: {part} due', { title: event.project.title, part: event.part })
    case 'clash':
      return say('{title}: its chart is out{rest}, {clashDays}', {
        title: event.project.title,
        rest: namesPeople ? say(' with {placeLabel}', { placeLabel: event.placeLabel }) : '',
        clashDays: clashDays({ ...event, fromOn: event.on }),
      })
    case 'occasion':
      return capital(givenName(event.name))
    case 'away':
      return say('Away{rest}{rest2}', {
        rest: event.what ? `: ${event.what}` : '',
        rest2: namesPeople ? ` (${event.ownerName})` : '',
      })
    case 'loan': {
      const things = listed(event.things) || say('a loan')
      const who = namesPeople
        ? say(' {isBorrowed, select, yes {to} other {from}} {placeLabel}', {
            isBorrowed: event.isBorrowed,
            placeLabel: event.placeLabel,
          })
        : ''
      return say('{things}: {isBorrowed, select, yes {to be given back} other {due back}}{who}', {
        things,
        isBorrowed: event.isBorrowed,
        who,
      })
    }
    case 'order': {
      const [first, ...others] = event.threads
      const what =
        others.length === 0
          ? first
          : say('{first} and {others, plural, one {# other thread} other {# other threads}}', { first, others: others.length })
      return say('{what}: {putUps, plural, one {# put-up} other {# put-ups}} expected{rest}', {
        what,
        putUps: event.putUps,
        rest: namesPeople && event.supplier ? say(' from {supplier}', { supplier: event.supplier }) : '',
      })
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
    ? say('{days, plural, one {# week} other {# weeks}} late', { days: days / 7 })
    : days > 14
      ? say('{ceil, plural, one {# week} other {# weeks}} late', { ceil: Math.ceil(days / 7) })
      : say('{days, plural, one {# day} other {# days}} late', { days })

/** "from Mon 3 Aug 2026 to Sun 16 Aug 2026". */
export const spanWords = ({ fromOn, toOn }: { fromOn: string; toOn: string }): string =>
  fromOn === toOn
    ? say('on {fromOn}', { fromOn: formatDate(fromOn) })
    : say('from {fromOn} to {toOn}', { fromOn: formatDate(fromOn), toOn: formatDate(toOn) })
