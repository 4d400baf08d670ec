import 'server-only'
import { workedCloth } from '#lib/coverage/worked-cloth'
import type { Place } from '#lib/place/place'
import { findReady, type StartingWork } from '#lib/planning/days/ready-to-start'
import { planToday, type TodayFacts, type TodayLine } from '#lib/planning/days/today'
import { openStatuses, underWayStatuses } from '#lib/project/life-cycle'
import { pitchUm } from '#lib/quantity/count'
import { addDays } from '#lib/quantity/day'
import { isOut } from '#lib/stock/batch'
import { type Answers, clothSettings } from '../../answers/answers'
import { getAnswers } from '../../answers/get-answers'
import { database } from '../../client'
import { readReorderCheck } from '../../reorder/reorder-check'
import { readSchedules } from '../pace/read-schedule'

type Asked = { ownerIds: readonly string[]; today: string }

/** A project under way, with what the day asks of it. */
const columns = {
  ...{
    id: true,
    status: true,
    designId: true,
    ownerId: true,
    threadListId: true,
    clothPieceId: true,
    over: true,
    quantity: true,
  },
  ...{ placeId: true, dueOn: true, startedOn: true, stitchesDone: true, finishingWeeks: true },
} as const

export type WorkUnderWay = {
  id: string
  status: string
  designId: string
  ownerId: string
  threadListId: string | null
  clothPieceId: string | null
  over: number | null
  quantity: number
  placeId: string | null
  dueOn: string | null
  startedOn: string | null
  stitchesDone: number
  finishingWeeks: number | null
}

export const readWorksUnderWay = (ownerIds: readonly string[]): Promise<WorkUnderWay[]> =>
  database().prisma.project.findMany({
    where: { ownerId: { in: [...ownerIds] }, status: { in: [...underWayStatuses] }, goneAt: null },
    select: columns,
    orderBy: { id: 'asc' },
  })

/** The last day to begin each work that is due and not begun, by itself and at the slower of its owner's paces; works nothing is known of are left out. */
export async function readStartBys(works: readonly WorkUnderWay[], today: string): Promise<Map<string, string>> {
  const due = works.filter(({ dueOn, startedOn }) => dueOn !== null && startedOn === null)
  const found = new Map<string, string>()
  if (due.length === 0) return found
  for (const { atPaces } of await readSchedules([...new Set(due.map(({ ownerId }) => ownerId))], { today }))
    for (const { id } of due) {
      const [earliest] = (atPaces.get(id) ?? []).flatMap(({ outlook }) => outlook?.due?.startBy ?? []).sort()
      if (earliest) found.set(id, earliest)
    }
  return found
}

const bagKinds: ReadonlySet<Place['kind']> = new Set(['bag', 'box', 'ring', 'bin', 'folder'])

/** Bags in which things lie that live elsewhere, though no work under way is kept in them and no list to put them back is open. */
function findBags(answers: Answers, ownerIds: readonly string[], takenPlaceIds: ReadonlySet<string>) {
  const { stock, pieces, notions, places } = answers.world
  const found = new Map<string, { id: string; name: string }>()
  const look = (thing: { ownerId: string; homePlaceId: string | null; currentPlaceId: string | null }) => {
    const place = places.get(thing.currentPlaceId ?? '')
    if (!place || !bagKinds.has(place.kind) || takenPlaceIds.has(place.id) || !ownerIds.includes(thing.ownerId) || !isOut(thing))
      return
    found.set(place.id, { id: place.id, name: place.label })
  }
  for (const batches of stock.batches.values()) for (const batch of batches) look(batch)
  for (const piece of pieces) look(piece)
  for (const notion of notions.values()) if (notion.projectId === null) look(notion)
  return [...found.values()].sort((a, b) => (a.name < b.name ? -1 : 1))
}

/** Works not begun whose thread and cloth are all there, from the answers in memory. */
function findReadyWorks(
  answers: Answers,
  ownerIds: readonly string[],
  works: readonly WorkUnderWay[],
  swaps: ReadonlyMap<string, string>,
) {
  const { world, needs } = answers
  const toStart = works.filter(({ status }) => status === 'planned' || status === 'wanted')
  if (toStart.length === 0) return []
  const pieces = new Map(world.pieces.map((piece) => [piece.id, piece]))
  const cloth = answers.cloth(ownerIds).columns
  const promisedOf = new Map<string, number>()
  for (const [threadId, some] of world.stock.promises)
    for (const { projectId, strandTenths } of some) {
      const key = `${projectId} ${threadId}`
      promisedOf.set(key, (promisedOf.get(key) ?? 0) + strandTenths)
    }
  const free = new Map<string, number>()
  const freeOf = (threadId: string): number => {
    const known = free.get(threadId) ?? answers.freeOf(threadId, ownerIds).freeStrandTenths
    free.set(threadId, known)
    return known
  }
  const asked = toStart.flatMap((work): (WorkUnderWay & StartingWork)[] => {
    const design = world.designs.get(work.designId)?.design
    if (!design) return []
    const row = needs.rowsOf(work.designId).find((one) => needs.listAt(one) === work.threadListId)
    const piece = pieces.get(work.clothPieceId ?? '')
    const fitRow = cloth.rowOf(work.designId)
    const hasCloth = work.clothPieceId === null ? fitRow >= 0 && cloth.fit[fitRow] === 2 : piece !== undefined
    const worked = workedCloth(design, piece ?? null, work.over as 1 | 2 | null, clothSettings(world.settings))
    const { advised } = design
    // Thread goes by the pitch; knots and beads, which do not, are a small part of it.
    const scale =
      worked && advised
        ? (pitchUm(worked.ends, worked.over) + pitchUm(worked.picks, worked.over)) / 2 / pitchUm(advised.count, advised.over)
        : 1
    if (row === undefined || needs.isIncomplete(row)) return [{ ...work, needs: null, hasCloth }]
    const { threads, needs: lengths, start, end } = needs.needsOf(row)
    const needed = []
    for (let at = start; at < end; at++) {
      const charted = needs.threadIds[threads[at] as number] as string
      const threadId = swaps.get(`${work.id} ${charted}`) ?? charted
      needed.push({ threadId, strandTenths: Math.floor((lengths[at] as number) * scale) * work.quantity })
    }
    return [{ ...work, needs: needed, hasCloth }]
  })
  return findReady(asked, (workId, threadId) => promisedOf.get(`${workId} ${threadId}`) ?? 0, freeOf)
}

/** What the day holds for these owners, by what is in memory and a handful of short queries beside one another. */
export async function readToday({ ownerIds, today }: Asked): Promise<TodayLine[]> {
  const { prisma } = database()
  const own = { in: [...ownerIds] }
  const answers = await getAnswers()
  const { designs, threads, lines, places, projects } = answers.world
  const titleOf = (designId: string | undefined) => designs.get(designId ?? '')?.design.title ?? ''
  const titleOfProject = (projectId: string) => titleOf(projects.get(projectId)?.designId)
  const [works, timers, loans, orders, parts, counts, lists, openWalks, swapRows, reorder] = await Promise.all([
    readWorksUnderWay(ownerIds),
    prisma.workTimer.findMany({
      where: { project: { ownerId: own, goneAt: null } },
      select: { projectId: true },
      orderBy: [{ startedAt: 'asc' }, { projectId: 'asc' }],
    }),
    prisma.loan.findMany({
      where: { ownerId: own, closedOn: null, dueOn: { not: null, lte: addDays(today, 14) } },
      select: { id: true, dueOn: true, placeId: true },
      orderBy: { id: 'asc' },
    }),
    prisma.threadOrder.findMany({
      where: { ownerId: own, closedAt: null, expectedOn: { not: null, lte: addDays(today, 7) } },
      select: { id: true, threadId: true, expectedOn: true },
      orderBy: { id: 'asc' },
    }),
    prisma.stitchAlongPart.findMany({
      where: {
        ...{ doneOn: null, dueOn: { not: null, lte: addDays(today, 7) } },
        project: { ownerId: own, goneAt: null, status: { in: [...openStatuses, 'wanted'] } },
      },
      select: { projectId: true, name: true, dueOn: true },
      orderBy: { id: 'asc' },
    }),
    prisma.stockCount.findMany({ where: { status: 'open' }, select: { id: true, title: true }, orderBy: { id: 'asc' } }),
    prisma.buyList.findMany({
      where: { status: 'open', ownerId: own },
      select: { id: true, title: true },
      orderBy: { id: 'asc' },
    }),
    prisma.walk.findMany({ where: { status: 'open', placeId: { not: null } }, select: { placeId: true } }),
    prisma.projectSwap.findMany({
      where: { project: { ownerId: own, goneAt: null, status: { in: ['planned', 'wanted'] } } },
      select: { projectId: true, threadId: true, standInThreadId: true },
    }),
    readReorderCheck({ ownerIds, now: null }),
  ])
  const startBys = await readStartBys(works, today)
  const swaps = new Map(swapRows.map(({ projectId, threadId, standInThreadId }) => [`${projectId} ${threadId}`, standInThreadId]))
  const taken = new Set([
    ...works.flatMap(({ placeId, status }) =>
      placeId !== null && (openStatuses as readonly string[]).includes(status) ? [placeId] : [],
    ),
    ...openWalks.flatMap(({ placeId }) => placeId ?? []),
  ])
  const codeOf = (threadId: string) => {
    const thread = threads.get(threadId)
    return [lines.get(thread?.lineId ?? '')?.makerName, thread?.code].filter(Boolean).join(' ')
  }
  const facts: TodayFacts = {
    timers: timers.map(({ projectId }) => ({ id: projectId, name: titleOfProject(projectId) })),
    works: works.flatMap(({ id, designId, dueOn }) =>
      dueOn === null ? [] : [{ id, name: titleOf(designId), dueOn, startBy: startBys.get(id) ?? null }],
    ),
    loans: loans.map(({ id, dueOn, placeId }) => ({ id, name: places.get(placeId)?.label ?? '', dueOn: dueOn as string })),
    orders: orders.map(({ id, threadId, expectedOn }) => ({ id, name: codeOf(threadId), expectedOn: expectedOn as string })),
    parts: parts.map(({ projectId, name, dueOn }) => ({
      id: projectId,
      name: [titleOfProject(projectId), name].filter(Boolean).join(': '),
      dueOn: dueOn as string,
    })),
    bags: findBags(answers, ownerIds, taken),
    counts: counts.map(({ id, title }) => ({ id, name: title })),
    lists: lists.map(({ id, title }) => ({ id, name: title })),
    belowMinimum: reorder
      .filter(({ check }) => check.isDue)
      .map(({ thread }) => ({ id: thread.id, name: `${thread.line.makerName} ${thread.code}` })),
    ready: findReadyWorks(answers, ownerIds, works, swaps).map(({ id, designId }) => ({ id, name: titleOf(designId) })),
  }
  return planToday(facts, today)
}
