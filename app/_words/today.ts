import { formatDate } from '#language/day'
import type { TodayKind, TodayLine } from '#lib/planning/days/today'
import { counted } from './amounts'

/** What needs doing now, and is said in the colour for it. */
export const isPressing = (kind: TodayKind): boolean =>
  kind === 'work-overdue' || kind === 'loan-overdue' || kind === 'order-late' || kind === 'start-by-past'

/** "2 projects overdue". */
export function todayWords({ kind, count }: Pick<TodayLine, 'kind' | 'count'>): string {
  switch (kind) {
    case 'timer':
      return count === 1 ? 'A timer runs' : `${count} timers run`
    case 'work-overdue':
      return `${counted(count, 'project')} overdue`
    case 'loan-overdue':
      return `${counted(count, 'loan')} overdue`
    case 'order-late':
      return `${counted(count, 'order')} late`
    case 'start-by-past':
      return `${counted(count, 'project')} should have been started`
    case 'work-due':
      return `${counted(count, 'project')} due`
    case 'part-due':
      return `${counted(count, 'part')} due`
    case 'start-by':
      return `${counted(count, 'project')} to start now`
    case 'loan-due':
      return `${counted(count, 'loan')} due soon`
    case 'order-expected':
      return `${counted(count, 'order')} expected`
    case 'put-back':
      return `${counted(count, 'bag')} to put back`
    case 'count-open':
      return `${counted(count, 'count')} open`
    case 'list-open':
      return `${counted(count, 'list')} to shop by`
    case 'below-minimum':
      return `${counted(count, 'thread')} below the minimum`
    case 'ready':
      return `${counted(count, 'project')} ready to start`
  }
}

/** "Geese over Tarnbeck, Nine Wrens and 3 more; the first by Tue 8 Sep 2026". */
export function todayNote({ names, count, on, kind }: TodayLine): string {
  const more = count - names.length
  const said = more > 0 ? `${names.join(', ')} and ${more} more` : names.join(', ')
  const day = on && `${dayWord(kind)} ${formatDate(on)}`
  return [said, day && (count > 1 ? `the first ${day}` : day)].filter(Boolean).join('; ')
}

function dayWord(kind: TodayKind): string {
  switch (kind) {
    case 'start-by':
    case 'start-by-past':
      return 'by'
    case 'order-late':
    case 'order-expected':
      return 'expected'
    default:
      return 'due'
  }
}

/** Where to look after it: at the one thing, or at the list it is in. */
export function todayHref({ kind, id }: Pick<TodayLine, 'kind' | 'id'>): string {
  switch (kind) {
    case 'timer':
    case 'work-overdue':
    case 'work-due':
    case 'start-by-past':
    case 'start-by':
    case 'part-due':
    case 'ready':
      return id === null ? '/projects' : `/projects/${id}${kind === 'timer' ? '#log' : ''}`
    case 'loan-overdue':
    case 'loan-due':
      return '/loans'
    case 'order-late':
    case 'order-expected':
      return '/buy/on-order'
    case 'put-back':
      return id === null ? '/places#out' : `/places/${id}/unpack`
    case 'count-open':
      return id === null ? '/count' : `/count/${id}`
    case 'list-open':
      return id === null ? '/buy/lists' : `/buy/lists/${id}`
    case 'below-minimum':
      return '/buy/minimum'
  }
}
