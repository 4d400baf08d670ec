import 'server-only'
import type { BagStatus } from '#lib/project/kit/bag-status'
import { isInRange } from '#lib/project/kit/record'
import { database } from '../client'
import type { Prisma } from '../generated/sqlite/client'
import { type ThreadTag, threadTagColumns, threadTagOf } from '../thread/thread-tag'

/** What is asked of all batch records. */
export type KitLotQuery = {
  ownerIds: readonly string[]
  threadIds?: readonly string[] | undefined
  /** Exact. */
  lot?: string | undefined
  batchId?: string | undefined
  projectId?: string | undefined
  /** Cut from this moment, and before that. */
  from?: Date | undefined
  before?: Date | undefined
  offset: number
  limit: number
}

/** Which bags of one project had their thread out of one batch on one occasion, and where those bags are. */
export type KitLotFound = {
  id: string
  project: { id: string; title: string; quantity: number }
  thread: ThreadTag
  batchId: string
  lot: string | null
  fromBag: number
  toBag: number
  at: Date
  who: string | null
  bags: { number: number; isSpare: boolean; status: BagStatus; soldTo: string | null }[]
}

/** Lines of batch records, the newest first: which kits have this lot, and who has them. */
export async function findKitLots(query: KitLotQuery): Promise<{ rows: KitLotFound[]; total: number }> {
  const { prisma } = database()
  const { ownerIds, threadIds, lot, batchId, projectId, from, before, offset, limit } = query
  const where: Prisma.KitLotWhereInput = {
    project: { ownerId: { in: [...ownerIds] }, goneAt: null },
    ...(threadIds && { threadId: { in: [...threadIds] } }),
    ...(lot !== undefined && { lot }),
    ...(batchId !== undefined && { batchId }),
    ...(projectId !== undefined && { projectId }),
    ...((from || before) && { at: { ...(from && { gte: from }), ...(before && { lt: before }) } }),
  }
  const [rows, total] = await Promise.all([
    prisma.kitLot.findMany({
      where,
      select: {
        ...{ id: true, batchId: true, lot: true, fromBag: true, toBag: true, at: true, who: true },
        project: { select: { id: true, quantity: true, design: { select: { title: true } } } },
        thread: { select: threadTagColumns },
      },
      orderBy: [{ at: 'desc' }, { id: 'asc' }],
      skip: offset,
      take: limit,
    }),
    prisma.kitLot.count({ where }),
  ])
  const bags = await prisma.kitBag.findMany({
    where: { projectId: { in: [...new Set(rows.map(({ project }) => project.id))] } },
    select: { projectId: true, number: true, isSpare: true, status: true, soldTo: true },
    orderBy: { number: 'asc' },
  })
  return {
    total,
    rows: rows.map(({ project, thread, ...line }) => ({
      ...line,
      project: { id: project.id, title: project.design.title, quantity: project.quantity },
      thread: threadTagOf(thread),
      bags: bags
        .filter((bag) => bag.projectId === project.id && isInRange(line, bag.number))
        .map(({ projectId: _project, ...bag }) => ({ ...bag, status: bag.status as BagStatus })),
    })),
  }
}
