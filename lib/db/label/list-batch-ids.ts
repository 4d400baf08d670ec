import 'server-only'
import { chunks } from '../bulk-edit/read-bulk-edit'
import { database } from '../client'

/** The batches these owners hold of some threads. */
export async function listBatchIds(threadIds: readonly string[], ownerIds: readonly string[]): Promise<string[]> {
  const ids: string[] = []
  for (const some of chunks(threadIds)) {
    const rows = await database().prisma.batch.findMany({
      where: { threadId: { in: some }, ownerId: { in: [...ownerIds] }, goneAt: null },
      select: { id: true },
      orderBy: { id: 'asc' },
    })
    ids.push(...rows.map(({ id }) => id))
  }
  return ids
}
