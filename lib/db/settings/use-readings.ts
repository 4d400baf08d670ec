import 'server-only'
import type { LeftoverHow } from '#lib/project/plan-finish'
import { type AllowanceReading, type LearntAllowance, learnAllowance } from '#lib/thread/allowance'
import { database } from '../client'

/** What one colour of a finished piece took, with the names of both. */
export type UseReading = AllowanceReading & {
  id: string
  how: LeftoverHow
  at: Date
  piece: { title: string; finishedOn: string | null }
  thread: { id: string; makerName: string; code: string; name: string | null; strands: number }
}

const ofOwners = (ownerIds: readonly string[]) => ({ project: { goneAt: null, ownerId: { in: [...ownerIds] } } })

/** What is learnt from the finished pieces of these owners, and how many readings there are. */
export async function findLearntAllowance(
  ownerIds: readonly string[],
): Promise<{ learnt: LearntAllowance | null; readingCount: number }> {
  const readings = await database().prisma.useReading.findMany({
    where: ofOwners(ownerIds),
    select: { projectId: true, usedStrandTenths: true, plainStrandTenths: true, flatStrandTenths: true },
    orderBy: { id: 'asc' },
  })
  return { learnt: learnAllowance(readings), readingCount: readings.length }
}

/** One page of the readings, the latest first. */
export async function listUseReadings(
  ownerIds: readonly string[],
  page: { limit: number; after?: string | undefined },
): Promise<{ readings: UseReading[]; next: string | null }> {
  const rows = await database().prisma.useReading.findMany({
    where: { ...ofOwners(ownerIds), ...(page.after !== undefined && { id: { lt: page.after } }) },
    select: {
      id: true,
      projectId: true,
      usedStrandTenths: true,
      plainStrandTenths: true,
      flatStrandTenths: true,
      how: true,
      at: true,
      project: { select: { finishedOn: true, design: { select: { title: true } } } },
      thread: {
        select: { id: true, code: true, name: true, line: { select: { strands: true, maker: { select: { name: true } } } } },
      },
    },
    orderBy: { id: 'desc' },
    take: page.limit + 1,
  })
  const readings = rows.slice(0, page.limit).map(({ project, thread, how, ...figures }): UseReading => {
    const { line, ...named } = thread
    return {
      ...figures,
      how: how as LeftoverHow,
      piece: { title: project.design.title, finishedOn: project.finishedOn },
      thread: { ...named, makerName: line.maker.name, strands: line.strands },
    }
  })
  return { readings, next: rows.length > page.limit ? (readings.at(-1)?.id ?? null) : null }
}
