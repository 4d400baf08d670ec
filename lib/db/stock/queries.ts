import 'server-only'
import type { Batch } from '#lib/stock/batch'
import { type FreeStock, freeStock } from '#lib/stock/free-stock'
import { type FullPutUp, fullOfLength } from '#lib/stock/part-length'
import { database } from '../client'
import { readBatches } from './apply-stock-change'

/** Free stock of one thread for these owners, and for a project what it was promised as well. */
export async function getFreeStock(
  threadId: string,
  asked: { ownerIds: readonly string[]; forProjectId?: string | null },
): Promise<FreeStock> {
  const { batches, promises } = await readBatches(database().prisma, { threadId, ownerId: { in: [...asked.ownerIds] } })
  return freeStock({ threadId, batches, promises, forProjectId: asked.forProjectId, ownerIds: asked.ownerIds })
}

/** What a form needs to read a length, a fraction or a weight of a batch. */
export type BatchFigures = FullPutUp & { threadId: string }

/** Whose thread a batch is, and the figures of one of its put-ups. */
export async function findBatchThread(batchId: string): Promise<BatchFigures | null> {
  const row = await database().prisma.batch.findFirst({
    where: { id: batchId, goneAt: null },
    select: {
      threadId: true,
      putUpStrandTenths: true,
      thread: { select: { line: { select: { strands: true, putUpStrandTenths: true, putUpMilligrams: true } } } },
    },
  })
  if (!row) return null
  return { threadId: row.threadId, ...fullOfLength(row.thread.line, row.putUpStrandTenths) }
}

/** The same of a thread as its line is sold, for stock that is still to come in. */
export async function findThreadFigures(threadId: string): Promise<BatchFigures | null> {
  const row = await database().prisma.thread.findFirst({
    where: { id: threadId, goneAt: null },
    select: { line: { select: { strands: true, putUpStrandTenths: true, putUpMilligrams: true } } },
  })
  return row && { threadId, ...row.line }
}

/** One batch that could be laid with another, for choosing. */
export type MergeChoice = Batch & { version: number }

/** The equal batches lying where this one lies; the first that came in first. */
export async function listMergeChoices(batch: Batch): Promise<MergeChoice[]> {
  const { batches, versions } = await readBatches(database().prisma, {
    threadId: batch.threadId,
    ownerId: batch.ownerId,
    lot: batch.lot,
    putUpWord: batch.putUpWord,
    putUpStrandTenths: batch.putUpStrandTenths,
    homePlaceId: batch.homePlaceId,
    currentPlaceId: batch.currentPlaceId,
    id: { not: batch.id },
  })
  return batches.map((other) => ({ ...other, version: versions.get(other.id) as number }))
}

export type ProjectChoice = { id: string; title: string; forWhom: string | null; status: string }

/** Projects that thread can be used on or taken for: begun or about to be, of these owners, by title. */
export async function listProjectChoices(ownerIds: readonly string[]): Promise<ProjectChoice[]> {
  const rows = await database().prisma.project.findMany({
    where: {
      ownerId: { in: [...ownerIds] },
      goneAt: null,
      status: { in: ['planned', 'kitted', 'stitching', 'resting', 'stitched'] },
    },
    select: { id: true, status: true, forWhom: true, design: { select: { title: true } } },
    orderBy: [{ design: { titleKey: 'asc' } }, { id: 'asc' }],
    take: 300,
  })
  return rows.map(({ design, ...project }) => ({ ...project, title: design.title }))
}
