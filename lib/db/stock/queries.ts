import 'server-only'
import type { Batch, PartCertainty } from '#lib/stock/batch'
import { type FreeStock, freeStock } from '#lib/stock/free-stock'
import { database } from '../client'
import { batchColumns, readBatches } from './apply-stock-change'

/** Free stock of one thread for these owners, and for a project what it was promised as well. */
export async function getFreeStock(
  threadId: string,
  asked: { ownerIds: readonly string[]; forProjectId?: string | null },
): Promise<FreeStock> {
  const { batches, promises } = await readBatches(database().prisma, { threadId, ownerId: { in: [...asked.ownerIds] } })
  return freeStock({ threadId, batches, promises, forProjectId: asked.forProjectId, ownerIds: asked.ownerIds })
}

export type OutBatch = {
  batch: Batch
  outSince: Date
  thread: {
    id: string
    makerName: string
    lineName: string
    code: string
    name: string | null
    strands: number
    putUpWord: string
  }
  ownerName: string
  home: { id: string; label: string }
  current: { id: string; label: string }
  /** The projects it is promised to, by title. */
  projects: { id: string; title: string }[]
}

const whereOut = (ownerIds: readonly string[]) => ({
  ownerId: { in: [...ownerIds] },
  goneAt: null,
  outSince: { not: null },
  homePlaceId: { not: null },
  currentPlaceId: { not: null },
})

export const countOut = (ownerIds: readonly string[]): Promise<number> =>
  database().prisma.batch.count({ where: whereOut(ownerIds) })

/** The thread that is not at its home, longest out first. */
export async function listOut(ownerIds: readonly string[], page: { offset: number; limit: number }): Promise<OutBatch[]> {
  const place = { select: { id: true, label: true } } as const
  const rows = await database().prisma.batch.findMany({
    where: whereOut(ownerIds),
    select: {
      ...batchColumns,
      outSince: true,
      owner: { select: { name: true } },
      homePlace: place,
      currentPlace: place,
      thread: {
        select: {
          id: true,
          code: true,
          name: true,
          line: { select: { name: true, strands: true, putUpWord: true, maker: { select: { name: true } } } },
        },
      },
      promises: { select: { project: { select: { id: true, design: { select: { title: true } } } } } },
    },
    orderBy: [{ outSince: 'asc' }, { id: 'asc' }],
    skip: page.offset,
    take: page.limit,
  })
  return rows.flatMap(({ outSince, owner, homePlace, currentPlace, thread, promises, ...batch }) => {
    if (!outSince || !homePlace || !currentPlace) return []
    const { line, ...named } = thread
    return [
      {
        batch: { ...batch, partCertainty: batch.partCertainty as PartCertainty },
        outSince,
        thread: { ...named, makerName: line.maker.name, lineName: line.name, strands: line.strands, putUpWord: line.putUpWord },
        ownerName: owner.name,
        home: homePlace,
        current: currentPlace,
        projects: promises
          .map(({ project }) => ({ id: project.id, title: project.design.title }))
          .sort((a, b) => (a.title < b.title ? -1 : a.title > b.title ? 1 : a.id < b.id ? -1 : 1)),
      },
    ]
  })
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
