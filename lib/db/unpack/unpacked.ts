import 'server-only'
import { isFullerThan } from '#lib/place/capacity'
import { walkRanks } from '#lib/place/walk-order'
import type { WalkStatus } from '#lib/project/walk'
import { compareExact, type PartCertainty } from '#lib/stock/batch'
import { putUpsIn } from '#lib/stock/unpack'
import { database } from '../client'
import { chartColumns, clothColumns, notionColumns, readChart, readCloth, readNotion, type ThingHere } from '../place/contents'
import type { PlaceTag } from '../place/place-rows'
import { readFills } from '../place/read-fills'
import { readPlacesAround } from '../project/queries'
import { readThreadTags, type ThreadTag } from '../thread/thread-tag'

type Amount = { wholePutUps: number; partStrandTenths: number }

export type UnpackedLine = {
  lineId: string
  place: PlaceTag | null
  /** Ticked, and on the record at home. */
  isHome: boolean
  what:
    | ({ noun: 'thread'; thread: ThreadTag; lot: string | null; hasPart: boolean; ownerName: string } & Amount)
    | { noun: 'thing'; thing: Exclude<ThingHere, { noun: 'thread' }> }
  /** Its home has not room for all put-ups that live there, this one among them. */
  isFull: boolean
  /** More of the same thread lives here: where the overflow is. */
  overflow: PlaceTag[]
}

export type UnpackedList = {
  at: Date
  walk: { id: string; title: string; status: string } | null
  /** In walking order. */
  back: UnpackedLine[]
  usedUp: { thread: ThreadTag; lot: string | null; putUps: number }[]
  missing: ({ missingId: string; status: string } & (
    | ({ noun: 'thread'; thread: ThreadTag; lot: string | null; putUps: number } & Amount)
    | { noun: 'thing'; name: string }
  ))[]
  /** Put-ups, a part counting as one; cloth, charts and notions are not among them. */
  check: { pulled: number; back: number; usedUp: number; missing: number }
}

/** When a place was unpacked, the latest first; at most the last thirty lists. */
export async function listUnpackings(placeId: string): Promise<{ at: Date; walkId: string; status: WalkStatus }[]> {
  const rows = await database().prisma.walk.findMany({
    where: { kind: 'put-back', placeId },
    select: { id: true, startedAt: true, status: true },
    orderBy: [{ startedAt: 'desc' }, { id: 'desc' }],
    take: 30,
  })
  return rows.map(({ id, startedAt, status }) => ({ at: startedAt, walkId: id, status: status as WalkStatus }))
}

/**
 * What came of a bag that was unpacked at this moment: what goes back where, what was used up, what was missing, and the sum of it. Read
 * from the list, the journal and the questions, so it stands as long as they do. Null when nothing was unpacked then.
 */
export async function readUnpacked(placeId: string, at: Date): Promise<UnpackedList | null> {
  const { prisma } = database()
  const [walk, uses, questions] = await Promise.all([
    prisma.walk.findFirst({
      where: { kind: 'put-back', placeId, startedAt: at },
      select: {
        ...{ id: true, title: true, status: true },
        lines: {
          select: {
            ...{ id: true, batchId: true, clothPieceId: true, chartId: true, notionId: true },
            ...{ count: true, takesPart: true, carriedAt: true, toPlaceId: true },
          },
          orderBy: { position: 'asc' },
        },
      },
    }),
    prisma.movement.findMany({
      where: { at, kind: 'use', batchId: { not: null }, fromPlaceId: placeId },
      select: { batchId: true, wholeDelta: true, partDeltaStrandTenths: true },
      orderBy: { id: 'asc' },
    }),
    prisma.missingThing.findMany({
      where: { askedAt: at, lastSeenPlaceId: placeId, walkId: null },
      select: {
        ...{ id: true, status: true, batchId: true },
        clothPiece: { select: { label: true, name: true } },
        chart: { select: { title: true } },
        notion: { select: { name: true, size: true } },
      },
      orderBy: { id: 'asc' },
    }),
  ])
  if (!walk && uses.length === 0 && questions.length === 0) return null
  const lines = walk?.lines ?? []
  const ids = (key: 'clothPieceId' | 'chartId' | 'notionId') => ({ id: { in: lines.flatMap((line) => line[key] ?? []) } })
  const batchIds = [...new Set([...lines, ...uses, ...questions].flatMap(({ batchId }) => batchId ?? []))]
  const [batches, before, after, cloth, charts, notions] = await Promise.all([
    prisma.batch.findMany({
      where: { id: { in: batchIds } },
      select: {
        ...{ id: true, threadId: true, ownerId: true, lot: true, putUpWord: true, partCertainty: true },
        owner: { select: { name: true } },
      },
    }),
    sumMovements(batchIds, { lt: at }),
    sumMovements(batchIds, { lte: at }),
    prisma.clothPiece.findMany({ where: ids('clothPieceId'), select: clothColumns }),
    prisma.chart.findMany({ where: ids('chartId'), select: chartColumns }),
    prisma.notion.findMany({ where: ids('notionId'), select: notionColumns }),
  ])
  const batchOf = new Map(batches.map((batch) => [batch.id, batch]))
  const things = new Map<string, Exclude<ThingHere, { noun: 'thread' }>>()
  for (const thing of [...cloth.map(readCloth), ...charts.map(readChart), ...notions.map(readNotion)])
    things.set(thing.id, thing as Exclude<ThingHere, { noun: 'thread' }>)
  const [tags, places, beside] = await Promise.all([
    readThreadTags(batches.map(({ threadId }) => threadId)),
    readPlacesAround(
      prisma,
      lines.map(({ toPlaceId }) => toPlaceId),
    ),
    readBeside(lines.flatMap(({ batchId }) => batchOf.get(batchId ?? '')?.threadId ?? [])),
  ])
  const fills = await readFills([...places.values()])
  const isOverfull = (placeId: string | null): boolean => {
    const fill = fills.get(placeId ?? '')
    return fill?.by === 'put-ups' && isFullerThan(fill.fill, 100)
  }

  const list: UnpackedList = {
    ...{ at, walk: walk && { id: walk.id, title: walk.title, status: walk.status } },
    ...{ back: [], usedUp: [], missing: [], check: { pulled: 0, back: 0, usedUp: 0, missing: 0 } },
  }
  for (const line of lines) {
    const place = places.get(line.toPlaceId ?? '') ?? null
    const common = { lineId: line.id, place, isHome: line.carriedAt !== null }
    const batch = batchOf.get(line.batchId ?? '')
    const thread = batch && tags.get(batch.threadId)
    if (batch && thread) {
      const amount = after.get(batch.id) ?? nothing
      const { ownerId, threadId, lot, owner } = batch
      const part = line.takesPart ? amount.partStrandTenths : 0
      list.check.back += line.count + (line.takesPart ? 1 : 0)
      list.back.push({
        ...common,
        what: {
          ...{ noun: 'thread', thread, lot, ownerName: owner.name, hasPart: line.takesPart },
          ...{ wholePutUps: line.count, partStrandTenths: part },
        },
        isFull: isOverfull(line.toPlaceId),
        overflow: [
          ...new Map(
            beside
              .filter((one) => one.threadId === threadId && one.ownerId === ownerId && one.home.id !== line.toPlaceId)
              .map(({ home }) => [home.id, home]),
          ).values(),
        ],
      })
      continue
    }
    const thing = things.get(line.clothPieceId ?? line.chartId ?? line.notionId ?? '')
    if (thing) list.back.push({ ...common, what: { noun: 'thing', thing }, isFull: false, overflow: [] })
  }
  for (const use of uses) {
    const batch = batchOf.get(use.batchId ?? '')
    const thread = batch && tags.get(batch.threadId)
    if (!batch || !thread) continue
    // Its question's put-ups were parted off in the same write, before the use.
    const left = after.get(batch.id) ?? nothing
    const held = {
      wholePutUps: left.wholePutUps - use.wholeDelta,
      partStrandTenths: left.partStrandTenths - use.partDeltaStrandTenths,
    }
    const putUps = putUpsOf(held) - putUpsOf(left)
    list.check.usedUp += putUps
    const known = list.usedUp.find((one) => one.thread.id === thread.id && one.lot === batch.lot)
    if (known) known.putUps += putUps
    else if (putUps > 0) list.usedUp.push({ thread, lot: batch.lot, putUps })
  }
  for (const { id, status, batchId, clothPiece, chart, notion } of questions) {
    const batch = batchOf.get(batchId ?? '')
    const thread = batch && tags.get(batch.threadId)
    if (batch && thread) {
      const amount = after.get(batch.id) ?? before.get(batch.id) ?? nothing
      const certainty = batch.partCertainty as PartCertainty
      const putUps = putUpsIn({ ...amount, partCertainty: certainty === 'some' ? 'some' : 'none' })
      list.check.missing += putUps
      list.missing.push({ missingId: id, status, noun: 'thread', thread, lot: batch.lot, putUps, ...amount })
    } else {
      const name = clothPiece
        ? [clothPiece.label, clothPiece.name].filter(Boolean).join(' ')
        : (chart?.title ?? [notion?.name, notion?.size].filter(Boolean).join(' '))
      list.missing.push({ missingId: id, status, noun: 'thing', name })
    }
  }
  const { back, usedUp, missing } = list.check
  list.check.pulled = back + usedUp + missing
  const ranks = walkRanks([...places.values()])
  const rankOf = ({ place }: UnpackedLine) => (place && ranks.get(place.id)) ?? Number.MAX_SAFE_INTEGER
  list.back = list.back
    .map((line, turn) => ({ line, turn }))
    .sort((a, b) => rankOf(a.line) - rankOf(b.line) || a.turn - b.turn)
    .map(({ line }) => line)
  return list
}

const nothing: Amount = { wholePutUps: 0, partStrandTenths: 0 }
const putUpsOf = (amount: Amount) => amount.wholePutUps + (amount.partStrandTenths > 0 ? 1 : 0)

/** What these batches held before, or by, a moment. */
async function sumMovements(batchIds: readonly string[], at: { lt: Date } | { lte: Date }): Promise<Map<string | null, Amount>> {
  const sums = await database().prisma.movement.groupBy({
    by: ['batchId'],
    where: { batchId: { in: [...batchIds] }, at },
    _sum: { wholeDelta: true, partDeltaStrandTenths: true },
  })
  return new Map(
    sums.map(({ batchId, _sum: sum }) => [
      batchId,
      { wholePutUps: sum.wholeDelta ?? 0, partStrandTenths: sum.partDeltaStrandTenths ?? 0 },
    ]),
  )
}

type Beside = { threadId: string; ownerId: string; home: PlaceTag }

/** Where stock of these threads lives. */
async function readBeside(threadIds: readonly string[]): Promise<Beside[]> {
  const rows = await database().prisma.batch.findMany({
    where: {
      threadId: { in: [...new Set(threadIds)] },
      goneAt: null,
      homePlaceId: { not: null },
      OR: [{ wholePutUps: { gt: 0 } }, { partCertainty: { not: 'none' } }],
    },
    select: {
      ...{ id: true, threadId: true, ownerId: true },
      homePlace: { select: { id: true, label: true, name: true, kind: true } },
    },
  })
  return rows
    .sort((a, b) => compareExact(a.id, b.id))
    .flatMap(({ threadId, ownerId, homePlace }) => (homePlace ? [{ threadId, ownerId, home: homePlace as PlaceTag }] : []))
}
