import 'server-only'
import type { Design } from '#lib/chart/design'
import type { ThreadList } from '#lib/chart/thread-list'
import type { Want } from '#lib/coverage/buy-list'
import { openStatuses, type ProjectStatus } from '#lib/project/life-cycle'
import type { Answers } from '../answers/answers'
import { database } from '../client'
import { coverageOfDesign } from '../coverage/design-coverage'
import { cutsOf, needsToHave, readProjectNeed, readThreadLists } from '../project/read-need'

/** A design or project one buys for. */
export type Wanted = {
  want: Want
  title: string
  designId: string
  project: { id: string; status: ProjectStatus; quantity: number; forWhom: string | null } | null
  /** The thread list it is reckoned by, of those the design has; null when it has none. */
  listId: string | null
  lists: { id: string; name: string }[]
  /** Part of its key is known to be wanting. */
  isIncomplete: boolean
}

/** A project that is wanted or planned: what is not bought for yet. */
export const buyingStatuses = ['wanted', ...openStatuses] as const satisfies ProjectStatus[]

/** As many at once are read for one list. */
export const mostWanted = 50

const nearest = (answers: Answers, design: Design, lists: readonly ThreadList[], ownerIds: readonly string[]) =>
  coverageOfDesign(answers, { design, lists }, { ownerIds })

/** A design by the list asked for, else by the one nearest to stitching. */
async function readDesign(
  answers: Answers,
  designId: string,
  choices: { ownerIds: readonly string[]; listIds: readonly string[] },
): Promise<Wanted | null> {
  const design = answers.world.designs.get(designId)?.design
  if (!design) return null
  const lists = await readThreadLists(database().prisma, designId)
  const coverage = nearest(answers, design, lists, choices.ownerIds)
  const listId = lists.find(({ id }) => choices.listIds.includes(id))?.id ?? coverage?.comparison[0]?.listId ?? null
  const covered = coverage?.lists.find(({ list }) => list.id === listId)
  return {
    want: { key: `design ${designId}`, projectId: null, needs: covered?.needs ?? [] },
    title: design.title,
    designId,
    project: null,
    listId,
    lists: lists.map(({ id, name }) => ({ id, name })),
    isIncomplete: covered?.list.isIncomplete ?? false,
  }
}

/** Projects by what they are to be worked from, on their own cloth, all of a kit batch together. */
async function readProjects(answers: Answers, projectIds: readonly string[], ownerIds: readonly string[]): Promise<Wanted[]> {
  const { prisma } = database()
  const rows = await prisma.project.findMany({
    where: { id: { in: [...projectIds] }, goneAt: null },
    select: {
      id: true,
      designId: true,
      threadListId: true,
      clothPieceId: true,
      over: true,
      quantity: true,
      status: true,
      forWhom: true,
    },
  })
  return Promise.all(
    rows.map(async ({ status, forWhom, threadListId, ...row }) => {
      const design = answers.world.designs.get(row.designId)?.design
      const lists = await readThreadLists(prisma, row.designId)
      const listId = threadListId ?? (design && nearest(answers, design, lists, ownerIds)?.comparison[0]?.listId) ?? null
      const work = { ...row, threadListId: listId, over: row.over as 1 | 2 | null }
      const need = await readProjectNeed(prisma, work, answers.world.settings)
      return {
        want: { key: `project ${row.id}`, projectId: row.id, needs: needsToHave(need), cuts: cutsOf(need) },
        title: design?.title ?? '',
        designId: row.designId,
        project: { id: row.id, status: status as ProjectStatus, quantity: row.quantity, forWhom },
        listId,
        lists: lists.map(({ id, name }) => ({ id, name })),
        isIncomplete: lists.find(({ id }) => id === listId)?.isIncomplete ?? false,
      }
    }),
  )
}

/** What is to be bought for, in the order asked: designs, then projects. What is not on record is left out; 50 at most of each. */
export async function readWants(
  answers: Answers,
  asked: {
    designIds: readonly string[]
    listIds: readonly string[]
    projectIds: readonly string[]
    ownerIds: readonly string[]
  },
): Promise<Wanted[]> {
  const designIds = [...new Set(asked.designIds)].slice(0, mostWanted)
  const projectIds = [...new Set(asked.projectIds)].slice(0, mostWanted)
  const [designs, projects] = await Promise.all([
    Promise.all(designIds.map((designId) => readDesign(answers, designId, asked))),
    readProjects(answers, projectIds, asked.ownerIds),
  ])
  const at = new Map(projectIds.map((id, index) => [id, index]))
  projects.sort((a, b) => (at.get(a.project?.id ?? '') ?? 0) - (at.get(b.project?.id ?? '') ?? 0))
  return [...designs.flatMap((design) => design ?? []), ...projects]
}
