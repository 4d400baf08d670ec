import 'server-only'
import { findDoubles } from '#lib/chart/doubles'
import { grouped } from '#lib/grouped'
import { toBuy } from '#lib/notion/to-buy'
import { peopleKinds } from '#lib/place/place'
import { compareExact } from '#lib/stock/batch'
import { sparePutUps } from '#lib/stock/spare-put-ups'
import { compareCodes } from '#lib/thread/code-order'
import type { Answers } from '../answers/answers'
import type { DesignFacts } from '../answers/read-designs'
import { chunks } from '../bulk-edit/read-bulk-edit'
import { database } from '../client'
import { listNotions } from '../notion/queries'
import { readBuyList } from '../order/read-buy-list'
import { buyingStatuses, mostWanted, readWants } from '../order/read-wants'
import { readReorderCheck } from '../reorder/reorder-check'
import type { SharedListName, SharedThing } from './shared-thing'

type SharedRequest = {
  list: SharedListName
  /** Whose goods; their names are not on the list. */
  ownerIds: readonly string[]
  /** Of each thread so many whole put-ups are kept: for `doubles`. */
  keepPutUps: number
  /** Say where things live, by the labels of their places: for `stash`. */
  withPlaces: boolean
  now: Date
}

/** A list for others: threads by maker and code, then charts, cloth and notions by name. */
export async function readShared(answers: Answers, request: SharedRequest): Promise<SharedThing[]> {
  switch (request.list) {
    case 'doubles':
      return readDoubles(answers, request)
    case 'wants':
      return readWanted(answers, request)
    case 'stash':
      return readStash(answers, request)
    case 'guild':
      return readGuild(answers, request)
  }
}

type ThreadThing = Extract<SharedThing, { noun: 'thread' }>
type ChartThing = Extract<SharedThing, { noun: 'chart' }>

const byThread = (a: ThreadThing, b: ThreadThing): number =>
  compareExact(a.line.makerName, b.line.makerName) ||
  compareExact(a.line.name, b.line.name) ||
  compareCodes(a.code, b.code) ||
  compareExact(a.id, b.id)

const byTitle = (a: ChartThing, b: ChartThing): number => compareExact(a.title, b.title) || compareExact(a.id, b.id)

function threadThing(answers: Answers, threadId: string, held: Pick<ThreadThing, 'putUps' | 'hasPart' | 'place'>): ThreadThing[] {
  const thread = answers.world.threads.get(threadId)
  const line = answers.world.lines.get(thread?.lineId ?? '')
  if (!thread || !line) return []
  const { makerName, name, putUpWord } = line
  return [{ noun: 'thread', id: threadId, line: { makerName, name }, code: thread.code, name: thread.name, putUpWord, ...held }]
}

/** These owners' charts, each by its first design: what is said of a chart is said with every design of it. */
function chartsOf(answers: Answers, ownerIds: readonly string[]): Map<string, DesignFacts[]> {
  const own = [...answers.world.designs.values()].filter(({ ownerId }) => ownerIds.includes(ownerId))
  return grouped(own, ({ design }) => design.chartId)
}

function chartThing(answers: Answers, facts: DesignFacts, said: Partial<ChartThing>): ChartThing {
  return {
    ...{ noun: 'chart', id: facts.design.chartId, title: facts.chartTitle, kind: facts.kind, copies: facts.copies },
    designerNames: facts.designerIds.flatMap((id) => answers.world.designers.get(id) ?? []),
    ...{ alsoIn: [], parts: null, designs: [], place: null, ...said },
  }
}

async function readDoubles(answers: Answers, { ownerIds, keepPutUps, now }: SharedRequest): Promise<SharedThing[]> {
  const { stock } = answers.world
  const kept = await readReorderCheck({ ownerIds, now })
  const least = new Map<string, number>()
  for (const { thread, check } of kept) least.set(thread.id, Math.max(least.get(thread.id) ?? 0, check.thresholdPutUps))
  const threads = [...stock.batches].flatMap(([threadId, all]) => {
    const batches = all.filter(({ ownerId }) => ownerIds.includes(ownerId))
    const keep = Math.max(keepPutUps, Math.ceil(least.get(threadId) ?? 0))
    const putUps = sparePutUps(batches, stock.promises.get(threadId) ?? [], keep)
    return putUps > 0 ? threadThing(answers, threadId, { putUps, hasPart: false, place: null }) : []
  })
  const charts = chartsOf(answers, ownerIds)
  const designs = [...charts.values()].flat().map((facts) => ({
    ...{ chartId: facts.design.chartId, chartTitle: facts.chartTitle, title: facts.design.title, kind: facts.kind },
    ...{ copies: facts.copies, isWhole: facts.partsHeld >= facts.partsNeeded, designerIds: facts.designerIds },
  }))
  const doubles = findDoubles(designs).flatMap(({ chartId, spareCopies, alsoIn }) => {
    const facts = charts.get(chartId)?.[0]
    return facts ? [chartThing(answers, facts, { copies: spareCopies, alsoIn })] : []
  })
  // Which cloth one could do without nobody has said: all that is kept for no project is offered, to be ticked.
  const reserved = new Set(answers.world.pieces.flatMap(({ id, isReserved }) => (isReserved ? [id] : [])))
  const cloth = clothOf(answers, ownerIds, () => null).filter(({ id }) => !reserved.has(id))
  return [...threads.sort(byThread), ...doubles.sort(byTitle), ...cloth]
}

/** What wanted and planned projects and the least one keeps want: threads, charts that are not here, notions. */
async function readWanted(answers: Answers, { ownerIds, now }: SharedRequest): Promise<SharedThing[]> {
  const { world } = answers
  const projects = await database().prisma.project.findMany({
    where: { ownerId: { in: [...ownerIds] }, goneAt: null, status: { in: [...buyingStatuses] } },
    select: { id: true, designId: true },
    orderBy: { id: 'asc' },
  })
  const parts = [...chunks(projects, mostWanted)].map((some) =>
    readWants(answers, { designIds: [], listIds: [], projectIds: some.map(({ id }) => id), ownerIds }),
  )
  const [wanted, kept, notions] = await Promise.all([
    Promise.all(parts),
    readReorderCheck({ ownerIds, now }),
    listNotions(ownerIds),
  ])
  const buying = await readBuyList(
    answers,
    wanted.flat().map(({ want }) => want),
    ownerIds,
  )
  const putUps = new Map<string, number>()
  // A thread short for a project and below its least is wanted once, by the larger figure.
  const want = (threadId: string, count: number) => putUps.set(threadId, Math.max(putUps.get(threadId) ?? 0, count))
  for (const { thread, line } of buying) if (line.standing === 'buy') want(thread.id, line.putUps)
  for (const { thread, check } of kept) if (check.isDue) want(thread.id, check.orderPutUps)
  const threads = [...putUps].flatMap(([threadId, count]) =>
    count > 0 ? threadThing(answers, threadId, { putUps: count, hasPart: false, place: null }) : [],
  )
  const projected = new Set(projects.map(({ designId }) => world.designs.get(designId)?.design.chartId))
  const charts = [...chartsOf(answers, ownerIds)].flatMap(([chartId, designs]) => {
    const [facts] = designs
    if (!facts) return []
    const { copies, partsHeld, partsNeeded } = facts
    const isMissing = copies === 0 && projected.has(chartId)
    const isInPart = copies > 0 && partsHeld < partsNeeded
    return isMissing || isInPart
      ? [chartThing(answers, facts, { copies: 1, parts: isInPart ? { held: partsHeld, needed: partsNeeded } : null })]
      : []
  })
  const things = notions.flatMap((notion): SharedThing[] => {
    const { id, kind, name, size } = notion
    const short = toBuy(notion)
    return short ? [{ noun: 'notion', id, kind, name, size, many: short.short, place: null }] : []
  })
  return [...threads.sort(byThread), ...charts.sort(byTitle), ...things]
}

async function readStash(answers: Answers, { ownerIds, withPlaces }: SharedRequest): Promise<SharedThing[]> {
  const { stock, places, notions } = answers.world
  const labelOf = (placeId: string | null): string | null => {
    const place = withPlaces ? places.get(placeId ?? '') : undefined
    return place && !(peopleKinds as readonly string[]).includes(place.kind) ? place.label : null
  }
  const threads = [...stock.batches].flatMap(([threadId, all]) => {
    const held = all.filter(
      ({ ownerId, wholePutUps, partCertainty }) => ownerIds.includes(ownerId) && (wholePutUps > 0 || partCertainty !== 'none'),
    )
    if (held.length === 0) return []
    const labels = [...new Set(held.flatMap(({ homePlaceId }) => labelOf(homePlaceId) ?? []))]
    return threadThing(answers, threadId, {
      putUps: held.reduce((sum, { wholePutUps }) => sum + wholePutUps, 0),
      hasPart: held.some(({ partCertainty }) => partCertainty !== 'none'),
      place: labels.join(', ') || null,
    })
  })
  const charts = [...chartsOf(answers, ownerIds).values()].flatMap(([facts]) =>
    facts && facts.copies > 0 ? [chartThing(answers, facts, { place: labelOf(facts.homePlaceId) })] : [],
  )
  const own = [...notions.values()].filter(({ ownerId, count }) => ownerIds.includes(ownerId) && count > 0)
  const things = own.map(
    ({ id, kind, name, size, count, homePlaceId }): SharedThing => ({
      ...{ noun: 'notion', id, kind, name, size, many: count, place: labelOf(homePlaceId) },
    }),
  )
  return [...threads.sort(byThread), ...charts.sort(byTitle), ...clothOf(answers, ownerIds, labelOf), ...things]
}

/** The charts that are held, each with its designs, their sizes and themes. */
function readGuild(answers: Answers, { ownerIds }: SharedRequest): SharedThing[] {
  const { themes } = answers.world
  const charts = [...chartsOf(answers, ownerIds).values()].flatMap((all) => {
    const [facts] = all
    if (!facts || facts.copies === 0) return []
    const designs = all.map(({ design, themeIds }) => ({
      ...{ title: design.title, size: design.size },
      themes: themeIds.flatMap((id) => themes.get(id) ?? []).sort((a, b) => compareExact(a.name, b.name)),
    }))
    return [chartThing(answers, facts, { designs })]
  })
  return charts.sort(byTitle)
}

function clothOf(
  { world }: Answers,
  ownerIds: readonly string[],
  labelOf: (placeId: string | null) => string | null,
): Extract<SharedThing, { noun: 'cloth' }>[] {
  return world.pieces
    .filter(({ ownerId }) => ownerIds.includes(ownerId))
    .map(({ id, name, colourName, ends, picks, widthUm, heightUm, homePlaceId }) => ({
      ...{ noun: 'cloth' as const, id, name, colourName, ends, picks, widthUm, heightUm },
      place: labelOf(homePlaceId),
    }))
    .sort(
      (a, b) => compareExact(a.name, b.name) || compareExact(a.colourName ?? '', b.colourName ?? '') || compareExact(a.id, b.id),
    )
}
