import 'server-only'
import { walkRanks } from '#lib/place/walk-order'
import { compareExact } from '#lib/stock/batch'
import { database } from '../client'
import type { PlaceTag } from '../place/place-rows'
import { readThreadTags, type ThreadTag } from '../thread/thread-tag'
import { readPlacesAround } from './queries'

type Amount = { wholePutUps: number; partStrandTenths: number }

type PutBackLine = Amount & {
  batchId: string
  thread: ThreadTag
  lot: string | null
  place: PlaceTag | null
  /** On a list that is not ticked off yet: the record has it in the bag still. */
  isWaiting: boolean
}

/** A list on which things wait to be put back. */
export type OpenPutBack = { walkId: string; things: number; waiting: number }

export type PutBackList = {
  /** In walking order. */
  back: PutBackLine[]
  /** Put-ups of which nothing came back. */
  usedUp: { thread: ThreadTag; lot: string | null; putUps: number }[]
  /** Taken for the project, neither returned nor used: still out. */
  missing: (Amount & {
    batchId: string
    thread: ThreadTag
    lot: string | null
    lastSeen: PlaceTag | null
    missingId: string | null
  })[]
  /** Strand tenths used, by thread. */
  used: { thread: ThreadTag; strandTenths: number }[]
  openLists: OpenPutBack[]
}

const putUpsIn = (amount: Amount) => amount.wholePutUps + (amount.partStrandTenths > 0 ? 1 : 0)

/**
 * What became of everything a project had in its bag since it was last taken there, read from the journal and from the lists by which it
 * is put back, so that it can be put back, or checked, also later. Null while nothing was put back, listed or used.
 */
export async function readPutBackList(projectId: string): Promise<PutBackList | null> {
  const { prisma } = database()
  const [movements, lines] = await Promise.all([
    prisma.movement.findMany({
      where: { projectId, batchId: { not: null }, kind: { in: ['take', 'use', 'return'] } },
      select: {
        id: true,
        revision: true,
        kind: true,
        batchId: true,
        wholeDelta: true,
        partDeltaStrandTenths: true,
        toPlaceId: true,
      },
      orderBy: [{ revision: 'asc' }, { id: 'asc' }],
    }),
    prisma.walkLine.findMany({
      where: { projectId, walk: { kind: 'put-back', status: 'open' } },
      select: { walkId: true, batchId: true, carriedAt: true, toPlaceId: true },
      orderBy: [{ walkId: 'asc' }, { position: 'asc' }],
    }),
  ])
  const lastTake = movements.findLast(({ kind }) => kind === 'take')?.revision ?? 0
  const closing = movements.find(({ kind, revision }) => kind !== 'take' && revision >= lastTake)?.revision
  const waiting = new Map(lines.flatMap((line) => (line.carriedAt === null && line.batchId ? [[line.batchId, line]] : [])))
  if (closing === undefined && lines.length === 0) return null
  const batchIds = [...new Set(movements.flatMap(({ batchId }) => batchId ?? []))]
  const [batches, sums, questions] = await Promise.all([
    prisma.batch.findMany({
      where: { id: { in: batchIds } },
      select: {
        ...{ id: true, threadId: true, lot: true, putUpStrandTenths: true, homePlaceId: true, currentPlaceId: true },
        ...{ outSince: true, goneAt: true, wholePutUps: true, partStrandTenths: true },
      },
    }),
    prisma.movement.groupBy({
      by: ['batchId'],
      // By relation: a grouped sum of a large kit's batches, asked for id by id, is more than SQLite takes.
      where: { batch: { movements: { some: { projectId } } }, ...(closing !== undefined && { revision: { lt: closing } }) },
      _sum: { wholeDelta: true, partDeltaStrandTenths: true },
    }),
    prisma.missingThing.findMany({
      where: { projectId, status: 'open', batchId: { not: null } },
      select: { id: true, batchId: true, lastSeenPlaceId: true },
    }),
  ])
  batches.sort((a, b) => compareExact(a.id, b.id))
  const before = new Map(
    sums.map(({ batchId, _sum: sum }) => [
      batchId,
      { wholePutUps: sum.wholeDelta ?? 0, partStrandTenths: sum.partDeltaStrandTenths ?? 0 },
    ]),
  )
  const questionOf = new Map(questions.map((question) => [question.batchId, question]))
  const lostIds = questions.flatMap(({ batchId }) => (batchId !== null && !batchIds.includes(batchId) ? batchId : []))
  const lost = await prisma.batch.findMany({
    where: { id: { in: lostIds } },
    select: { id: true, threadId: true, lot: true, wholePutUps: true, partStrandTenths: true },
  })
  const [tags, places] = await Promise.all([
    readThreadTags([...batches, ...lost].map((batch) => batch.threadId)),
    readPlacesAround(prisma, [
      ...movements.map(({ toPlaceId }) => toPlaceId),
      ...batches.flatMap((batch) => [batch.currentPlaceId, batch.homePlaceId]),
      ...questions.map(({ lastSeenPlaceId }) => lastSeenPlaceId),
    ]),
  ])

  const list: PutBackList = { back: [], usedUp: [], missing: [], used: [], openLists: openLists(lines) }
  const usedByThread = new Map<string, number>()
  for (const batch of batches) {
    const thread = tags.get(batch.threadId) as ThreadTag
    const { lot } = batch
    const own =
      closing === undefined ? [] : movements.filter(({ batchId, revision }) => batchId === batch.id && revision >= closing)
    const uses = own.filter(({ kind }) => kind === 'use')
    const back = own.findLast(({ kind }) => kind === 'return')
    const onList = waiting.get(batch.id)
    const held = before.get(batch.id) ?? { wholePutUps: 0, partStrandTenths: 0 }
    const left = { ...held }
    for (const use of uses) {
      left.wholePutUps += use.wholeDelta
      left.partStrandTenths += use.partDeltaStrandTenths
      const length = -(use.wholeDelta * batch.putUpStrandTenths + use.partDeltaStrandTenths)
      usedByThread.set(batch.threadId, (usedByThread.get(batch.threadId) ?? 0) + length)
    }
    const usedPutUps = uses.length > 0 ? putUpsIn(held) - putUpsIn(left) : 0
    if (usedPutUps > 0) list.usedUp.push({ thread, lot, putUps: usedPutUps })
    const toPlaceId = back ? back.toPlaceId : (onList?.toPlaceId ?? batch.homePlaceId)
    const amount = onList && !back ? { wholePutUps: batch.wholePutUps, partStrandTenths: batch.partStrandTenths } : left
    if ((back || onList) && putUpsIn(amount) > 0) {
      const place = places.get(toPlaceId ?? '') ?? null
      list.back.push({ ...amount, batchId: batch.id, thread, lot, place, isWaiting: !back })
    }
    const lastTakeOf = movements.findLast(({ batchId, kind }) => batchId === batch.id && kind === 'take')
    const isStillThere = lastTakeOf !== undefined && batch.currentPlaceId === lastTakeOf.toPlaceId
    const question = questionOf.get(batch.id)
    const isLost = closing !== undefined && own.length === 0 && isStillThere && batch.outSince !== null && batch.goneAt === null
    if (question || (isLost && !onList)) {
      const { wholePutUps, partStrandTenths } = batch
      const lastSeen = places.get(question?.lastSeenPlaceId ?? batch.currentPlaceId ?? '') ?? null
      list.missing.push({
        ...{ wholePutUps, partStrandTenths, batchId: batch.id, thread, lot, lastSeen },
        missingId: question?.id ?? null,
      })
    }
  }
  for (const { id, threadId, ...amount } of lost) {
    const question = questionOf.get(id)
    const lastSeen = places.get(question?.lastSeenPlaceId ?? '') ?? null
    const thread = tags.get(threadId) as ThreadTag
    list.missing.push({ ...amount, batchId: id, thread, lastSeen, missingId: question?.id ?? null })
  }
  const ranks = walkRanks([...places.values()])
  const rankOf = (place: PlaceTag | null) => (place && ranks.get(place.id)) ?? Number.MAX_SAFE_INTEGER
  list.back.sort((a, b) => rankOf(a.place) - rankOf(b.place) || compareExact(a.batchId, b.batchId))
  list.used = [...usedByThread].map(([threadId, strandTenths]) => ({ thread: tags.get(threadId) as ThreadTag, strandTenths }))
  return list
}

function openLists(lines: readonly { walkId: string; carriedAt: Date | null }[]): OpenPutBack[] {
  const lists = new Map<string, OpenPutBack>()
  for (const { walkId, carriedAt } of lines) {
    const list = lists.get(walkId) ?? { walkId, things: 0, waiting: 0 }
    lists.set(walkId, { walkId, things: list.things + 1, waiting: list.waiting + (carriedAt === null ? 1 : 0) })
  }
  return [...lists.values()].filter(({ waiting }) => waiting > 0)
}
