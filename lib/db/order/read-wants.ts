import 'server-only'
import type { Design } from '#lib/chart/design'
import type { ThreadList } from '#lib/chart/thread-list'
import { planBuyList, type Want } from '#lib/coverage/buy-list'
import type { ThreadNeed } from '#lib/coverage/need'
import { chooseLeastBuying } from '#lib/planning/buying/least-buying'
import { openStatuses, type ProjectStatus } from '#lib/project/life-cycle'
import type { Answers } from '../answers/answers'
import { database } from '../client'
import { coverageOfDesign } from '../coverage/design-coverage'
import { cutsOf, needsToHave, readProjectNeed, readThreadLists } from '../project/read-need'
import { mixFor, readBuyWorld } from './read-buy-list'

/** A design or project one buys for. */
export type Wanted = {
  want: Want
  title: string
  designId: string
  project: { id: string; status: ProjectStatus; quantity: number; forWhom: string | null } | null
  /** The thread list it is reckoned by, of those the design has; null when it has none. */
  listId: string | null
  /** Nearest to stitching first. */
  lists: WantedList[]
  /**
   * How the list was chosen: there is but one; somebody asked for it; of all designs together it takes the least buying, or the least
   * that was found; or it is the project's.
   */
  by: 'only' | 'asked' | 'least' | 'least found' | 'project'
  /** Part of its key is known to be wanting. */
  isIncomplete: boolean
}

/** `mergedCount`: symbols that fall together with another's thread. */
export type WantedList = { id: string; name: string; mergedCount: number }

/** A project that is wanted or planned: what is not bought for yet. */
export const buyingStatuses = ['wanted', ...openStatuses] as const satisfies ProjectStatus[]

/** As many at once are read for one list. */
export const mostWanted = 50

const nearest = (answers: Answers, design: Design, lists: readonly ThreadList[], ownerIds: readonly string[]) =>
  coverageOfDesign(answers, { design, lists }, { ownerIds })

/** A design, its lists with what each needs, and the list asked for if any was. */
type Read = { design: Design; lists: (WantedList & { needs: ThreadNeed[]; isIncomplete: boolean })[]; asked: string | null }

async function readDesign(
  answers: Answers,
  designId: string,
  choices: { ownerIds: readonly string[]; listIds: readonly string[] },
): Promise<Read | null> {
  const design = answers.world.designs.get(designId)?.design
  if (!design) return null
  const lists = await readThreadLists(database().prisma, designId)
  const coverage = nearest(answers, design, lists, choices.ownerIds)
  const needsOf = new Map(
    coverage?.lists.map(({ list, needs }) => [list.id, { needs, isIncomplete: list.isIncomplete ?? false }]),
  )
  return {
    design,
    asked: lists.find(({ id }) => choices.listIds.includes(id))?.id ?? null,
    lists: (coverage?.comparison ?? []).map(({ listId, name, mergedCount }) => ({
      ...{ id: listId, name, mergedCount },
      ...(needsOf.get(listId) ?? { needs: [], isIncomplete: true }),
    })),
  }
}

/** Lists to choose among: with a key that is in whole, if any has one; else they would seem to take less than they do. */
function toChooseFrom({ lists, asked }: Read, isLeastBuying: boolean): Read['lists'] {
  if (asked !== null) return lists.filter(({ id }) => id === asked)
  if (!isLeastBuying) return lists.slice(0, 1)
  const whole = lists.filter(({ needs, isIncomplete }) => !isIncomplete && needs.length > 0)
  return whole.length > 0 ? whole : lists
}

/** For every design a list, such that all of them, with the projects beside them, take the least buying. */
async function chooseLists(
  answers: Answers,
  designs: readonly Read[],
  projects: readonly Wanted[],
  { ownerIds, isLeastBuying = false }: { ownerIds: readonly string[]; isLeastBuying?: boolean },
): Promise<{ listIdOf: Map<string, string>; isProven: boolean }> {
  const choices = designs.flatMap((one) => {
    const lists = toChooseFrom(one, isLeastBuying)
    return lists.length > 0 ? [{ key: one.design.id, lists: lists.map(({ id, needs }) => ({ listId: id, needs })) }] : []
  })
  const nearestOf = new Map(choices.map(({ key, lists }) => [key, lists[0]?.listId as string]))
  if (choices.every(({ lists }) => lists.length === 1)) return { listIdOf: nearestOf, isProven: true }
  const threadIds = [
    ...new Set(choices.flatMap(({ lists }) => lists.flatMap(({ needs }) => needs.map(({ threadId }) => threadId)))),
  ]
  const world = await readBuyWorld(answers, threadIds, ownerIds)
  const known = threadIds.filter((id) => world.lines.has(id))
  const isPriced = known.every((id) => world.offers.get(id)?.every(({ priceMinor }) => priceMinor !== null))
  const fixed = new Map<string, Want[]>()
  for (const { want } of projects)
    for (const threadId of new Set(want.needs.map((need) => need.threadId)))
      fixed.set(threadId, [
        ...(fixed.get(threadId) ?? []),
        { ...want, needs: want.needs.filter((need) => need.threadId === threadId) },
      ])
  return chooseLeastBuying({
    designs: choices.map(({ key, lists }) => ({
      key,
      lists: lists.map(({ listId, needs }) => ({ listId, needs: needs.filter(({ threadId }) => world.lines.has(threadId)) })),
    })),
    costOf: (threadId, needs) => {
      const wants: Want[] = [
        ...(fixed.get(threadId) ?? []),
        ...needs.map(({ key, need }) => ({ key: `design ${key}`, projectId: null, needs: [need] })),
      ]
      const [line] = planBuyList({ ...world, wants, standIns: new Map(), ownerIds })
      const mix = line && mixFor(line, world)
      if (!line || line.putUps === 0) return [0, 0]
      const cost = isPriced ? (mix?.priceMinor ?? 0) : (mix?.putUps ?? line.putUps)
      return line.standing === 'buy' ? [cost, 0] : [0, cost]
    },
  })
}

const wantedDesign = ({ design, lists, asked }: Read, listId: string | null, isProven: boolean): Wanted => {
  const list = lists.find(({ id }) => id === listId)
  return {
    want: { key: `design ${design.id}`, projectId: null, needs: list?.needs ?? [] },
    ...{ title: design.title, designId: design.id, project: null, listId },
    lists: lists.map(({ id, name, mergedCount }) => ({ id, name, mergedCount })),
    by: lists.length < 2 ? 'only' : asked !== null ? 'asked' : isProven ? 'least' : 'least found',
    isIncomplete: list?.isIncomplete ?? false,
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
      const comparison = (design && nearest(answers, design, lists, ownerIds)?.comparison) ?? []
      const listId = threadListId ?? comparison[0]?.listId ?? null
      const work = { ...row, threadListId: listId, over: row.over as 1 | 2 | null }
      const need = await readProjectNeed(prisma, work, answers.world.settings)
      return {
        want: { key: `project ${row.id}`, projectId: row.id, needs: needsToHave(need), cuts: cutsOf(need) },
        title: design?.title ?? '',
        designId: row.designId,
        project: { id: row.id, status: status as ProjectStatus, quantity: row.quantity, forWhom },
        listId,
        lists: comparison.map(({ listId: id, name, mergedCount }) => ({ id, name, mergedCount })),
        by: 'project',
        isIncomplete: lists.find(({ id }) => id === listId)?.isIncomplete ?? false,
      }
    }),
  )
}

/**
 * What is to be bought for, in the order asked: designs, then projects. What is not on record is left out; 50 at most of each. A design
 * of several lists is taken by the one asked for, else by the one that takes the least buying for all of them together.
 */
export async function readWants(
  answers: Answers,
  asked: {
    designIds: readonly string[]
    listIds: readonly string[]
    projectIds: readonly string[]
    ownerIds: readonly string[]
    /** Else every design is taken by the list nearest to stitching on its own. */
    isLeastBuying?: boolean
  },
): Promise<Wanted[]> {
  const designIds = [...new Set(asked.designIds)].slice(0, mostWanted)
  const projectIds = [...new Set(asked.projectIds)].slice(0, mostWanted)
  const [read, projects] = await Promise.all([
    Promise.all(designIds.map((designId) => readDesign(answers, designId, asked))),
    readProjects(answers, projectIds, asked.ownerIds),
  ])
  const at = new Map(projectIds.map((id, index) => [id, index]))
  projects.sort((a, b) => (at.get(a.project?.id ?? '') ?? 0) - (at.get(b.project?.id ?? '') ?? 0))
  const designs = read.flatMap((one) => one ?? [])
  const { listIdOf, isProven } = await chooseLists(answers, designs, projects, asked)
  return [...designs.map((one) => wantedDesign(one, listIdOf.get(one.design.id) ?? null, isProven)), ...projects]
}
