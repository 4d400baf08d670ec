import 'server-only'
import { type ProjectStatus, underWayStatuses } from '#lib/project/life-cycle'
import { database } from '../client'

/** A project under way that a swap may be accepted for, with the swaps it has. */
export type SwapProject = {
  id: string
  version: number
  status: ProjectStatus
  /** Whose goods it is worked from. */
  owner: { id: string; name: string }
  forWhom: string | null
  quantity: number
  threadListId: string | null
  clothPieceId: string | null
  swaps: { threadId: string; standInThreadId: string; reason: string | null }[]
}

export async function listSwapProjects(designId: string): Promise<SwapProject[]> {
  const rows = await database().prisma.project.findMany({
    where: { designId, goneAt: null, status: { in: [...underWayStatuses] } },
    select: {
      id: true,
      version: true,
      status: true,
      forWhom: true,
      quantity: true,
      threadListId: true,
      clothPieceId: true,
      owner: { select: { id: true, name: true } },
      swaps: { select: { threadId: true, standInThreadId: true, reason: true } },
    },
    orderBy: { id: 'desc' },
    take: 50,
  })
  return rows.map(({ status, ...project }) => ({ ...project, status: status as ProjectStatus }))
}
