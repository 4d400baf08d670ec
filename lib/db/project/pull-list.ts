import 'server-only'
import { walkRanks } from '#lib/place/walk-order'
import { type Batch, compareExact, knownStrandTenths } from '#lib/stock/batch'
import { freeOfBatch, freeStockByThread } from '#lib/stock/free-stock'
import { pullOf } from '#lib/stock/movements'
import { database } from '../client'
import type { PlaceTag } from '../place/place-rows'
import { getSettings } from '../settings/settings'
import { readBatches } from '../stock/apply-stock-change'
import { readKit } from './project-bag'
import { readProject } from './project-row'
import { readPlacesAround, readThreadTags, type ThreadTag } from './queries'
import { readProjectNeed } from './read-need'

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
  /** The stock no longer covers what was promised, this and others'. */
  isUnsupported: boolean
}

/** How one thread of the key stands for a project. */
export type ThreadStanding = {
  thread: ThreadTag
  putUpStrandTenths: number
  needStrandTenths: number
  promisedStrandTenths: number
  /** Free to it beyond what it is promised already. */
  moreStrandTenths: number
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
  const [stock, tags, places] = await Promise.all([
    readBatches(prisma, { threadId: { in: needed }, ownerId: project.ownerId }),
    readThreadTags([...needed, ...kit.batches.map((batch) => batch.threadId)]),
    readPlacesAround(
      prisma,
      kit.batches.flatMap((batch) => [batch.currentPlaceId, batch.homePlaceId]),
    ),
  ])
  const ranks = walkRanks([...places.values()])
  const rankOf = (placeId: string | null) => (placeId === null ? null : ranks.get(placeId)) ?? Number.MAX_SAFE_INTEGER

  const lines = kit.batches.map((batch): PullLine => {
    const own = kit.promises.find((promise) => promise.batchId === batch.id && promise.projectId === projectId)
    const promised = own?.strandTenths ?? 0
    const held = knownStrandTenths(batch)
    const free = freeOfBatch(batch, kit.promises, projectId).freeStrandTenths
    return {
      batch,
      thread: tags.get(batch.threadId) as ThreadTag,
      place: places.get(batch.currentPlaceId ?? batch.homePlaceId ?? '') ?? null,
      home: places.get(batch.homePlaceId ?? '') ?? null,
      isInBag: batch.currentPlaceId !== null && batch.currentPlaceId === project.placeId,
      promisedStrandTenths: promised,
      heldStrandTenths: held,
      pull: pullOf(batch, Math.min(promised, held)),
      isUnsupported: free < promised,
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
  const threads = need.needs.map(({ threadId, strandTenths }): ThreadStanding => {
    const promised = lines.reduce((sum, line) => (line.batch.threadId === threadId ? sum + line.promisedStrandTenths : sum), 0)
    return {
      thread: tags.get(threadId) as ThreadTag,
      putUpStrandTenths: need.lines.get(threadId)?.putUpStrandTenths ?? 0,
      needStrandTenths: strandTenths,
      promisedStrandTenths: promised,
      moreStrandTenths: Math.max(0, (free.get(threadId)?.freeStrandTenths ?? 0) - promised),
    }
  })
  return { lines, threads }
}
