import 'server-only'
import { leastUsefulPart } from '#lib/coverage/kit-cuts'
import type { ThreadNeed } from '#lib/coverage/need'
import { walkRanks } from '#lib/place/walk-order'
import { kitsFree } from '#lib/project/plan-start'
import { type Batch, compareExact, knownStrandTenths } from '#lib/stock/batch'
import type { BrokenWhy } from '#lib/stock/broken-promises'
import { freeStockByThread } from '#lib/stock/free-stock'
import { pullOf } from '#lib/stock/part-off'
import type { ThreadLine } from '#lib/thread/thread'
import { database } from '../client'
import type { PlaceTag } from '../place/place-rows'
import { getSettings } from '../settings/settings'
import { readBatches, type StockSnapshot } from '../stock/apply-stock-change'
import { listBrokenPromises } from '../stock/broken-promises'
import { readThreadTags, type ThreadTag } from '../thread/thread-tag'
import { readKit } from './project-bag'
import { readProject } from './project-row'
import { readPlacesAround } from './queries'
import { cutsOf, readProjectNeed } from './read-need'

/** One batch to take, or taken. Lengths in strand tenths. */
export type PullLine = {
  batch: Batch
  thread: ThreadTag
  place: PlaceTag | null
  home: PlaceTag | null
  isInBag: boolean
  promisedStrandTenths: number
  heldStrandTenths: number
  /** What to lift out for it: the part skein, whole put-ups, or both. */
  pull: { wholePutUps: number; takesPart: boolean }
  /** What of it stock still supports, when that is less: see `findBrokenPromises`. */
  broken: { supportedStrandTenths: number; why: BrokenWhy } | null
}

/** How one thread that is worked with stands for a project. */
export type ThreadStanding = {
  thread: ThreadTag
  /** The threads of the key it stands in for. */
  insteadOf: ThreadTag[]
  putUpStrandTenths: number
  needStrandTenths: number
  /** What that is made of. */
  need: ThreadNeed
  line: ThreadLine | undefined
  /** As far as stock still supports it. */
  promisedStrandTenths: number
  /** Free to it beyond what it is promised already. */
  moreStrandTenths: number
  /**
   * For several copies: how many of them have their cut or are served by what is promised, and what is free beyond. A copy's thread has
   * no join.
   */
  kits: { copies: number; promised: number; more: number } | null
}

export type PullList = {
  /** In walking order of where each batch lies now; what has no place comes last. */
  lines: PullLine[]
  /** In the order of the key. */
  threads: ThreadStanding[]
}

/** What a project was promised and what it still wants; null when there is no such project. */
export async function readPullList(projectId: string): Promise<PullList | null> {
  const { prisma } = database()
  const read = await readProject(prisma, { projectId })
  if (!read.ok) return null
  const project = read.value
  const [kit, need] = await Promise.all([
    readKit(prisma, project),
    getSettings().then((s) => readProjectNeed(prisma, project, s)),
  ])
  const needed = need.needs.map(({ threadId }) => threadId)
  const [stock, tags, places, broken] = await Promise.all([
    readBatches(prisma, { threadId: { in: needed }, ownerId: project.ownerId }),
    readThreadTags([...needed, ...need.swaps.keys(), ...kit.batches.map((batch) => batch.threadId)]),
    readPlacesAround(
      prisma,
      kit.batches.flatMap((batch) => [batch.currentPlaceId, batch.homePlaceId]),
    ),
    listBrokenPromises({ projectId }),
  ])
  const cutOf = cutsOf(need)
  const brokenOf = new Map(broken.map((promise) => [promise.batchId, promise]))
  const ranks = walkRanks([...places.values()])
  const rankOf = (placeId: string | null) => (placeId === null ? null : ranks.get(placeId)) ?? Number.MAX_SAFE_INTEGER

  const lines = kit.batches.map((batch): PullLine => {
    const own = kit.promises.find((promise) => promise.batchId === batch.id && promise.projectId === projectId)
    const promised = own?.strandTenths ?? 0
    const held = knownStrandTenths(batch)
    return {
      batch,
      thread: tags.get(batch.threadId) as ThreadTag,
      place: places.get(batch.currentPlaceId ?? batch.homePlaceId ?? '') ?? null,
      home: places.get(batch.homePlaceId ?? '') ?? null,
      isInBag: batch.currentPlaceId !== null && batch.currentPlaceId === project.placeId,
      promisedStrandTenths: promised,
      heldStrandTenths: held,
      pull: pullOf(batch, Math.min(promised, held), leastUsefulPart(cutOf.get(batch.threadId) ?? 0, batch.putUpStrandTenths)),
      broken: brokenOf.get(batch.id) ?? null,
    }
  })
  lines.sort(
    (a, b) =>
      rankOf(a.place?.id ?? null) - rankOf(b.place?.id ?? null) ||
      compareExact(a.thread.makerName, b.thread.makerName) ||
      compareExact(a.thread.code, b.thread.code) ||
      compareExact(a.batch.id, b.batch.id),
  )

  const free = freeStockByThread({ ...stock, forProjectId: projectId, ownerIds: [project.ownerId] })
  const threads = need.needs.map((own): ThreadStanding => {
    const { threadId, strandTenths } = own
    const line = need.lines.get(threadId)
    const promised = lines.reduce(
      (sum, line) =>
        line.batch.threadId === threadId ? sum + (line.broken?.supportedStrandTenths ?? line.promisedStrandTenths) : sum,
      0,
    )
    const insteadOf = [...need.swaps].flatMap(([charted, worked]) => (worked === threadId ? (tags.get(charted) ?? []) : []))
    return {
      thread: tags.get(threadId) as ThreadTag,
      insteadOf,
      ...{ need: own, line, putUpStrandTenths: line?.putUpStrandTenths ?? 0 },
      needStrandTenths: strandTenths,
      promisedStrandTenths: promised,
      moreStrandTenths: Math.max(0, (free.get(threadId)?.freeStrandTenths ?? 0) - promised),
      kits:
        need.copies > 1
          ? kitsOf({ threadId, strandTenths, copies: need.copies }, stock, project, need.cutCopies.get(threadId) ?? 0)
          : null,
    }
  })
  return { lines, threads }
}

/** How many kits' cuts of a thread are promised, and are free beyond. */
function kitsOf(
  need: { threadId: string; strandTenths: number; copies: number },
  stock: StockSnapshot,
  project: { id: string; ownerId: string },
  cutKits: number,
): { copies: number; promised: number; more: number } {
  const cut = need.strandTenths / need.copies
  const kits = { copies: need.copies, promised: need.copies, more: 0 }
  if (cut === 0) return kits
  kits.promised = Math.min(need.copies, cutKits)
  for (const batch of stock.batches) {
    if (batch.threadId !== need.threadId) continue
    const { promised, free } = kitsFree(batch, stock.promises, project.id, cut)
    kits.promised += promised
    kits.more += free
  }
  return kits
}
