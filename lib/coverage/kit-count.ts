import { type Batch, compareExact, isOut, type StockPromise } from '#lib/stock/batch'
import { freeOfBatch } from '#lib/stock/free-stock'
import { pullOf } from '#lib/stock/part-off'
import type { ThreadLine } from '#lib/thread/thread'
import { type CutStock, kitsFrom, putUpsFor } from './kit-cuts'

/** One thread of a kit, and how many kits there is enough of it for. Lengths in strand tenths. */
export type KitLine = {
  threadId: string
  /** What goes into one kit: whole put-ups, where it takes more than one, and one cut without a join. */
  perKitStrandTenths: number
  /** Cuts for as many kits that one put-up of the line gives; 0 where a kit takes more than one put-up. */
  cutsPerPutUp: number
  /** Whole put-ups, bought new, for the number of kits asked about. */
  putUpsForAll: number
  /** From what is free, all of one lot where lots matter. */
  kits: number
  /** The lot those kits are of, where lots matter. */
  lot: string | null
  /** What to buy so that there is enough for the number asked about; of the same lot, or all of it in one, where lots matter. */
  toBuyPutUps: number
}

export type KitCount = {
  /** How many kits can be made now. */
  kits: number
  lines: KitLine[]
  /** What stops the next one: the threads there is enough of for no more than those, and what to buy for one more. */
  stops: { threadId: string; toBuyPutUps: number }[]
}

/**
 * Whole put-ups for a number of kits, each with one cut of a length. A cut has no join, so what is left of a put-up when no further
 * cut can be had from it is not counted on; a kit that takes more than one put-up has whole ones and the rest as a cut.
 *
 * @throws {RangeError} if a length is not above nought or the number of kits is not a whole one.
 */
export function putUpsForKits(cutStrandTenths: number, putUpStrandTenths: number, kits: number): number {
  if (!(cutStrandTenths > 0 && putUpStrandTenths > 0 && Number.isSafeInteger(kits) && kits >= 0)) {
    throw new RangeError(`putUpsForKits: ${kits} cuts of ${cutStrandTenths} from ${putUpStrandTenths}`)
  }
  return putUpsFor({ putUpStrandTenths, wholePutUps: 0, partStrandTenths: 0 }, cutStrandTenths, kits)
}

/** What is left of a batch for a project once what others were promised of it is pulled, the part first. */
function freePieces(batch: Batch, promises: readonly StockPromise[], projectId: string | null): CutStock {
  const own = promises.some((promise) => promise.batchId === batch.id && promise.projectId === projectId)
  const { putUpStrandTenths } = batch
  if (isOut(batch) && !own) return { putUpStrandTenths, wholePutUps: 0, partStrandTenths: 0 }
  const held = batch.wholePutUps * putUpStrandTenths + batch.partStrandTenths
  const others = promises.reduce(
    (sum, promise) => (promise.batchId === batch.id && promise.projectId !== projectId ? sum + promise.strandTenths : sum),
    0,
  )
  if (others === 0) return batch
  const pulled = pullOf(batch, Math.min(held, others))
  return {
    putUpStrandTenths,
    wholePutUps: batch.wholePutUps - pulled.wholePutUps,
    partStrandTenths: pulled.takesPart ? 0 : batch.partStrandTenths,
  }
}

/** Kits from all batches of one lot, or of all lots; the largest lot that is best comes first, ties by its text. */
function byLot(batches: readonly Batch[], promises: readonly StockPromise[], projectId: string | null, cut: number) {
  const kits = new Map<string, { lot: string | null; kits: number }>()
  for (const batch of batches) {
    const key = batch.lot === null ? `unmarked ${batch.id}` : `lot ${batch.lot}`
    const known = kits.get(key)?.kits ?? 0
    kits.set(key, { lot: batch.lot, kits: known + kitsFrom(freePieces(batch, promises, projectId), cut) })
  }
  return [...kits.values()].sort((a, b) => b.kits - a.kits || compareExact(a.lot, b.lot))
}

/**
 * How many kits can be made from what is free, and what stops the next one. All kits' cuts of a thread whose lots matter come from one
 * lot, since they are seen side by side.
 *
 * @param needs    What one kit takes of each thread.
 * @param wanted   The number of kits asked about, spares included.
 * @param batches  Of the owners asked; batches of other threads are passed over.
 * @param lines    The line of every thread needed.
 * @param projectId  What this project was promised counts as free.
 * @returns lines in the order of the needs; kits are 0 when nothing is needed.
 * @throws {RangeError} if a line is missing or a need is nought.
 */
export function countKits(input: {
  needs: readonly { threadId: string; strandTenths: number }[]
  wanted: number
  batches: readonly Batch[]
  promises: readonly StockPromise[]
  lines: ReadonlyMap<string, Pick<ThreadLine, 'lotsMatter' | 'putUpStrandTenths'>>
  projectId?: string | null
}): KitCount {
  const { wanted, promises, projectId = null } = input
  const counted = input.needs.map(({ threadId, strandTenths: cut }) => {
    const line = input.lines.get(threadId)
    if (!line) throw new RangeError(`countKits: no line for thread ${threadId}`)
    const { lotsMatter, putUpStrandTenths } = line
    const batches = input.batches.filter((batch) => batch.threadId === threadId).sort((a, b) => compareExact(a.id, b.id))
    const lots = byLot(batches, promises, projectId, cut)
    const kits = lotsMatter ? (lots[0]?.kits ?? 0) : lots.reduce((sum, lot) => sum + lot.kits, 0)
    // A lot that bears no mark cannot be asked for again.
    const kept = lotsMatter ? (lots.find(({ lot }) => lot !== null)?.kits ?? 0) : kits
    const toBuyFor = (number: number) => (kits >= number ? 0 : putUpsForKits(cut, putUpStrandTenths, number - kept))
    return {
      toBuyFor,
      line: {
        threadId,
        perKitStrandTenths: cut,
        cutsPerPutUp: Math.floor(putUpStrandTenths / cut),
        putUpsForAll: putUpsForKits(cut, putUpStrandTenths, wanted),
        kits,
        lot: lotsMatter && kits > 0 ? (lots[0]?.lot ?? null) : null,
        toBuyPutUps: toBuyFor(wanted),
      },
    }
  })
  const kits = counted.length === 0 ? 0 : Math.min(...counted.map(({ line }) => line.kits))
  return {
    kits,
    lines: counted.map(({ line }) => line),
    stops: counted.flatMap(({ line, toBuyFor }) =>
      line.kits === kits ? [{ threadId: line.threadId, toBuyPutUps: toBuyFor(kits + 1) }] : [],
    ),
  }
}

/** One marked lot, or one batch without a mark, and the kits it gives by itself. */
export type LotKits = { lot: string | null; freeStrandTenths: number; kits: number }

/**
 * The lots of one thread that have something free, each with the kits it gives by itself: the one that gives most first.
 *
 * @param batches  of this thread alone
 */
export function kitsByLot(input: {
  need: { threadId: string; strandTenths: number }
  batches: readonly Batch[]
  promises: readonly StockPromise[]
  line: Pick<ThreadLine, 'lotsMatter' | 'putUpStrandTenths'>
  projectId?: string | null
}): LotKits[] {
  const { need, promises, line, projectId = null } = input
  const lines = new Map([[need.threadId, line]])
  const groups = new Map<string, Batch[]>()
  for (const batch of input.batches) {
    const key = batch.lot === null ? `unmarked ${batch.id}` : `lot ${batch.lot}`
    groups.set(key, [...(groups.get(key) ?? []), batch])
  }
  return [...groups.values()]
    .map((own) => ({
      lot: own[0]?.lot ?? null,
      freeStrandTenths: own.reduce((sum, batch) => sum + freeOfBatch(batch, promises, projectId).freeStrandTenths, 0),
      kits: countKits({ needs: [need], wanted: 1, batches: own, promises, lines, projectId }).kits,
      firstId: own.map(({ id }) => id).sort(compareExact)[0] as string,
    }))
    .filter(({ freeStrandTenths }) => freeStrandTenths > 0)
    .sort(
      (a, b) =>
        b.kits - a.kits ||
        compareExact(a.lot, b.lot) ||
        b.freeStrandTenths - a.freeStrandTenths ||
        compareExact(a.firstId, b.firstId),
    )
    .map(({ firstId: _, ...lot }) => lot)
}

/** Spares to make beside a number of kits: one to each dozen begun, at least one. Common practice, no published source. */
export const sparesFor = (kits: number): number => Math.max(1, Math.ceil(kits / 12))
