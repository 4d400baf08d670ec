import 'server-only'
import type { ThreadNeed } from '#lib/coverage/need'
import type { Answers } from '../answers/answers'
import { database } from '../client'
import { type BoughtThread, byMakerAndCode, readBoughtThreads } from '../order/bought-threads'
import { type BuyListRow, readBuyList } from '../order/read-buy-list'
import { buyingStatuses, mostWanted, readWants, type Wanted } from '../order/read-wants'

export type LeavingUse = { wanted: Wanted; needStrandTenths: number }

export type LeavingThread = {
  thread: BoughtThread
  designCount: number
  /** Projects that are wanted or planned first, then designs, by title; at most `usesShown`. */
  uses: LeavingUse[]
  /** What is short for the projects among them, and for all that are shown; null when they need none of it. */
  forProjects: BuyListRow | null
  forAll: BuyListRow | null
}

const usesShown = 8

/** Threads of which no more will be had, with what needs them and how much is short; by maker and code. */
export async function readLeaving(
  answers: Answers,
  ownerIds: readonly string[],
  page: { offset: number; limit: number },
): Promise<{ rows: LeavingThread[]; total: number }> {
  const { prisma } = database()
  const threads = [...(await readBoughtThreads({ isLeaving: true, goneAt: null })).values()].sort(byMakerAndCode)
  const engine = answers.coverage(ownerIds)
  const onPage = threads.slice(page.offset, page.offset + page.limit).map((thread) => ({
    thread,
    designIds: engine
      .designsUsing(thread.id)
      .map((id) => ({ id, title: answers.world.designs.get(id)?.design.title ?? '' }))
      .sort((a, b) => (a.title < b.title ? -1 : a.title > b.title ? 1 : a.id < b.id ? -1 : 1))
      .map(({ id }) => id),
  }))
  const projects = await prisma.project.findMany({
    where: {
      ownerId: { in: [...ownerIds] },
      goneAt: null,
      status: { in: [...buyingStatuses] },
      OR: [
        { threadList: { keyLines: { some: { threads: { some: { thread: { isLeaving: true } } } } } } },
        { swaps: { some: { standIn: { isLeaving: true } } } },
      ],
    },
    select: { id: true },
    orderBy: { id: 'asc' },
    take: mostWanted,
  })
  const designIds = [...new Set(onPage.flatMap(({ designIds: all }) => all.slice(0, usesShown)))]
  const parts: string[][] = []
  for (let from = 0; from < designIds.length; from += mostWanted) parts.push(designIds.slice(from, from + mostWanted))
  const read = (some: { designIds: string[]; projectIds: string[] }) => readWants(answers, { ...some, listIds: [], ownerIds })
  const [ofProjects, ...ofDesigns] = await Promise.all([
    read({ designIds: [], projectIds: projects.map(({ id }) => id) }),
    ...parts.map((part) => read({ designIds: part, projectIds: [] })),
  ])
  const designs = new Map(ofDesigns.flat().map((wanted) => [wanted.designId, wanted]))
  const needOf = ({ want }: Wanted, threadId: string) =>
    want.needs.reduce((sum, need) => (need.threadId === threadId ? sum + need.strandTenths : sum), 0)
  const shown = onPage.map(({ thread, designIds: all }) => {
    const wanting = ofProjects.filter((wanted) => needOf(wanted, thread.id) > 0)
    const planned = new Set(wanting.map(({ designId }) => designId))
    const others = all
      .flatMap((id) => designs.get(id) ?? [])
      .filter((wanted) => !planned.has(wanted.designId) && needOf(wanted, thread.id) > 0)
    const uses = [...wanting, ...others].slice(0, usesShown)
    return {
      thread,
      designCount: all.length,
      uses: uses.map((wanted) => ({ wanted, needStrandTenths: needOf(wanted, thread.id) })),
    }
  })
  /** What to buy of each thread for those of its uses that are meant, as one list. */
  const buyFor = async (isMeant: (wanted: Wanted) => boolean) => {
    const needs = new Map<Wanted, ThreadNeed[]>()
    for (const { thread, uses } of shown) {
      for (const { wanted } of uses) {
        const own = wanted.want.needs.filter(({ threadId }) => threadId === thread.id)
        if (isMeant(wanted)) needs.set(wanted, [...(needs.get(wanted) ?? []), ...own])
      }
    }
    const wants = [...needs].map(([{ want }, some]) => ({ ...want, needs: some }))
    return new Map((await readBuyList(answers, wants, ownerIds)).map((row) => [row.thread.id, row]))
  }
  const [forProjects, forAll] = await Promise.all([buyFor(({ project }) => project !== null), buyFor(() => true)])
  const rows = shown.map((row) => ({
    ...row,
    forProjects: forProjects.get(row.thread.id) ?? null,
    forAll: forAll.get(row.thread.id) ?? null,
  }))
  return { rows, total: threads.length }
}
