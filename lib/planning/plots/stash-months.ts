import { addDays } from '#lib/quantity/day'
import type { MovementKind } from '#lib/stock/stock-change'

/** One line of the journal, of one noun: put-ups of thread, pieces of cloth or copies of charts. */
export type StashMovement = {
  /** yyyy-mm-dd, by the calendar of the house. */
  day: string
  kind: MovementKind
  /** Gained or lost; of what changed hands, all that did. */
  amount: number
  /** Whose it was, for anything but a transfer. */
  ownerId: string | null
  fromOwnerId: string | null
  toOwnerId: string | null
}

export type StashMonth = {
  /** yyyy-mm */
  month: string
  /** Received, or come from another owner. */
  in: number
  /** Used up, or passed on to another owner. Counted upwards. */
  out: number
  /** Counted right, cut in two, taken back: gained and lost together. in − out + otherwise is what there was more at its end. */
  otherwise: number
}

/** The months up to that of a day, the earliest first: "2026-11". @param today  yyyy-mm-dd */
export function monthsUpTo(today: string, count: number): string[] {
  const months: string[] = []
  for (let day = today; months.length < count; day = addDays(`${day.slice(0, 7)}-01`, -1)) months.unshift(day.slice(0, 7))
  return months
}

/**
 * What came into a stash and what went out of it, month by month. Moving, taking out and returning change nothing that is owned; what is
 * split or laid together stays as much.
 *
 * @param months  yyyy-mm, in the order wanted; what fell outside them is passed over
 */
export function stashMonths(
  movements: Iterable<StashMovement>,
  { months, ownerIds }: { months: readonly string[]; ownerIds: ReadonlySet<string> },
): StashMonth[] {
  const found = new Map(months.map((month) => [month, { month, in: 0, out: 0, otherwise: 0 }]))
  const isOwn = (ownerId: string | null) => ownerId !== null && ownerIds.has(ownerId)
  for (const { day, kind, amount, ownerId, fromOwnerId, toOwnerId } of movements) {
    const month = found.get(day.slice(0, 7))
    if (!month) continue
    if (kind === 'transfer') {
      const [from, to] = [isOwn(fromOwnerId), isOwn(toOwnerId)]
      if (from && !to) month.out += amount
      if (to && !from) month.in += amount
      continue
    }
    if (!isOwn(ownerId)) continue
    switch (kind) {
      case 'receive':
        month.in += amount
        break
      case 'use':
        month.out -= amount
        break
      case 'correct':
      case 'cut':
      case 'undo':
        month.otherwise += amount
        break
      case 'move':
      case 'take':
      case 'return':
      case 'split':
      case 'merge':
        break
    }
  }
  return [...found.values()]
}
