import { textKey } from '#lib/quantity/text-key'
import { ok, type Result, refused } from '#lib/result'
import { compareCodes } from '#lib/thread/code-order'
import { type Batch, compareExact } from './batch'

/** One thing counted, with what the record had on the shelf: owned less out. Whole put-ups. */
export type CountedLine = {
  id: string
  placeId: string
  /** The thread by maker, line and code; null for what was found and could not be named. */
  thread: { id: string; makerName: string; lineName: string; code: string } | null
  expected: number
  /** Null while nobody has counted it. */
  counted: number | null
}

export type Accuracy = {
  lines: number
  linesCounted: number
  linesRight: number
  /** Put-ups on the shelf by the record, of the lines counted. */
  expected: number
  counted: number
  /** Over and under added up, never set off against each other. */
  grossError: number
}

/** Why two lines may be one mistake: put into each other's compartment. */
export type SwapNearness = 'same-thread' | 'same-place' | 'neighbouring-place' | 'neighbouring-code'

/** One line under and one over by as much. */
export type SwapSuspect = { underId: string; overId: string; putUps: number; nearness: SwapNearness }

const differenceOf = (line: Pick<CountedLine, 'expected' | 'counted'>): number =>
  line.counted === null ? 0 : line.counted - line.expected

/**
 * How far the record can be trusted where it was counted. What nobody has counted says nothing and is left out.
 *
 * A net of over and under would hide both: ten of each wrong way round is twenty wrong, not none.
 */
export function accuracyOf(lines: readonly Pick<CountedLine, 'expected' | 'counted'>[]): Accuracy {
  const sum: Accuracy = { lines: lines.length, linesCounted: 0, linesRight: 0, expected: 0, counted: 0, grossError: 0 }
  for (const line of lines) {
    if (line.counted === null) continue
    const difference = differenceOf(line)
    sum.linesCounted += 1
    sum.linesRight += difference === 0 ? 1 : 0
    sum.expected += line.expected
    sum.counted += line.counted
    sum.grossError += Math.abs(difference)
  }
  return sum
}

/** Each thread's turn among the codes of its maker's line that are in the count, so that neighbours differ by one. */
function codeTurns(lines: readonly CountedLine[]): Map<string, { group: string; turn: number }> {
  const groups = new Map<string, Map<string, string>>()
  for (const { thread } of lines) {
    if (!thread) continue
    const group = JSON.stringify([thread.makerName, thread.lineName])
    const codes = groups.get(group) ?? new Map<string, string>()
    groups.set(group, codes.set(thread.id, thread.code))
  }
  const turns = new Map<string, { group: string; turn: number }>()
  for (const [group, codes] of groups) {
    const sorted = [...codes].sort((a, b) => compareCodes(a[1], b[1]) || compareExact(a[0], b[0]))
    for (const [turn, [threadId]] of sorted.entries()) turns.set(threadId, { group, turn })
  }
  return turns
}

/**
 * Pairs that may be put-ups in each other's compartment: one over and one under by as many, in one place or the next, or of one thread
 * or the next code. They are to be looked at before anything is corrected; every such pair is named, though a line stand in several,
 * and no error is taken off for it.
 *
 * @param areSideBySide  whether two places are next to each other; see `sideBySide`
 * @returns              by how many, most first, then by the lines' ids: the order handed in makes no difference
 */
export function findSwapSuspects(
  lines: readonly CountedLine[],
  areSideBySide: (placeId: string, otherId: string) => boolean,
): SwapSuspect[] {
  const turns = codeTurns(lines)
  const under = lines.filter((line) => differenceOf(line) < 0)
  const over = lines.filter((line) => differenceOf(line) > 0)

  const nearnessOf = (a: CountedLine, b: CountedLine): SwapNearness | null => {
    if (a.thread && b.thread && a.thread.id === b.thread.id) return 'same-thread'
    if (a.placeId === b.placeId) return 'same-place'
    if (areSideBySide(a.placeId, b.placeId)) return 'neighbouring-place'
    const [x, y] = [turns.get(a.thread?.id ?? ''), turns.get(b.thread?.id ?? '')]
    return x && y && x.group === y.group && Math.abs(x.turn - y.turn) === 1 ? 'neighbouring-code' : null
  }

  const suspects = under.flatMap((less) =>
    over.flatMap((more): SwapSuspect[] => {
      const putUps = differenceOf(more)
      if (putUps !== -differenceOf(less)) return []
      const nearness = nearnessOf(less, more)
      return nearness === null ? [] : [{ underId: less.id, overId: more.id, putUps, nearness }]
    }),
  )
  return suspects.sort((a, b) => b.putUps - a.putUps || compareExact(a.underId, b.underId) || compareExact(a.overId, b.overId))
}

/** A batch as it stands, against the line that was written of it when counting began. */
export type RecordNow = {
  wholePutUps: number
  /** Where it is, or lives when nothing else is said; null for nowhere. */
  placeId: string | null
  isGone: boolean
  /** When anything last happened to it; null when nothing ever did. */
  lastMovedAt: Date | null
}

/**
 * Whether stock moved while it was counted, so that the figure counted may be of before or after: it is counted again, not corrected.
 *
 * @param since  when the record was last read for the line: the beginning of the count, or its recount
 */
export const hasMovedSince = (line: { placeId: string; expected: number }, now: RecordNow, since: Date): boolean =>
  now.isGone ||
  now.placeId !== line.placeId ||
  now.wholePutUps !== line.expected ||
  (now.lastMovedAt !== null && now.lastMovedAt > since)

export const lineOutcomes = ['accepted', 'recount', 'left'] as const
export type LineOutcome = (typeof lineOutcomes)[number]

export const countStatuses = ['open', 'counted', 'signed', 'dropped'] as const
export type CountStatus = (typeof countStatuses)[number]

/** A line as it is signed for. */
export type DecidedLine = { expected: number; counted: number | null; countedBy: string | null; outcome: LineOutcome | null }

/** Sent to be counted again and not yet counted, or counted otherwise than the record and nothing decided. */
export const isUndecided = ({ expected, counted, outcome }: DecidedLine): boolean =>
  counted === null ? outcome === 'recount' : counted !== expected && (outcome === null || outcome === 'recount')

/**
 * Whether a person may sign a count off: nothing may be undecided, and who counted any of it does not sign their own work.
 * Names are compared as people read them: case, accents and spaces make no difference.
 */
export function planSignOff(
  status: CountStatus,
  lines: readonly DecidedLine[],
  by: string,
): Result<null, { kind: 'not-compared'; status: CountStatus } | { kind: 'undecided'; lines: number } | { kind: 'own-work' }> {
  if (status !== 'counted') return refused({ kind: 'not-compared', status })
  const undecided = lines.filter(isUndecided).length
  if (undecided > 0) return refused({ kind: 'undecided', lines: undecided })
  if (lines.some(({ countedBy }) => countedBy !== null && textKey(countedBy) === textKey(by)))
    return refused({ kind: 'own-work' })
  return ok(null)
}

/**
 * The lines of a count: every batch the record has lying in these places, with its whole put-ups as expected. What lives there but is
 * out does not lie there; what is used up to the last is nowhere.
 */
export const countLinesOf = (
  batches: readonly Pick<Batch, 'id' | 'wholePutUps' | 'partCertainty' | 'homePlaceId' | 'currentPlaceId'>[],
  placeIds: ReadonlySet<string>,
): { batchId: string; placeId: string; expected: number }[] =>
  batches.flatMap((batch) => {
    const placeId = batch.currentPlaceId ?? batch.homePlaceId
    const isUsedUp = batch.wholePutUps === 0 && batch.partCertainty === 'none'
    return placeId === null || !placeIds.has(placeId) || isUsedUp
      ? []
      : [{ batchId: batch.id, placeId, expected: batch.wholePutUps }]
  })
