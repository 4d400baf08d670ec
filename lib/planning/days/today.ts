import { addDays } from '#lib/quantity/day'

/** What a day may hold, the most pressing first. */
export const todayKinds = [
  'timer',
  'work-overdue',
  'loan-overdue',
  'order-late',
  'start-by-past',
  'work-due',
  'part-due',
  'start-by',
  'loan-due',
  'order-expected',
  'put-back',
  'count-open',
  'list-open',
  'below-minimum',
  'ready',
] as const
export type TodayKind = (typeof todayKinds)[number]

export type TodayLine = {
  kind: TodayKind
  count: number
  /** The first of them, by name. */
  names: string[]
  /** Of the one thing there is; null where there are several. */
  id: string | null
  /** The earliest of their days, yyyy-mm-dd. */
  on: string | null
}

type Named = { id: string; name: string }

/** What is known of the day. Days are yyyy-mm-dd. */
export type TodayFacts = {
  timers: readonly Named[]
  /** Under way, with a day by which they are due. `startBy` is the earliest day by either pace; null where begun or not known. */
  works: readonly (Named & { dueOn: string; startBy: string | null })[]
  /** Open, with a day. */
  loans: readonly (Named & { dueOn: string })[]
  orders: readonly (Named & { expectedOn: string })[]
  /** Of what comes out part by part, not done; `id` is the project's. */
  parts: readonly (Named & { dueOn: string })[]
  /** Bags of no work under way with things in them that live elsewhere. */
  bags: readonly Named[]
  counts: readonly Named[]
  lists: readonly Named[]
  /** Threads below their minimum. */
  belowMinimum: readonly Named[]
  /** Planned or wanted, with all its thread and cloth there. */
  ready: readonly Named[]
}

/** Due within so many days is due. */
export const todayDays = 7
/** A loan has longer notice: others must be asked for it. */
const loanDays = 14

const namedAtMost = 3

/**
 * What the day holds: one line a kind, the most pressing kind first, in each the earliest first.
 *
 * @param today  yyyy-mm-dd; what is due today is not overdue
 */
export function planToday(facts: TodayFacts, today: string): TodayLine[] {
  const soon = addDays(today, todayDays)
  const within = (day: string, last: string) => day >= today && day <= last
  const dated = <One extends Named>(ones: readonly One[], dayOf: (one: One) => string | null) =>
    ones.flatMap((one) => {
      const on = dayOf(one)
      return on === null ? [] : [{ id: one.id, name: one.name, on }]
    })
  const works = dated(facts.works, ({ dueOn }) => dueOn)
  const starts = dated(facts.works, ({ startBy, dueOn }) => (dueOn < today ? null : startBy))
  const loans = dated(facts.loans, ({ dueOn }) => dueOn)
  const orders = dated(facts.orders, ({ expectedOn }) => expectedOn)
  const parts = dated(facts.parts, ({ dueOn }) => dueOn)
  const undated = (ones: readonly Named[]) => ones.map(({ id, name }) => ({ id, name, on: null }))
  const found: Record<TodayKind, readonly (Named & { on: string | null })[]> = {
    timer: undated(facts.timers),
    'work-overdue': works.filter(({ on }) => on < today),
    'loan-overdue': loans.filter(({ on }) => on < today),
    'order-late': orders.filter(({ on }) => on < today),
    'start-by-past': starts.filter(({ on }) => on < today),
    'work-due': works.filter(({ on }) => within(on, soon)),
    'part-due': parts.filter(({ on }) => on <= soon),
    'start-by': starts.filter(({ on }) => within(on, soon)),
    'loan-due': loans.filter(({ on }) => within(on, addDays(today, loanDays))),
    'order-expected': orders.filter(({ on }) => within(on, soon)),
    'put-back': undated(facts.bags),
    'count-open': undated(facts.counts),
    'list-open': undated(facts.lists),
    'below-minimum': undated(facts.belowMinimum),
    ready: undated(facts.ready),
  }
  return todayKinds.flatMap((kind): TodayLine[] => {
    const ones = found[kind].toSorted((a, b) => ((a.on ?? '') < (b.on ?? '') ? -1 : (a.on ?? '') > (b.on ?? '') ? 1 : 0))
    const [first] = ones
    if (!first) return []
    const ids = new Set(ones.map(({ id }) => id))
    const names = [...new Set(ones.map(({ name }) => name))].slice(0, namedAtMost)
    return [{ kind, count: ones.length, names, id: ids.size === 1 ? first.id : null, on: first.on }]
  })
}
