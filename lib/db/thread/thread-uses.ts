import 'server-only'
import { textKey } from '#lib/quantity/text-key'
import { compareExact } from '#lib/stock/batch'
import { getAnswers } from '../answers/get-answers'
import { database } from '../client'

export type ThreadUse = {
  id: string
  title: string
  chartTitle: string
  /** The lists that name the thread; `shortStrandTenths` above nought: the list waits for so much of it. */
  lists: { id: string; name: string; needStrandTenths: number; shortStrandTenths: number }[]
  waits: boolean
}

export type ThreadUses = {
  /** One page: those that wait for it first, then by title. */
  designs: ThreadUse[]
  designCount: number
  waitingCount: number
  page: number
  pages: number
}

const designsPerPage = 40

/**
 * The designs whose lists use a thread, and which of them wait for it: at the chart's own advice they need more than is free of it to a
 * new project; where lots matter, more than is free of any one lot.
 *
 * @param asked.page  from 1; past the last, the last
 */
export async function listThreadUses(
  threadId: string,
  asked: { ownerIds: readonly string[]; page: number },
): Promise<ThreadUses> {
  const answers = await getAnswers()
  const { world } = answers
  const line = world.lines.get(world.lineOfThread.get(threadId) ?? '')
  const free = answers.freeOf(threadId, asked.ownerIds)
  const freeStrandTenths = line?.lotsMatter ? (free.lots[0]?.freeStrandTenths ?? 0) : free.freeStrandTenths
  const byDesign = new Map<string, ReturnType<typeof answers.needs.usesOf>>()
  for (const use of answers.needs.usesOf(threadId)) byDesign.set(use.designId, [...(byDesign.get(use.designId) ?? []), use])
  const uses = [...byDesign].flatMap(([designId, own]) => {
    const facts = world.designs.get(designId)
    if (!facts) return []
    const lists = own.map(({ listId, strandTenths }) => ({
      id: listId,
      needStrandTenths: strandTenths,
      shortStrandTenths: Math.max(0, strandTenths - freeStrandTenths),
    }))
    const waits = lists.length > 0 && lists.every(({ shortStrandTenths }) => shortStrandTenths > 0)
    return [{ id: designId, title: facts.design.title, chartTitle: facts.chartTitle, lists, waits }]
  })
  const sorted = uses
    .map((use) => ({ use, key: textKey(use.title) }))
    .sort((a, b) => Number(b.use.waits) - Number(a.use.waits) || compareExact(a.key, b.key) || compareExact(a.use.id, b.use.id))
  const pages = Math.max(1, Math.ceil(sorted.length / designsPerPage))
  const page = Math.min(Math.max(1, asked.page), pages)
  const shown = sorted.slice((page - 1) * designsPerPage, page * designsPerPage).map(({ use }) => use)
  const named = await database().prisma.threadList.findMany({
    where: { designId: { in: shown.map(({ id }) => id) } },
    select: { id: true, name: true },
    orderBy: [{ position: 'asc' }, { id: 'asc' }],
  })
  const nameOf = new Map(named.map(({ id, name }, position) => [id, { name, position }]))
  return {
    designs: shown.map((use) => ({
      ...use,
      lists: use.lists
        .map((list) => ({ ...list, name: nameOf.get(list.id)?.name ?? '' }))
        .sort((a, b) => (nameOf.get(a.id)?.position ?? 0) - (nameOf.get(b.id)?.position ?? 0)),
    })),
    designCount: sorted.length,
    waitingCount: uses.filter(({ waits }) => waits).length,
    page,
    pages,
  }
}
