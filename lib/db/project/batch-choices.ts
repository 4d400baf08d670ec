import 'server-only'
import { openStatuses } from '#lib/project/life-cycle'
import { type Batch, knownStrandTenths } from '#lib/stock/batch'
import { freeOfBatch } from '#lib/stock/free-stock'
import { database } from '../client'
import type { PlaceTag } from '../place/place-rows'
import { getSettings } from '../settings/settings'
import { readBatches } from '../stock/apply-stock-change'
import { readThreadTags, type ThreadTag } from '../thread/thread-tag'
import { readProject } from './project-row'
import { readPlacesAround } from './queries'
import { readProjectNeed } from './read-need'

/** One batch a project can be promised from. Lengths in strand tenths. */
export type BatchChoice = {
  batch: Batch
  version: number
  place: PlaceTag | null
  heldStrandTenths: number
  /** To this project. */
  promisedStrandTenths: number
  /** The most this project can have of it, what it is promised already counted in. */
  freeStrandTenths: number
}

export type BatchChoices = {
  thread: ThreadTag
  /** Nothing can be promised to what is only wanted, finished or given up. */
  isOpen: boolean
  needStrandTenths: number
  promisedStrandTenths: number
  /** What it is promised comes first, then what has most to give; ties by age. */
  batches: BatchChoice[]
}

/** Every batch of one thread that its owner's project can be promised from; null when there is no such project or thread. */
export async function readBatchChoices(projectId: string, threadId: string): Promise<BatchChoices | null> {
  const { prisma } = database()
  const read = await readProject(prisma, { projectId })
  if (!read.ok) return null
  const project = read.value
  const tags = await readThreadTags([threadId])
  const thread = tags.get(threadId)
  if (!thread) return null
  const [stock, need] = await Promise.all([
    readBatches(prisma, { threadId, ownerId: project.ownerId }),
    getSettings().then((settings) => readProjectNeed(prisma, project, settings)),
  ])
  const places = await readPlacesAround(
    prisma,
    stock.batches.map((batch) => batch.currentPlaceId ?? batch.homePlaceId),
  )
  const batches = stock.batches.map((batch): BatchChoice => {
    const own = stock.promises.find((promise) => promise.batchId === batch.id && promise.projectId === projectId)
    return {
      batch,
      version: stock.versions.get(batch.id) as number,
      place: places.get(batch.currentPlaceId ?? batch.homePlaceId ?? '') ?? null,
      heldStrandTenths: knownStrandTenths(batch),
      promisedStrandTenths: own?.strandTenths ?? 0,
      freeStrandTenths: freeOfBatch(batch, stock.promises, projectId).freeStrandTenths,
    }
  })
  batches.sort(
    (a, b) => Number(b.promisedStrandTenths > 0) - Number(a.promisedStrandTenths > 0) || b.freeStrandTenths - a.freeStrandTenths,
  )
  return {
    thread,
    isOpen: (openStatuses as readonly string[]).includes(project.status),
    needStrandTenths: need.needs.find((one) => one.threadId === threadId)?.strandTenths ?? 0,
    promisedStrandTenths: batches.reduce((sum, choice) => sum + choice.promisedStrandTenths, 0),
    batches,
  }
}
