import 'server-only'
import type { ChartKind } from '#lib/chart/design'
import { countKits, type KitLine, kitsByLot, type LotKits, sparesFor } from '#lib/coverage/kit-count'
import { beadsOf, type ThreadNeed } from '#lib/coverage/need'
import { openStatuses, type ProjectStatus } from '#lib/project/life-cycle'
import { compareExact } from '#lib/stock/batch'
import type { ThreadLine } from '#lib/thread/thread'
import type { Answers } from '../answers/answers'
import { database } from '../client'
import { clothForKits, type KitsCloth } from '../planning/kits-cloth'
import type { CoveredList } from './design-coverage'

export type KitThread = KitLine & {
  need: ThreadNeed
  line: ThreadLine
  freeStrandTenths: number
  /** Those with something free; the one that gives most first. */
  lots: LotKits[]
  /** The marked lot that what is bought is to match, and the kits it gives; null where lots do not matter or none gives any. */
  lotToMatch: { lot: string; kits: number } | null
}

type KitChart = { kind: ChartKind; copies: number; owner: { id: string } }

/** Copies on record are those of the owners asked about. */
export type KitCharts = { isFile: boolean; wanted: number; onRecord: number; toBuy: number }

/** How many kits of a design can be made from some owners' free stock, and what so many with their spares take. */
export type DesignKits = {
  asked: number
  spares: number
  /** By thread alone. */
  kits: number
  threads: KitThread[]
  /** What stops the next one, with what to buy for one more. */
  stops: { thread: KitThread; toBuyPutUps: number }[]
  beadsPerKit: number
  charts: KitCharts
  /** The pieces to cut for all of them, spares too, and what to buy. */
  cloth: KitsCloth
}

/** One bought chart goes into each kit; a spare has none until it is sold. A file is one person's and is not packed. */
function chartsFor(chart: KitChart, kits: number, ownerIds: readonly string[]): KitCharts {
  const isFile = chart.kind === 'file'
  const onRecord = isFile || !ownerIds.includes(chart.owner.id) ? 0 : chart.copies
  return { isFile, wanted: kits, onRecord, toBuy: Math.max(0, kits - onRecord) }
}

/**
 * Count the kits of one thread list. The needs are those the list was covered with, so cloth, count and allowance are the same.
 *
 * @param asked.kits    kits to be made
 * @param asked.spares  made beside them; null for as many as is usual
 */
export function countDesignKits(
  answers: Answers,
  subject: { covered: CoveredList; chart: KitChart },
  asked: { ownerIds: readonly string[]; kits: number; spares: number | null },
): DesignKits {
  const { world } = answers
  const spares = asked.spares ?? sparesFor(asked.kits)
  const wanted = asked.kits + spares
  const lines = new Map<string, ThreadLine>()
  const needs = subject.covered.needs.filter(({ threadId, strandTenths }) => {
    const line = world.lines.get(world.lineOfThread.get(threadId) ?? '')
    if (line) lines.set(threadId, line)
    return line !== undefined && strandTenths > 0
  })
  const batches = needs.flatMap(({ threadId }) => answers.batchesOf(threadId, asked.ownerIds))
  const promises = needs.flatMap(({ threadId }) => world.stock.promises.get(threadId) ?? [])
  const count = countKits({ needs, wanted, batches, promises, lines })

  const threads = count.lines.map((kitLine, at): KitThread => {
    const need = needs[at] as ThreadNeed
    const line = lines.get(kitLine.threadId) as ThreadLine
    const own = batches.filter(({ threadId }) => threadId === need.threadId)
    const lots = kitsByLot({ need, batches: own, promises, line })
    const marked = line.lotsMatter ? lots.find(({ lot, kits }) => lot !== null && kits > 0) : undefined
    return {
      ...kitLine,
      ...{ need, line, lots },
      freeStrandTenths: lots.reduce((sum, { freeStrandTenths }) => sum + freeStrandTenths, 0),
      lotToMatch: marked ? { lot: marked.lot as string, kits: marked.kits } : null,
    }
  })
  const design = world.designs.get(subject.covered.list.designId)?.design ?? { size: { kind: 'unknown' as const }, advised: null }
  const byId = new Map(threads.map((thread) => [thread.threadId, thread]))
  return {
    asked: asked.kits,
    spares,
    kits: count.kits,
    threads,
    stops: count.stops.map(({ threadId, toBuyPutUps }) => ({ thread: byId.get(threadId) as KitThread, toBuyPutUps })),
    beadsPerKit: beadsOf(subject.covered.list),
    charts: chartsFor(subject.chart, asked.kits, asked.ownerIds),
    cloth: clothForKits(answers, design, { ownerIds: asked.ownerIds, wanted }),
  }
}

/** Several kits of one design that are under way together, and the threads promised to them out of more than one lot. */
export type KitBatch = {
  projectId: string
  quantity: number
  status: ProjectStatus
  forWhom: string | null
  promisedCount: number
  mixed: { threadId: string; lotsMatter: boolean; lots: (string | null)[] }[]
}

/** The kit batches of a design under way, the latest first. Each batch of thread without a lot mark is a lot of its own. */
export async function listKitBatches(answers: Answers, designId: string, ownerIds: readonly string[]): Promise<KitBatch[]> {
  const { world } = answers
  const rows = await database().prisma.project.findMany({
    where: {
      designId,
      goneAt: null,
      quantity: { gt: 1 },
      status: { in: [...openStatuses] },
      ownerId: { in: [...ownerIds] },
    },
    select: { id: true, quantity: true, status: true, forWhom: true },
    orderBy: { id: 'desc' },
    take: 20,
  })
  if (rows.length === 0) return []
  const batchIdsOf = new Map<string, Map<string, Set<string>>>(rows.map(({ id }) => [id, new Map()]))
  for (const [threadId, promises] of world.stock.promises) {
    for (const { projectId, batchId } of promises) {
      const byThread = batchIdsOf.get(projectId)
      byThread?.set(threadId, (byThread.get(threadId) ?? new Set()).add(batchId))
    }
  }
  return rows.map(({ id, status, ...row }) => {
    const byThread = batchIdsOf.get(id) ?? new Map<string, Set<string>>()
    const mixed = [...byThread].flatMap(([threadId, batchIds]) => {
      const batches = (world.stock.batches.get(threadId) ?? []).filter((batch) => batchIds.has(batch.id))
      const marks = [...new Set(batches.map(({ lot }) => lot).filter((lot) => lot !== null))].sort(compareExact)
      const lots = [...marks, ...batches.filter(({ lot }) => lot === null).map(({ lot }) => lot)]
      const lotsMatter = world.lines.get(world.lineOfThread.get(threadId) ?? '')?.lotsMatter ?? false
      return lots.length > 1 ? [{ threadId, lotsMatter, lots }] : []
    })
    mixed.sort((a, b) => Number(b.lotsMatter) - Number(a.lotsMatter) || compareExact(a.threadId, b.threadId))
    return { ...row, projectId: id, status: status as ProjectStatus, promisedCount: byThread.size, mixed }
  })
}
