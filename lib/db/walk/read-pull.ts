import 'server-only'
import { leastUsefulPart } from '#lib/coverage/kit-cuts'
import type { NotionKind } from '#lib/notion/notion'
import { openStatuses } from '#lib/project/life-cycle'
import type { WalkThing } from '#lib/project/walk'
import { inWalkingOrder, type PullWant, pullsOf, type WalkStop } from '#lib/project/walk-lines'
import { ok, type Result, refused } from '#lib/result'
import type { Settings } from '#lib/settings/settings'
import type { Batch, StockPromise } from '#lib/stock/batch'
import type { Transaction } from '../client'
import type { Prisma } from '../generated/sqlite/client'
import { cutsOf, readProjectNeed } from '../project/read-need'
import { readBatches } from '../stock/apply-stock-change'
import { readInParts } from './in-parts'
import { readWalkedThings, readWalkRanks, stopOf } from './read-things'
import type { WalkRefusal } from './walk-refusal'

const columns = {
  ...{ id: true, status: true, ownerId: true, designId: true, threadListId: true, clothPieceId: true, over: true },
  ...{ quantity: true, spares: true, placeId: true },
  clothPiece: { select: { goneAt: true, currentPlaceId: true } },
  design: {
    select: {
      title: true,
      chart: { select: { id: true, title: true, kind: true, copies: true, goneAt: true, currentPlaceId: true } },
    },
  },
} as const satisfies Prisma.ProjectSelect

export type PulledProject = Prisma.ProjectGetPayload<{ select: typeof columns }>

/** One thing to lift out for one project. */
export type PullStop = WalkStop & { count: number; takesPart: boolean; toPlaceId: string | null }

/** A line that is ticked already and keeps its place on the list. */
export type KeptLine = WalkThing & { projectId: string | null; count: number; takesPart: boolean }

export type Pull = {
  /** In walking order. */
  stops: PullStop[]
  /** Promised, and not there to be lifted without lifting what others were promised. */
  leftThere: { projectId: string; batchId: string }[]
}

const noThing: WalkThing = { batchId: null, clothPieceId: null, chartId: null, notionId: null }

/** These projects, in the order they were asked for; refused when one is not there or holds no stock as it stands. */
export async function readPulledProjects(
  tx: Transaction,
  projectIds: readonly string[],
): Promise<Result<PulledProject[], Extract<WalkRefusal, { kind: 'no-such-project' | 'project-not-open' }>>> {
  const rows = await readInParts(projectIds, (ids) =>
    tx.project.findMany({ where: { id: { in: ids }, goneAt: null }, select: columns }),
  )
  const byId = new Map(rows.map((row) => [row.id, row]))
  const projects: PulledProject[] = []
  for (const projectId of projectIds) {
    const project = byId.get(projectId)
    if (!project) return refused({ kind: 'no-such-project', projectId })
    if (!openStatuses.some((status) => status === project.status))
      return refused({ kind: 'project-not-open', title: project.design.title })
    projects.push(project)
  }
  return ok(projects)
}

/**
 * What is still to be lifted out for these projects, in one walk: thread they were promised and that is not in their bags, their cloth,
 * charts and notions. Two projects that want one batch each find what the other leaves.
 *
 * @param kept  lines that are in hand and not yet carried out: they are taken off first and not named again
 */
export async function readPull(
  tx: Transaction,
  projects: readonly PulledProject[],
  settings: Settings,
  kept: readonly KeptLine[] = [],
): Promise<Pull> {
  const leftThere: Pull['leftThere'] = []
  const keptKeys = new Set(kept.map((line) => keyOf(line)))
  const found = [
    ...(await readThreadPull(tx, projects, settings, { kept, keptKeys, leftThere })),
    ...clothAndCharts(projects),
    ...(await readNotionPull(tx, projects)),
  ].filter((line) => !keptKeys.has(keyOf(line)))
  const things = await readWalkedThings(tx, found)
  const stops = found.map((line) => stopOf(line, things, false))
  const rankOf = await readWalkRanks(
    tx,
    stops.map(({ placeId }) => placeId),
  )
  return { stops: inWalkingOrder(stops, { rankOf, projectIds: projects.map(({ id }) => id) }), leftThere }
}

type Found = WalkThing & { projectId: string; count: number; takesPart: boolean; toPlaceId: string | null }

/** What tells a line from the others of its walk. */
export const keyOf = ({
  projectId,
  batchId,
  clothPieceId,
  chartId,
  notionId,
}: WalkThing & { projectId: string | null }): string => [projectId, batchId, clothPieceId, chartId, notionId].join(' ')

async function readThreadPull(
  tx: Transaction,
  projects: readonly PulledProject[],
  settings: Settings,
  { kept, keptKeys, leftThere }: { kept: readonly KeptLine[]; keptKeys: ReadonlySet<string>; leftThere: Pull['leftThere'] },
): Promise<Found[]> {
  const batches = new Map<string, Batch>()
  const promises = new Map<string, StockPromise>()
  await readInParts(
    projects.map(({ id }) => id),
    async (ids) => {
      const stock = await readBatches(tx, { promises: { some: { projectId: { in: ids } } } })
      for (const batch of stock.batches) batches.set(batch.id, batch)
      for (const promise of stock.promises) promises.set(promise.id, promise)
      return []
    },
  )
  // Only of several copies is each cut from one length, so only there does it matter how long a part skein is.
  const cutsOfProject = new Map<string, Map<string, number>>()
  for (const project of projects)
    if (project.quantity > 1) {
      const work = { ...project, over: project.over as 1 | 2 | null }
      cutsOfProject.set(project.id, cutsOf(await readProjectNeed(tx, work, settings)))
    }

  const turnOf = new Map(projects.map(({ id }, turn) => [id, turn]))
  const promisesOf = byBatch([...promises.values()])
  const keptOf = byBatch(kept)
  const found: Found[] = []
  for (const batch of batches.values()) {
    const promised = promisesOf.get(batch.id) ?? []
    const inHand = (keptOf.get(batch.id) ?? []).map(
      (line): PullWant => ({
        projectId: line.projectId ?? '',
        inHand: { wholePutUps: line.count, takesPart: line.takesPart },
      }),
    )
    const wants = promised
      .filter(({ projectId }) => turnOf.has(projectId))
      .sort((a, b) => (turnOf.get(a.projectId) ?? 0) - (turnOf.get(b.projectId) ?? 0))
      .flatMap(({ projectId, strandTenths }): PullWant[] => {
        const { placeId } = projects[turnOf.get(projectId) ?? 0] as PulledProject
        const isInBag = placeId !== null && batch.currentPlaceId === placeId
        if (isInBag || keptKeys.has(keyOf({ ...noThing, projectId, batchId: batch.id }))) return []
        const cut = cutsOfProject.get(projectId)?.get(batch.threadId) ?? 0
        return [{ projectId, strandTenths, leastCutStrandTenths: leastUsefulPart(cut, batch.putUpStrandTenths) }]
      })
    const { pulls, leftThere: left } = pullsOf(batch, [...inHand, ...wants], promised)
    leftThere.push(...left.map((projectId) => ({ projectId, batchId: batch.id })))
    for (const { projectId, wholePutUps, takesPart } of pulls) {
      const { placeId } = projects[turnOf.get(projectId) ?? 0] as PulledProject
      found.push({ ...noThing, projectId, batchId: batch.id, count: wholePutUps, takesPart, toPlaceId: placeId })
    }
  }
  return found
}

function byBatch<Item extends { batchId: string | null }>(items: readonly Item[]): Map<string | null, Item[]> {
  const groups = new Map<string | null, Item[]>()
  for (const item of items) {
    const group = groups.get(item.batchId)
    if (group) group.push(item)
    else groups.set(item.batchId, [item])
  }
  return groups
}

/** Cloth and chart that are not in the bag: one of each, and of a chart that is held in several copies one a kit. */
function clothAndCharts(projects: readonly PulledProject[]): Found[] {
  const found: Found[] = []
  const charts = new Set<string>()
  for (const project of projects) {
    const { id: projectId, placeId, clothPieceId, clothPiece } = project
    const at = { projectId, takesPart: false, toPlaceId: placeId }
    const isElsewhere = (currentPlaceId: string | null) => placeId === null || currentPlaceId !== placeId
    if (clothPieceId && clothPiece?.goneAt === null && isElsewhere(clothPiece.currentPlaceId))
      found.push({ ...noThing, ...at, clothPieceId, count: 1 })
    const { chart } = project.design
    if (chart.kind === 'file' || chart.goneAt !== null || !isElsewhere(chart.currentPlaceId)) continue
    // One copy can be in one bag only: the first project's.
    if (chart.copies === 1 && charts.has(chart.id)) continue
    charts.add(chart.id)
    const kits = Math.max(1, project.quantity - project.spares)
    found.push({ ...noThing, ...at, chartId: chart.id, count: Math.min(chart.copies, kits) })
  }
  return found
}

/** Notions in use for a project that are not in its bag, and what its kits still want of those in stock. */
async function readNotionPull(tx: Transaction, projects: readonly PulledProject[]): Promise<Found[]> {
  const byId = new Map(projects.map((project) => [project.id, project]))
  const ids = [...byId.keys()]
  const inUse = await readInParts(ids, (part) =>
    tx.notion.findMany({
      where: { projectId: { in: part }, goneAt: null },
      select: { id: true, projectId: true, count: true, currentPlaceId: true, kind: true, name: true, sizeKey: true },
      orderBy: { id: 'asc' },
    }),
  )
  const found: Found[] = []
  const taken = new Map<string, number>()
  const alike = (projectId: string, notion: { kind: NotionKind | string; name: string; sizeKey: string | null }) =>
    [projectId, notion.kind, notion.name, notion.sizeKey].join('\n')
  for (const notion of inUse) {
    const project = byId.get(notion.projectId ?? '')
    if (!project) continue
    const key = alike(project.id, notion)
    taken.set(key, (taken.get(key) ?? 0) + notion.count)
    const isInBag = project.placeId !== null && notion.currentPlaceId === project.placeId
    if (!isInBag && notion.count > 0)
      found.push({
        ...noThing,
        ...{ projectId: project.id, notionId: notion.id, count: notion.count, takesPart: false, toPlaceId: project.placeId },
      })
  }
  const items = await readInParts(ids, (part) =>
    tx.kitItem.findMany({
      where: { projectId: { in: part }, notion: { goneAt: null, projectId: null } },
      select: {
        ...{ projectId: true, perKit: true },
        notion: { select: { id: true, count: true, kind: true, name: true, sizeKey: true } },
      },
      orderBy: [{ projectId: 'asc' }, { position: 'asc' }],
    }),
  )
  const left = new Map<string, number>()
  for (const { projectId, perKit, notion } of items) {
    const project = byId.get(projectId)
    if (!notion || !project) continue
    const here = left.get(notion.id) ?? notion.count
    const key = alike(projectId, notion)
    const had = taken.get(key) ?? 0
    const wanted = perKit * project.quantity
    taken.set(key, Math.max(0, had - wanted))
    const count = Math.min(here, Math.max(0, wanted - had))
    left.set(notion.id, here - count)
    if (count === 0) continue
    // Two entries of a kit for one notion are one line.
    const same = found.find((line) => line.projectId === projectId && line.notionId === notion.id)
    if (same) same.count += count
    else found.push({ ...noThing, ...{ projectId, notionId: notion.id, count, takesPart: false, toPlaceId: project.placeId } })
  }
  return found
}
