import { formatDate } from '#language/day'
import { say } from '#language/say'
import type { TodayKind, TodayLine } from '#lib/planning/days/today'

/** What needs doing now, and is said in the colour for it. */
export const isPressing = (kind: TodayKind): boolean =>
  kind === 'work-overdue' || kind === 'loan-overdue' || kind === 'order-late' || kind === 'start-by-past'

/** "2 projects overdue". */
export function todayWords({ kind, count }: Pick<TodayLine, 'kind' | 'count'>): string {
  switch (kind) {
    case 'timer':
      return count === 1 ? say('A timer runs') : say('{count} timers run', { count })
    case 'work-overdue':
      return say('{count, plural, one {# project} other {# projects}} overdue', { count })
    case 'loan-overdue':
      return say('{count, plural, one {# loan} other {# loans}} overdue', { count })
    case 'order-late':
      return say('{count, plural, one {# order} other {# orders}} late', { count })
    case 'start-by-past':
      return say('{count, plural, one {# project} other {# projects}} should have been started', { count })
    case 'work-due':
      return say('{count, plural, one {# project} other {# projects}} due', { count })
    case 'part-due':
      return say('{count, plural, one {# part} other {# parts}} due', { count })
    case 'start-by':
      return say('{count, plural, one {# project} other {# projects}} to start now', { count })
    case 'loan-due':
      return say('{count, plural, one {# loan} other {# loans}} due soon', { count })
    case 'order-expected':
      return say('{count, plural, one {# order} other {# orders}} expected', { count })
    case 'put-back':
      return say('{count, plural, one {# bag} other {# bags}} to put back', { count })
    case 'count-open':
      return say('{count, plural, one {# count} other {# counts}} open', { count })
    case 'list-open':
      return say('{count, plural, one {# list} other {# lists}} to shop by', { count })
    case 'below-minimum':
      return say('{count, plural, one {# thread} other {# threads}} below the minimum', { count })
    case 'ready':
      return say('{count, plural, one {# project} other {# projects}} ready to start', { count })
  }
}

/** "Geese over Tarnbeck, Nine Wrens and 3 more; the first by Tue 8 Sep 2026". */
export function todayNote({ names, count, on, kind }: TodayLine): string {
  const more = count - names.length
  const said = more > 0 ? say('{names} and {more} more', { names: names.join(', '), more }) : names.join(', ')
  const day = on && `${dayWord(kind)} ${formatDate(on)}`
  return [said, day && (count > 1 ? say('the first {day}', { day }) : day)].filter(Boolean).join('; ')
}

function dayWord(kind: TodayKind): string {
  switch (kind) {
    case 'start-by':
    case 'start-by-past':
      return say('by')
    case 'order-late':
    case 'order-expected':
      return say('expected')
    default:
      return say('due')
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
