import 'server-only'
import { findNextTurn, type NextTurn, type RotationRule, type TurnWork } from '#lib/planning/pace/rotation'
import { isInRotation, type ProjectStatus } from '#lib/project/life-cycle'
import { database } from '../../client'
import { getSettings } from '../../settings/settings'

export type RotationMember = {
  projectId: string
  title: string
  status: ProjectStatus
  weekdays: number
  lastWorkedOn: string | null
  /** It has its turn now: what is only planned, or done, waits outside. */
  takesPart: boolean
}

export type Rotation = { rule: RotationRule; members: RotationMember[]; next: NextTurn }

/** The rotation of some owners' projects, and what is next in it. `today` is yyyy-mm-dd. */
export async function readRotation(ownerIds: readonly string[], today: string): Promise<Rotation> {
  const { prisma } = database()
  const ofOwners = { ownerId: { in: [...ownerIds] }, goneAt: null }
  const [{ planning }, turns, work] = await Promise.all([
    getSettings(),
    prisma.rotationTurn.findMany({
      where: { project: ofOwners },
      select: { projectId: true, weekdays: true, project: { select: { status: true, design: { select: { title: true } } } } },
      orderBy: [{ position: 'asc' }, { projectId: 'asc' }],
    }),
    prisma.workEntry.findMany({
      where: { goneAt: null, project: { ...ofOwners, turn: { isNot: null } } },
      select: { projectId: true, day: true, stitches: true, minutes: true },
      orderBy: [{ day: 'asc' }, { id: 'asc' }],
    }),
  ])
  const last = new Map(work.map(({ projectId, day }) => [projectId, day]))
  const members = turns.map(({ projectId, weekdays, project }): RotationMember => {
    const status = project.status as ProjectStatus
    return {
      ...{ projectId, weekdays, status, title: project.design.title, lastWorkedOn: last.get(projectId) ?? null },
      takesPart: isInRotation(status),
    }
  })
  const rule = planning.rotation
  const open = members.filter(({ takesPart }) => takesPart)
  return { rule, members, next: findNextTurn({ rule, turns: open, work: work satisfies TurnWork[], today }) }
}
