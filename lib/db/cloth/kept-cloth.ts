import 'server-only'
import { underWayStatuses } from '#lib/project/life-cycle'
import type { Transaction } from '../client'
import { openProjects } from '../place/place-counts'
import { beyondSight } from '../sight/sighted-client'

/** What keeps a piece from being cut or taken for anything else. */
export type KeptBy = {
  /** Under way on it; or under way or wished for, and the piece was cut or set aside for it. */
  projects: { projectId: string; title: string; status: string }[]
  /** Plans of cuts that are to be carried out. */
  plans: { planId: string; title: string }[]
}

/** Projects for which a piece that was cut or set aside for them stays kept: a wish, too, once cloth was cut for it. */
const keepingProjects = { goneAt: null, status: { in: [...underWayStatuses] } }

/**
 * What keeps these pieces, by piece; null reads all that are kept. A piece nothing keeps is not in it. Read apart from the pieces: an
 * ordered relation of a list is asked for with every id of the list, and SQLite takes no more than 999 of them.
 */
export async function readKeptCloth(prisma: Readable, pieceIds: readonly string[] | null): Promise<Map<string, KeptBy>> {
  const whole = beyondSight(prisma)
  const seen = await readKept(prisma, pieceIds)
  if (whole === prisma) return seen
  // Somebody else's work keeps a piece as well; what it is is not said.
  const title = 'another owner’s work'
  for (const [pieceId, { projects, plans }] of await readKept(whole, pieceIds ?? (await ownPieceIds(prisma)))) {
    const known = seen.get(pieceId) ?? { projects: [], plans: [] }
    const isKnown = (id: string) =>
      known.projects.some((one) => one.projectId === id) || known.plans.some((one) => one.planId === id)
    for (const one of projects) if (!isKnown(one.projectId)) known.projects.push({ ...one, title })
    for (const one of plans) {
      if (!isKnown(one.planId)) known.plans.push({ ...one, title })
    }
    seen.set(pieceId, known)
  }
  return seen
}

type Readable = Pick<Transaction, 'project' | 'clothPiece' | 'cutPlanPiece'>

const ownPieceIds = async (prisma: Readable): Promise<string[]> =>
  (await prisma.clothPiece.findMany({ where: { goneAt: null }, select: { id: true } })).map(({ id }) => id)

async function readKept(prisma: Readable, pieceIds: readonly string[] | null): Promise<Map<string, KeptBy>> {
  const ids = pieceIds === null ? undefined : { in: [...pieceIds] }
  const project = { id: true, status: true, design: { select: { title: true } } } as const
  const worked = await prisma.project.findMany({
    where: { ...openProjects, clothPieceId: ids ?? { not: null } },
    select: { ...project, clothPieceId: true },
    orderBy: { id: 'asc' },
  })
  const setAside = await prisma.clothPiece.findMany({
    where: { ...(ids && { id: ids }), goneAt: null, keptForProject: keepingProjects },
    select: { id: true, keptForProject: { select: project } },
    orderBy: { id: 'asc' },
  })
  const planned = await prisma.cutPlanPiece.findMany({
    where: { ...(ids && { clothPieceId: ids }), cutPlan: { status: 'kept' } },
    select: { clothPieceId: true, cutPlan: { select: { id: true, title: true } } },
    orderBy: { id: 'asc' },
  })

  const kept = new Map<string, KeptBy>()
  const of = (pieceId: string): KeptBy => {
    const known = kept.get(pieceId) ?? { projects: [], plans: [] }
    kept.set(pieceId, known)
    return known
  }
  const byProjects = [
    ...worked.map((one) => ({ pieceId: one.clothPieceId, project: one })),
    ...setAside.map((one) => ({ pieceId: one.id, project: one.keptForProject })),
  ]
  for (const { pieceId, project } of byProjects) {
    if (pieceId === null || project === null) continue
    const { projects } = of(pieceId)
    if (projects.some(({ projectId }) => projectId === project.id)) continue
    projects.push({ projectId: project.id, status: project.status, title: project.design.title })
  }
  for (const { clothPieceId, cutPlan } of planned) of(clothPieceId).plans.push({ planId: cutPlan.id, title: cutPlan.title })
  return kept
}
