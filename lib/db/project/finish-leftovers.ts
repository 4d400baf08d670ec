import 'server-only'
import { plainUseOf, type ThreadNeed } from '#lib/coverage/need'
import { type LeftoverHow, type LeftoverRefused, usedByLeftover } from '#lib/project/plan-finish'
import { ok, type Result, refused } from '#lib/result'
import { type Batch, isOut } from '#lib/stock/batch'
import { lengthByWeight } from '#lib/thread/put-ups'
import type { Transaction } from '../client'
import { newId } from '../new-id'
import type { Write } from '../write-gate'

/** What is left of a thread of all that was in the bag, by length or by weight; without a band, card or bobbin on the scales. */
export type Leftover = { threadId: string } & ({ how: 'measured'; strandTenths: number } | { how: 'weighed'; milligrams: number })

export type FinishLeftoverRefused = LeftoverRefused | { kind: 'no-weight'; threadId: string }

type PutUpWeight = { putUpMilligrams: number | null; putUpStrandTenths: number }

/** What a full put-up of these threads' lines weighs, and how long it is. */
export async function readWeights(tx: Transaction, threadIds: readonly string[]): Promise<Map<string, PutUpWeight>> {
  const rows = await tx.thread.findMany({
    where: { id: { in: [...threadIds] } },
    select: { id: true, line: { select: { putUpMilligrams: true, putUpStrandTenths: true } } },
  })
  return new Map(rows.map(({ id, line }) => [id, line]))
}

type LeftoverUse = { threadId: string; how: LeftoverHow; usedStrandTenths: number; isReading: boolean }

/**
 * What was used of each thread by what is left of it.
 *
 * @param batches  all that is the project's business (see `readKit`)
 */
export async function readLeftovers(
  tx: Transaction,
  batches: readonly Batch[],
  { leftovers, missingBatchIds }: { leftovers: readonly Leftover[]; missingBatchIds: readonly string[] },
): Promise<Result<LeftoverUse[], FinishLeftoverRefused>> {
  const missingIds = new Set(missingBatchIds)
  const weighedIds = leftovers.filter(({ how }) => how === 'weighed').map(({ threadId }) => threadId)
  const weights = weighedIds.length > 0 ? await readWeights(tx, weighedIds) : new Map<string, PutUpWeight>()
  const uses: LeftoverUse[] = []
  for (const leftover of leftovers) {
    const { threadId, how } = leftover
    const left = lengthOf(leftover, weights.get(threadId))
    if (left === null) return refused({ kind: 'no-weight', threadId })
    const pulled = batches.filter((batch) => batch.threadId === threadId && isOut(batch))
    const use = usedByLeftover(pulled, { threadId, leftStrandTenths: left, missingIds })
    if (!use.ok) return use
    uses.push({ threadId, how, ...use.value })
  }
  return ok(uses)
}

function lengthOf(leftover: Leftover, weight: PutUpWeight | undefined): number | null {
  if (leftover.how === 'measured') return leftover.strandTenths
  const putUpMilligrams = weight?.putUpMilligrams
  if (!weight || !putUpMilligrams) return null
  return lengthByWeight({ ...weight, putUpMilligrams, milligrams: leftover.milligrams })
}

/** Keep what can be learnt from: threads whose whole need the key counts in stitches. */
export async function writeReadings(
  { tx, at }: Write,
  project: { id: string; quantity: number },
  { uses, needs }: { uses: readonly LeftoverUse[]; needs: readonly ThreadNeed[] },
): Promise<void> {
  const rows = uses.flatMap(({ threadId, how, usedStrandTenths, isReading }) => {
    const need = needs.find((other) => other.threadId === threadId)
    const plain = isReading && need ? plainUseOf(need, project.quantity) : null
    return plain ? [{ id: newId(), projectId: project.id, threadId, usedStrandTenths, ...plain, how, at }] : []
  })
  if (rows.length > 0) await tx.useReading.createMany({ data: rows })
}
