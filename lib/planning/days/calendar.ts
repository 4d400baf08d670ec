import { addDays, daysBetween, weekdayOf } from '#lib/quantity/day'
import { byText } from '#lib/quantity/text-order'
import type { PaceKind } from '../pace/project-pace'

type OfProject = { project: { id: string; title: string } }

/** One thing a calendar shows, without words. Days are yyyy-mm-dd, `toOn` the last of them, the same for a single day. */
export type CalendarEvent = {
  /** The same as long as it is the same thing, whatever day it comes to fall on. */
  uid: string
  /** Raised when what it is about is changed. */
  sequence: number
  on: string
  toOn: string
} & (
  | ({ kind: 'due'; occasion: string | null } & OfProject)
  /** The last day to begin, or to go on; at which paces that is the day. */
  | ({ kind: 'start-by'; paces: PaceKind[]; isBegun: boolean } & OfProject)
  | ({ kind: 'planned' } & OfProject)
  | ({ kind: 'part-out' | 'part-due'; part: string } & OfProject)
  /** Its chart is with somebody on the day it is wanted. */
  | ({ kind: 'clash'; placeLabel: string; loanId: string; untilOn: string | null; days: number | null } & OfProject)
  | { kind: 'occasion'; name: string; isOwn: boolean }
  | { kind: 'away'; what: string | null; ownerName: string }
  | { kind: 'loan'; loanId: string; isBorrowed: boolean; placeLabel: string; things: string[] }
  | { kind: 'order'; supplier: string | null; threads: string[]; putUps: number }
)

export type CalendarKind = CalendarEvent['kind']

/** What has to be done comes before what is only to be known. */
const kindOrder: readonly CalendarKind[] = [
  ...(['clash', 'due', 'part-due', 'start-by', 'planned', 'loan', 'part-out', 'order', 'occasion', 'away'] as const),
]

const byKind = (a: CalendarEvent, b: CalendarEvent): number =>
  kindOrder.indexOf(a.kind) - kindOrder.indexOf(b.kind) || byText(a.on, b.on) || byText(a.uid, b.uid)

/** By day, then by how much there is to be done. */
export const byDay = (a: CalendarEvent, b: CalendarEvent): number => byText(a.on, b.on) || byKind(a, b)

/** The days of a month, yyyy-mm, in whole weeks that begin on a weekday (1 Monday to 7 Sunday): days of the months around it fill them up. */
export function monthWeeks(month: string, firstWeekday: number): { day: string; isOfMonth: boolean }[][] {
  const first = `${month}-01`
  const start = addDays(first, -((weekdayOf(first) - firstWeekday + 7) % 7))
  const last = addDays(`${monthAfter(month, 1)}-01`, -1)
  const weeks = Math.ceil((daysBetween(start, last) + 1) / 7)
  return Array.from({ length: weeks }, (_, week) =>
    Array.from({ length: 7 }, (_day, at) => {
      const day = addDays(start, week * 7 + at)
      return { day, isOfMonth: day.startsWith(month) }
    }),
  )
}

/** The month so many on, or back: yyyy-mm. */
export function monthAfter(month: string, count: number): string {
  const months = Number(month.slice(0, 4)) * 12 + Number(month.slice(5, 7)) - 1 + count
  return `${String(Math.floor(months / 12)).padStart(4, '0')}-${String((months % 12) + 1).padStart(2, '0')}`
}

/** What is on each day; a span stands on every day of it. Days without anything are left out. */
export function eventsByDay(
  events: readonly CalendarEvent[],
  { fromOn, toOn }: { fromOn: string; toOn: string },
): Map<string, CalendarEvent[]> {
  const byDays = new Map<string, CalendarEvent[]>()
  for (const event of events.toSorted(byKind)) {
    for (let day = event.on > fromOn ? event.on : fromOn; day <= event.toOn && day <= toOn; day = addDays(day, 1)) {
      const others = byDays.get(day)
      if (others) others.push(event)
      else byDays.set(day, [event])
    }
  }
  return new Map([...byDays].sort(([a], [b]) => byText(a, b)))
}
