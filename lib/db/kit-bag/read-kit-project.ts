import 'server-only'
import type { MasterList } from '#lib/project/kit/master-list'
import { openStatuses, type ProjectStatus } from '#lib/project/life-cycle'
import { ok, type Result, refused } from '#lib/result'
import type { Transaction } from '../client'
import { readMasterList } from '../kit/master-list'

export type NoSuchKit = { kind: 'no-such-project'; projectId: string }
export type KitClosed = { kind: 'project-closed'; status: ProjectStatus }
/** The kits were changed between reading what they hold and writing. */
export type KitChanged = { kind: 'changed-meanwhile' }

export type KitProject = {
  id: string
  version: number
  status: ProjectStatus
  ownerId: string
  chartId: string
  placeId: string | null
}

/**
 * What the kits of a project hold, read before a write begins: the reckoning behind it reads past the write's own transaction. The write
 * then claims that the project is as it was (`readKitProject`).
 */
export async function readMaster(projectId: string): Promise<Result<MasterList, NoSuchKit>> {
  const master = await readMasterList(projectId)
  return master ? ok(master) : refused({ kind: 'no-such-project', projectId })
}

/** The project within a write; refused when its kits are other than `master` says. */
export async function readKitProject(tx: Transaction, master: MasterList): Promise<Result<KitProject, NoSuchKit | KitChanged>> {
  const { projectId, copies, spares } = master
  const row = await tx.project.findFirst({
    where: { id: projectId, goneAt: null },
    select: {
      ...{ id: true, version: true, status: true, ownerId: true, placeId: true, quantity: true, spares: true },
      design: { select: { chartId: true } },
    },
  })
  if (!row) return refused({ kind: 'no-such-project', projectId })
  const { design, quantity, spares: kept, status, ...project } = row
  if (quantity !== copies || kept !== spares) return refused({ kind: 'changed-meanwhile' })
  return ok({ ...project, status: status as ProjectStatus, chartId: design.chartId })
}

/** Stock goes into kits only while the project may hold stock. */
export function refuseClosed({ status }: Pick<KitProject, 'status'>): Result<null, KitClosed> {
  return (openStatuses as readonly string[]).includes(status) ? ok(null) : refused({ kind: 'project-closed', status })
}
