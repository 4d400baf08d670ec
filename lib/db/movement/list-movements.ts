import 'server-only'
import type { MovementKind } from '#lib/stock/stock-change'
import { database } from '../client'
import type { Prisma } from '../generated/sqlite/client'

export type MovementFilter = {
  batchId?: string | undefined
  threadId?: string | undefined
  clothPieceId?: string | undefined
  chartId?: string | undefined
  notionId?: string | undefined
  projectId?: string | undefined
  since?: Date | undefined
  /** The lines of one write. */
  revision?: number | undefined
}

type Tag = { id: string; label: string }
type Name = { id: string; name: string }

/** One line of the journal, of thread, cloth, a chart or a notion. */
export type JournalLine = {
  id: string
  revision: number
  at: Date
  kind: MovementKind
  batch: {
    id: string
    lot: string | null
    threadId: string
    makerName: string
    lineName: string
    code: string
    name: string | null
  } | null
  cloth: { id: string; label: string | null; name: string } | null
  chart: { id: string; title: string } | null
  notion: { id: string; name: string; size: string | null } | null
  wholeDelta: number
  partDeltaStrandTenths: number
  from: Tag | null
  to: Tag | null
  fromOwner: Name | null
  toOwner: Name | null
  project: { id: string; title: string } | null
  importId: string | null
  who: string | null
  reason: string | null
}

const tag = { select: { id: true, label: true } } as const
const named = { select: { id: true, name: true } } as const
const columns = {
  id: true,
  revision: true,
  at: true,
  kind: true,
  wholeDelta: true,
  partDeltaStrandTenths: true,
  importId: true,
  who: true,
  reason: true,
  batch: {
    select: {
      id: true,
      lot: true,
      thread: { select: { id: true, code: true, name: true, line: { select: { name: true, maker: named } } } },
    },
  },
  clothPiece: { select: { id: true, label: true, name: true } },
  chart: { select: { id: true, title: true } },
  notion: { select: { id: true, name: true, size: true } },
  fromPlace: tag,
  toPlace: tag,
  fromOwner: named,
  toOwner: named,
  project: { select: { id: true, design: { select: { title: true } } } },
} as const satisfies Prisma.MovementSelect

function toLine({
  batch,
  clothPiece,
  fromPlace,
  toPlace,
  project,
  kind,
  ...row
}: Prisma.MovementGetPayload<{ select: typeof columns }>): JournalLine {
  return {
    ...row,
    kind: kind as MovementKind,
    batch: batch && {
      id: batch.id,
      lot: batch.lot,
      threadId: batch.thread.id,
      makerName: batch.thread.line.maker.name,
      lineName: batch.thread.line.name,
      code: batch.thread.code,
      name: batch.thread.name,
    },
    cloth: clothPiece,
    from: fromPlace,
    to: toPlace,
    project: project && { id: project.id, title: project.design.title },
  }
}

/**
 * The journal, latest first.
 *
 * @param page.after  Id of the last line of the page before.
 * @returns           One line more than `page.limit` when there are more; null when there is no line `page.after`.
 */
export async function listMovements(
  filter: MovementFilter,
  page: { limit: number; after?: string | undefined },
): Promise<JournalLine[] | null> {
  const { prisma } = database()
  const { threadId, since, ...exact } = filter
  if (page.after !== undefined && (await prisma.movement.count({ where: { id: page.after } })) === 0) return null
  const rows = await prisma.movement.findMany({
    where: { ...exact, ...(threadId !== undefined && { batch: { threadId } }), ...(since && { at: { gte: since } }) },
    select: columns,
    orderBy: [{ revision: 'desc' }, { id: 'desc' }],
    take: page.limit + 1,
    ...(page.after !== undefined && { cursor: { id: page.after }, skip: 1 }),
  })
  return rows.map(toLine)
}
