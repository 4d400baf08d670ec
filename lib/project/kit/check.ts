import { textKey } from '#lib/quantity/text-key'
import { ok, type Result, refused } from '#lib/result'
import type { BagStatus } from './bag-status'

export const markStatuses = ['there', 'short', 'wrong'] as const
export type MarkStatus = (typeof markStatuses)[number]

/** One line of the master list held against one bag. */
export type KitMark = { key: string; status: MarkStatus; who?: string | null }

/** Somebody looked for one line. `saw`: how it was marked when they did; left out, what another marked is written over. */
export type MarkGiven = { key: string; status: MarkStatus; saw?: MarkStatus | null }

export type MarkRefused =
  | { kind: 'not-packed'; bag: number }
  | { kind: 'closed'; bag: number; status: 'sealed' | 'sold' }
  | { kind: 'no-such-line'; bag: number; key: string }
  /** Who packed a bag does not see what they left out. */
  | { kind: 'same-person'; bag: number; who: string }

export type MarksPlanned = {
  status: 'packed' | 'checked'
  /** To be written. */
  marks: MarkGiven[]
  /** Marked otherwise by another meanwhile: theirs stands. */
  conflicts: { key: string; status: MarkStatus; who: string | null }[]
}

/** Lines of a bag nobody has looked for yet. */
export const uncheckedOf = (keys: readonly string[], marks: readonly KitMark[]): string[] =>
  keys.filter((key) => !marks.some((mark) => mark.key === key))

/** What is short or wrong in a bag; a mark on a line it is no longer packed by counts for nothing. */
export const faultsOf = (keys: readonly string[], marks: readonly KitMark[]): { key: string; status: 'short' | 'wrong' }[] =>
  marks.flatMap(({ key, status }) => (status !== 'there' && keys.includes(key) ? [{ key, status }] : []))

/**
 * Mark lines of a bag as there, short or wrong. Once every line is there the bag is checked; as soon as one is not, it is not.
 *
 * @param given.isAlone  nobody else is at hand: who packed it may check it
 */
export function planMarks(
  bag: { number: number; status: BagStatus; packedBy: string | null; marks: readonly KitMark[] },
  given: { keys: readonly string[]; marks: readonly MarkGiven[]; by: string; isAlone: boolean },
): Result<MarksPlanned, MarkRefused> {
  const { number, status, packedBy } = bag
  if (status === 'open') return refused({ kind: 'not-packed', bag: number })
  if (status === 'sealed' || status === 'sold') return refused({ kind: 'closed', bag: number, status })
  if (!given.isAlone && packedBy !== null && textKey(packedBy) === textKey(given.by))
    return refused({ kind: 'same-person', bag: number, who: packedBy })
  const stands = new Map(bag.marks.map((mark) => [mark.key, mark]))
  const planned: MarksPlanned = { status: 'packed', marks: [], conflicts: [] }
  for (const mark of given.marks) {
    if (!given.keys.includes(mark.key)) return refused({ kind: 'no-such-line', bag: number, key: mark.key })
    const there = stands.get(mark.key)
    if (mark.saw !== undefined && (there?.status ?? null) !== mark.saw && there && there.status !== mark.status) {
      planned.conflicts.push({ key: mark.key, status: there.status, who: there.who ?? null })
      continue
    }
    planned.marks.push(mark)
    stands.set(mark.key, { key: mark.key, status: mark.status })
  }
  if (given.keys.every((key) => stands.get(key)?.status === 'there')) planned.status = 'checked'
  return ok(planned)
}

/** Needles and pins of a kit, counted in when it is packed and again when it is checked. */
export const sharpsIn = (items: readonly { itemKind: string; perKit: { count: number } }[]): number =>
  items.reduce((sum, { itemKind, perKit }) => (itemKind === 'needle' ? sum + perKit.count : sum), 0)
