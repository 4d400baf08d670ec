import 'server-only'
import { type BrokenPromiseNamed, findBrokenPromises } from '#lib/stock/broken-promises'
import { database, type Transaction } from '../client'
import { promiseColumns, readBatches } from './apply-stock-change'

/**
 * Batches of which more is promised than they hold, that are gone, or that have another owner than a project they are promised to. Worked
 * out in the database, which has every promise at hand, so that each page can ask.
 */
export const suspectsSql = `SELECT b."id" FROM "StockPromise" p
  JOIN "Batch" b ON b."id" = p."batchId"
  JOIN "Project" j ON j."id" = p."projectId"
  WHERE j."goneAt" IS NULL
  GROUP BY b."id", b."goneAt", b."wholePutUps", b."putUpStrandTenths", b."partCertainty", b."partStrandTenths"
  HAVING b."goneAt" IS NOT NULL
    OR SUM(CASE WHEN j."ownerId" <> b."ownerId" THEN 1 ELSE 0 END) > 0
    OR SUM(p."strandTenths") > CAST(b."wholePutUps" AS BIGINT) * b."putUpStrandTenths" + b."partStrandTenths"`

/**
 * Promises that stock no longer supports, the oldest first; of one project's, of one thread's, of one design's projects, or of all
 * projects of some owners. `tx` reads inside a write.
 */
export async function listBrokenPromises(
  asked: { projectId?: string; threadId?: string; designId?: string; ownerIds?: readonly string[] },
  tx: Transaction = database().prisma,
): Promise<BrokenPromiseNamed[]> {
  const suspects = await tx.$queryRawUnsafe<{ id: string }[]>(`${suspectsSql} ORDER BY b."id" LIMIT 500`)
  if (suspects.length === 0) return []
  const batchIds = suspects.map(({ id }) => id)
  const [{ batches }, promises] = await Promise.all([
    readBatches(tx, { id: { in: batchIds } }),
    tx.stockPromise.findMany({
      where: { batchId: { in: batchIds }, project: { goneAt: null } },
      select: {
        ...promiseColumns,
        project: {
          select: {
            id: true,
            ownerId: true,
            placeId: true,
            forWhom: true,
            designId: true,
            design: { select: { title: true } },
          },
        },
        batch: {
          select: {
            lot: true,
            thread: {
              select: {
                id: true,
                code: true,
                name: true,
                line: { select: { strands: true, maker: { select: { name: true } } } },
              },
            },
          },
        },
      },
    }),
  ])
  const { projectId, threadId, designId, ownerIds } = asked
  const rowOf = new Map(promises.map((promise) => [promise.id, promise]))
  const broken = findBrokenPromises({ batches, promises, projects: promises.map(({ project }) => project) })
  return broken.flatMap((promise) => {
    const row = rowOf.get(promise.promiseId)
    if (!row) return []
    const { project, batch } = row
    const { line, ...thread } = batch.thread
    if (projectId !== undefined && project.id !== projectId) return []
    if (threadId !== undefined && thread.id !== threadId) return []
    if (designId !== undefined && project.designId !== designId) return []
    if (ownerIds !== undefined && !ownerIds.includes(project.ownerId)) return []
    return [
      {
        ...promise,
        lot: batch.lot,
        project: { id: project.id, title: project.design.title, forWhom: project.forWhom },
        thread: { ...thread, makerName: line.maker.name, strands: line.strands },
      },
    ]
  })
}
