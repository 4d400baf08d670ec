import 'server-only'
import { nominalCountLabel } from '#lib/cloth/match-cloth'
import { kitsByLot, type LotKits } from '#lib/coverage/kit-count'
import { beadsOf } from '#lib/coverage/need'
import { adviseNeedle, type NeedleSizes } from '#lib/notion/needle-advice'
import { readSizeNumber } from '#lib/notion/size'
import { type CostedLine, costKits, type KitCost } from '#lib/project/kit/cost'
import type { MasterLine, MasterList } from '#lib/project/kit/master-list'
import { type KitReckoning, type ReckonedLine, reckonKits } from '#lib/project/kit/reckoning'
import type { KitLot } from '#lib/project/kit/record'
import { type KitProgress, progressOf } from '#lib/project/kit/steps'
import type { ProjectStatus } from '#lib/project/life-cycle'
import { kitsFree } from '#lib/project/plan-start'
import { perInch } from '#lib/quantity/count'
import type { Settings } from '#lib/settings/settings'
import type { Batch } from '#lib/stock/batch'
import type { ThreadLine } from '#lib/thread/thread'
import { designColumns, listColumns, toDesign, toThreadList } from '../chart/design-rows'
import { database } from '../client'
import { readProjectNeed } from '../project/read-need'
import { getSettings } from '../settings/settings'
import { readBatches } from '../stock/apply-stock-change'
import { type ThreadTag, threadTagColumns, threadTagOf } from '../thread/thread-tag'
import { type KitChart, readKitChart } from './read-kit-chart'
import { type KitCloth, readKitCloth } from './read-kit-cloth'
import { type KitItemRow, readKitItems } from './read-kit-items'

export type KitThread = {
  tag: ThreadTag
  line: ThreadLine
  /** The lots with something free to these kits, the one that gives most first. */
  lots: LotKits[]
  /** Kits that have their cut of it. */
  cut: number
}

/** What the design itself says of further things: the needle for its count, the stock that has it, and beads sewn on. */
export type KitProposals = { needle: NeedleSizes | null; needleNotionId: string | null; beads: number }

export type Kit = {
  project: {
    id: string
    version: number
    title: string
    status: ProjectStatus
    ownerId: string
    ownerName: string
    kitPriceMinor: number | null
    hasThreadList: boolean
    isIncomplete: boolean
  }
  reckoning: KitReckoning
  threads: Map<string, KitThread>
  cloth: KitCloth | null
  chart: KitChart
  items: KitItemRow[]
  cost: KitCost
  progress: KitProgress
  /** Thread is free that these kits want and were not promised. */
  hasMoreToReserve: boolean
  masterList: MasterList
  proposals: KitProposals
  settings: Settings
}

/** Everything a batch of kits takes, what there is of it, what it costs and how far it is; null when there is no such project. */
export async function readKit(projectId: string): Promise<Kit | null> {
  const { prisma } = database()
  const row = await prisma.project.findFirst({
    where: { id: projectId, goneAt: null },
    select: {
      ...{ id: true, version: true, status: true, ownerId: true, designId: true, threadListId: true, clothPieceId: true },
      ...{ over: true, quantity: true, spares: true, kitPriceMinor: true, placeId: true, finishing: true },
      owner: { select: { name: true } },
      design: { select: designColumns },
      threadList: { select: listColumns },
      kitBags: { select: { isSpare: true, status: true } },
      kitLots: { select: { threadId: true, batchId: true, lot: true, fromBag: true, toBag: true }, orderBy: { id: 'asc' } },
    },
  })
  if (!row) return null
  const settings = await getSettings()
  const { ownerId, placeId } = row
  const over = row.over as 1 | 2 | null
  const design = toDesign(row.design)
  const copies = row.quantity
  const countBags = (...statuses: string[]) => row.kitBags.filter(({ status }) => statuses.includes(status)).length
  const packed = countBags('packed', 'checked', 'sealed', 'sold')
  const soldSpares = row.kitBags.filter(({ isSpare, status }) => isSpare && status === 'sold').length
  const numbers = { copies, spares: row.spares, soldSpares: Math.min(row.spares, soldSpares) }

  const [need, cloth, chart, items] = await Promise.all([
    readProjectNeed(prisma, { ...row, over }, settings),
    readKitCloth({ ...row, over }, design, copies, settings),
    readKitChart({ ...row, chartId: design.chartId }),
    readKitItems({ id: row.id, ownerId, quantity: copies, packed }),
  ])
  const needs = need.needs.flatMap(({ threadId, strandTenths, certainty }) =>
    strandTenths > 0 ? [{ threadId, strandTenths: strandTenths / copies, certainty }] : [],
  )
  const threadIds = needs.map(({ threadId }) => threadId)
  const [stock, tagRows] = await Promise.all([
    readBatches(prisma, { threadId: { in: threadIds }, ownerId }),
    prisma.thread.findMany({
      where: { id: { in: threadIds } },
      select: { ...threadTagColumns, line: { select: { ...threadTagColumns.line.select, priceMinor: true } } },
    }),
  ])
  const tags = new Map(tagRows.map((thread) => [thread.id, threadTagOf(thread)]))
  const prices = new Map(tagRows.map((thread) => [thread.id, thread.line.priceMinor]))
  const lots: KitLot[] = row.kitLots
  const cutOf = (threadId: string) => need.cutCopies.get(threadId) ?? 0
  const batchesFor = (threadId: string): Batch[] => {
    const own = stock.batches.filter((batch) => batch.threadId === threadId)
    if (!need.lines.get(threadId)?.lotsMatter || cutOf(threadId) === 0) return own
    // What is cut already says which lot the rest is to be of.
    const cut = lots.filter((lot) => lot.threadId === threadId)
    return own.filter(({ id, lot }) => cut.some((one) => (one.lot === null ? one.batchId === id : one.lot === lot)))
  }

  const threads = new Map(
    needs.map((one) => {
      const { threadId } = one
      const line = need.lines.get(threadId) as ThreadLine
      const byLot = kitsByLot({ need: one, batches: batchesFor(threadId), promises: stock.promises, line, projectId })
      return [threadId, { tag: tags.get(threadId) as ThreadTag, line, lots: byLot, cut: cutOf(threadId) }]
    }),
  )
  const reckoning = reckonKits({
    ...numbers,
    threads: {
      needs,
      cut: need.cutCopies,
      batches: threadIds.flatMap(batchesFor),
      promises: stock.promises,
      lines: need.lines,
      projectId,
    },
    cloth,
    chart,
    items: items.map(({ id, perKit, have, notion }) => ({
      ...{ id, perKit, packOf: notion?.packOf ?? null },
      have: have && packed * perKit + have.taken + have.reserved + have.free,
    })),
  })

  const promisedKits = (isCounted: (batch: Batch) => boolean) =>
    needs.map(({ threadId, strandTenths }) =>
      stock.batches.reduce(
        (sum, batch) =>
          batch.threadId === threadId && isCounted(batch)
            ? sum + kitsFree(batch, stock.promises, projectId, strandTenths).promised
            : sum,
        cutOf(threadId),
      ),
    )
  const promised = promisedKits(() => true)
  const hasMoreToReserve = reckoning.lines.some(
    (line, at) => line.kind === 'thread' && Math.min(copies, line.kits ?? 0) > (promised[at] ?? 0),
  )
  const itemsReserved = items.flatMap(({ perKit, have }) =>
    have ? [packed + Math.floor((have.taken + have.reserved) / perKit)] : [],
  )
  const fewest = (kits: readonly number[]) => (kits.length === 0 ? 0 : Math.min(copies, ...kits))
  const progress = progressOf(copies, {
    reserved: fewest([...promised, ...itemsReserved]),
    pulled: fewest(promisedKits(({ currentPlaceId }) => placeId !== null && currentPlaceId === placeId)),
    cut: fewest(threadIds.map(cutOf)),
    packed,
    checked: countBags('checked', 'sealed', 'sold'),
    sealed: countBags('sealed', 'sold'),
  })

  const masterLines: MasterLine[] = [
    ...needs.map(({ threadId, strandTenths }): MasterLine => {
      const { tag, line } = threads.get(threadId) as KitThread
      const promised = new Set(stock.promises.flatMap((one) => (one.projectId === projectId ? [one.batchId] : [])))
      const batches = stock.batches.filter((batch) => batch.threadId === threadId)
      const own = batches.filter(({ id }) => promised.has(id))
      const places = (own.length > 0 ? own : batches).flatMap((batch) => batch.currentPlaceId ?? batch.homePlaceId ?? [])
      const { makerName, code, name, lab, dyeing, strands, putUpWord } = tag
      return {
        ...{ kind: 'thread', key: `thread:${threadId}`, threadId, makerName, lineName: line.name, code, name, lab, dyeing },
        ...{ strands, putUpWord, putUpStrandTenths: line.putUpStrandTenths, needsOneLot: line.lotsMatter, isInSpares: true },
        placeIds: [...new Set(places)],
        perKit: { strandTenths },
      }
    }),
    {
      ...{ kind: 'cloth', key: 'cloth', needsOneLot: false, isInSpares: true },
      placeIds: [...new Set((cloth?.pieces ?? []).flatMap(({ piece }) => piece.currentPlaceId ?? piece.homePlaceId ?? []))],
      name: cloth?.like?.name ?? design.advised?.name ?? null,
      colourName: cloth?.like?.colourName ?? null,
      countLabel: countLabelOf(cloth, design.advised?.count ?? null),
      perKit: { count: 1, widthUm: cloth?.cutSize?.widthUm ?? null, heightUm: cloth?.cutSize?.heightUm ?? null },
    },
    {
      ...{ kind: 'chart', key: 'chart', needsOneLot: false, isInSpares: false, placeIds: chart.placeIds },
      ...{ title: chart.title, isFile: chart.isFile, perKit: { count: 1 } },
    },
    ...items.map(
      ({ id, kind, name, perKit, notionId, note, notion }): MasterLine => ({
        ...{ kind: 'item', key: `item:${id}`, needsOneLot: false, isInSpares: true, placeIds: notion?.placeIds ?? [] },
        ...{ itemId: id, itemKind: kind, name, size: notion?.size ?? null, notionId: notion && notionId, note },
        perKit: { count: perKit },
      }),
    ),
  ]
  const needle = cloth?.count ? adviseNeedle(perInch(cloth.count) / cloth.over, { isBackstitch: false }) : null
  return {
    project: {
      ...{ id: row.id, version: row.version, title: design.title, status: row.status as ProjectStatus, ownerId },
      ...{ ownerName: row.owner.name, kitPriceMinor: row.kitPriceMinor, hasThreadList: row.threadList !== null },
      isIncomplete: row.threadList !== null && (toThreadList(row.threadList).isIncomplete ?? false),
    },
    ...{ reckoning, threads, cloth, chart, items, progress, hasMoreToReserve, settings },
    cost: costKits({
      ...numbers,
      kitPriceMinor: row.kitPriceMinor,
      lines: reckoning.lines.map((line) => costedLine(line, { threads, prices, chart, items })),
    }),
    masterList: { projectId, title: design.title, copies, spares: row.spares, lines: masterLines },
    proposals: {
      needle,
      needleNotionId: needle && (await findNeedle(ownerId, needle)),
      beads: row.threadList ? beadsOf(toThreadList(row.threadList)) : 0,
    },
  }
}

function countLabelOf(cloth: KitCloth | null, advised: { threads: number; perUm: number } | null): string | null {
  if (cloth?.like) return nominalCountLabel(cloth.like.ends, cloth.like.picks)
  const count = cloth?.count ?? advised
  return count && nominalCountLabel(count, count)
}

function costedLine(
  line: ReckonedLine,
  known: {
    threads: ReadonlyMap<string, KitThread>
    /** Of a put-up, by thread. */
    prices: ReadonlyMap<string, number | null>
    chart: KitChart
    items: readonly KitItemRow[]
  },
): CostedLine {
  const { key } = line
  switch (line.kind) {
    case 'thread': {
      const putUpStrandTenths = known.threads.get(line.threadId)?.line.putUpStrandTenths ?? 1
      return { ...line, putUpStrandTenths, putUpPriceMinor: known.prices.get(line.threadId) ?? null }
    }
    case 'cloth':
      return { kind: 'cloth', key }
    case 'chart':
      return { kind: 'chart', key, priceMinor: known.chart.priceMinor }
    case 'item': {
      const item = known.items.find(({ id }) => id === line.itemId)
      return { kind: 'item', key, perKit: line.perKit, priceMinor: item?.notion?.priceMinor ?? item?.priceMinor ?? null }
    }
  }
}

/** Needles on hand of one of these sizes, the coarser first. */
async function findNeedle(ownerId: string, { coarsest, finest }: NeedleSizes): Promise<string | null> {
  const needles = await database().prisma.notion.findMany({
    where: { ownerId, kind: 'needle', goneAt: null, projectId: null, size: { not: null } },
    select: { id: true, size: true },
    orderBy: [{ sizeKey: 'asc' }, { id: 'asc' }],
  })
  const found = needles.find(({ size }) => {
    const number = readSizeNumber(size ?? '')
    return number !== null && number >= coarsest && number <= finest
  })
  return found?.id ?? null
}
