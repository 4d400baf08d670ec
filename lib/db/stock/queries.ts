import 'server-only'
import { type FreeStock, freeStock } from '#lib/stock/free-stock'
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

/** Whose thread a batch is and how many strands that has; what a form needs to read a length. */
export async function findBatchThread(batchId: string): Promise<{ threadId: string; strands: number } | null> {
  const row = await database().prisma.batch.findFirst({
    where: { id: batchId, goneAt: null },
    select: { threadId: true, thread: { select: { line: { select: { strands: true } } } } },
  })
  return row && { threadId: row.threadId, strands: row.thread.line.strands }
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
