import 'server-only'
import { type ProjectStatus, planTransition, type TransitionRefused } from '#lib/project/life-cycle'
import { ok, type Result, refused } from '#lib/result'
import type { Transaction } from '../client'
import { readKeptCloth } from '../cloth/kept-cloth'
import type { Prisma } from '../generated/sqlite/client'
import type { ChangedMeanwhile } from '../stock/apply-stock-change'
import type { NoSuchProject } from '../stock/change-batch'
import type { Write } from '../write-gate'

/** A project as a form names it: `version` is what the person saw; left out, it is taken as it stands. */
export type ProjectEdit = { projectId: string; version?: number; who?: string | null }

export type ProjectEditRefused = NoSuchProject | ChangedMeanwhile

const columns = {
  id: true,
  version: true,
  status: true,
  ownerId: true,
  designId: true,
  threadListId: true,
  clothPieceId: true,
  over: true,
  quantity: true,
  spares: true,
  placeId: true,
  dueOn: true,
  occasionKey: true,
  hoursTenths: true,
  stitchesDone: true,
  startedOn: true,
  finishedOn: true,
  design: { select: { chartId: true, title: true } },
} as const satisfies Prisma.ProjectSelect

export type ProjectSnapshot = Omit<Prisma.ProjectGetPayload<{ select: typeof columns }>, 'status' | 'over' | 'design'> & {
  status: ProjectStatus
  over: 1 | 2 | null
  chartId: string
  /** The design's. */
  title: string
}

/** The project as it stands in this transaction; refused when it is not at the version the person saw. */
export async function readProject(tx: Transaction, edit: ProjectEdit): Promise<Result<ProjectSnapshot, ProjectEditRefused>> {
  const row = await tx.project.findFirst({ where: { id: edit.projectId, goneAt: null }, select: columns })
  if (!row) return refused({ kind: 'no-such-project', projectId: edit.projectId })
  if (edit.version !== undefined && edit.version !== row.version) return refused({ kind: 'changed-meanwhile' })
  const { design, ...project } = row
  return ok({
    ...project,
    status: row.status as ProjectStatus,
    over: row.over as 1 | 2 | null,
    chartId: design.chartId,
    title: design.title,
  })
}

/** Write a project's row at the version it was read at, and raise it by one. */
export async function writeProject(
  { tx, touch }: Write,
  project: Pick<ProjectSnapshot, 'id' | 'version'>,
  data: Prisma.ProjectUncheckedUpdateManyInput,
): Promise<Result<null, ChangedMeanwhile>> {
  const claimed = await tx.project.updateMany({
    where: { id: project.id, version: project.version, goneAt: null },
    data: { ...data, version: { increment: 1 } },
  })
  if (claimed.count === 0) return refused({ kind: 'changed-meanwhile' })
  touch('project', project.id)
  return ok(null)
}

export type ClothChoiceRefused =
  | { kind: 'no-such-cloth'; clothPieceId: string }
  | { kind: 'cloth-reserved'; clothPieceId: string; title: string }

/** A piece can be a project's while it is there, is the owner's, and no other project and no plan of cuts keeps it. */
export async function checkCloth(
  tx: Transaction,
  choice: { ownerId: string; clothPieceId: string | null; projectId: string | null },
): Promise<Result<null, ClothChoiceRefused>> {
  const { ownerId, clothPieceId, projectId } = choice
  if (clothPieceId === null) return ok(null)
  if ((await tx.clothPiece.count({ where: { id: clothPieceId, ownerId, goneAt: null } })) === 0)
    return refused({ kind: 'no-such-cloth', clothPieceId })
  const kept = (await readKeptCloth(tx, [clothPieceId])).get(clothPieceId)
  const other = kept?.projects.find((one) => one.projectId !== projectId) ?? kept?.plans[0]
  return other ? refused({ kind: 'cloth-reserved', clothPieceId, title: other.title }) : ok(null)
}

/** `planTransition`; a wish does not hold its cloth, so one that is taken up must find it still to be had. */
export async function planStep(
  { tx, touch }: Write,
  project: ProjectSnapshot,
  to: ProjectStatus,
  today: string,
): Promise<
  Result<{ status: ProjectStatus; startedOn: string | null; finishedOn: string | null }, TransitionRefused | ClothChoiceRefused>
> {
  const planned = planTransition(project, to, today)
  if (!planned.ok || project.status !== 'wanted' || to === 'abandoned') return planned
  const { id: projectId, ownerId, clothPieceId } = project
  const cloth = await checkCloth(tx, { ownerId, clothPieceId, projectId })
  if (clothPieceId) touch('cloth', clothPieceId)
  return cloth.ok ? planned : cloth
}
