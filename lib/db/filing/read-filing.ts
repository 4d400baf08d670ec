import 'server-only'
import { createHash } from 'node:crypto'
import { familyNamed } from '#lib/colour/family'
import { grouped } from '#lib/grouped'
import { type Growth, nextLabel, planGrowth } from '#lib/place/filing-moves'
import type { PlaceKind } from '#lib/place/place'
import { walkOrder } from '#lib/place/walk-order'
import { textKey } from '#lib/quantity/text-key'
import { compareFiled, type FiledThread, type FilingOrder } from '#lib/thread/filing-order'
import { chunks } from '../bulk-edit/read-bulk-edit'
import { database, type Transaction } from '../client'
import { labOf } from '../lab-of'
import { type PlaceRecord, placeColumns } from '../place/place-rows'

export type FilingRequest = {
  lineId: string
  /** Whose batches are filed. */
  ownerIds: readonly string[]
  order: FilingOrder
  /** How many a drawer holds that does not say so itself. */
  capacity: number
  /** Codes of the line to find room for, known or not. */
  codes: readonly string[]
  /** Find room for what is held and lives nowhere, too. */
  takesUnplaced: boolean
}

export type FilingDrawer = {
  id: string
  label: string
  kind: PlaceKind
  parentId: string | null
  capacity: number
  /** What else lives in it: threads of other lines or owners, and more of a thread that is filed in another drawer. */
  others: number
}

export type FiledLine = FiledThread & {
  /** Null for a code that is not on record yet. */
  threadId: string | null
  /** The drawer it lives in, by its place in the run; null for one that is to come in. */
  drawer: number | null
  /** What goes with it to another drawer: its batches in this one or, for one that comes in, all of them. */
  batches: { id: string; version: number }[]
}

export type Filing = {
  drawers: FilingDrawer[]
  /** In the order asked for. */
  lines: FiledLine[]
  growth: Growth
  /** What a drawer put in would be called, by the choice that puts one in. */
  addedLabel: string | null
  /** Batches live in compartments that are places of their own: which of them a moved batch gets is not decided here. */
  hasCompartments: boolean
  /** The same only as long as everything the plan rests on is. */
  fingerprint: string
}

type Reader = Pick<Transaction, 'thread' | 'batch' | 'place'>

/** Labels that differ in their numbers alone follow on from one another. */
const patternOf = ({ label }: { label: string }): string => textKey(label).replace(/\d+/g, '#')

/** The drawers a line lives in as it stands, with what is to come in, and what can be done. */
export async function readFiling(tx: Reader, request: FilingRequest): Promise<Filing> {
  const { lineId, order } = request
  const threads = await tx.thread.findMany({
    where: { lineId, goneAt: null },
    select: { id: true, code: true, name: true, family: true, labL: true, labA: true, labB: true },
  })
  const batches = await tx.batch.findMany({
    where: { thread: { lineId, goneAt: null }, ownerId: { in: [...request.ownerIds] }, goneAt: null },
    select: { id: true, threadId: true, homePlaceId: true, version: true, wholePutUps: true, partCertainty: true },
    orderBy: { id: 'asc' },
  })
  const rows = (await tx.place.findMany({ where: { goneAt: null }, select: placeColumns })) as PlaceRecord[]
  const byId = new Map(rows.map((row) => [row.id, row]))
  const drawerOf = (homePlaceId: string | null): PlaceRecord | null => {
    const place = byId.get(homePlaceId ?? '')
    if (!place) return null
    return place.kind === 'compartment' ? (byId.get(place.parentId ?? '') ?? place) : place
  }
  const drawers = await readDrawers(tx, { request, batches, drawerOf, places: walkOrder(rows) as PlaceRecord[] })
  const turnOf = new Map(drawers.map(({ id }, turn) => [id, turn]))
  const turnAt = (homePlaceId: string | null) => turnOf.get(drawerOf(homePlaceId)?.id ?? '') ?? null

  const asked = new Set(request.codes)
  const batchesOf = grouped(batches, ({ threadId }) => threadId)
  const lines: FiledLine[] = []
  for (const thread of threads) {
    const its = batchesOf.get(thread.id) ?? []
    const filed = its.find(({ homePlaceId }) => turnAt(homePlaceId) !== null)
    const drawer = filed ? turnAt(filed.homePlaceId) : null
    // More of it in another drawer of the run takes room there, and stays.
    for (const turn of new Set(its.map(({ homePlaceId }) => turnAt(homePlaceId)))) {
      const spare = turn !== null && turn !== drawer && drawers[turn]
      if (spare) spare.others++
    }
    const isWaiting = its.some(
      ({ homePlaceId, wholePutUps, partCertainty }) => homePlaceId === null && (wholePutUps > 0 || partCertainty !== 'none'),
    )
    if (drawer === null && !asked.has(thread.code) && !(request.takesUnplaced && isWaiting)) continue
    const goes = its.filter(({ homePlaceId }) =>
      drawer !== null ? turnAt(homePlaceId) === drawer : asked.has(thread.code) || homePlaceId === null,
    )
    lines.push({
      threadId: thread.id,
      code: thread.code,
      name: thread.name,
      lab: labOf(thread),
      family: familyNamed(thread.family),
      drawer,
      batches: goes.map(({ id, version }) => ({ id, version })),
    })
  }
  const known = new Set(threads.map(({ code }) => code))
  for (const code of asked)
    if (!known.has(code)) lines.push({ threadId: null, code, name: null, lab: null, family: null, drawer: null, batches: [] })
  lines.sort((a, b) => compareFiled(order, a, b))

  const rooms = drawers.map(({ capacity, others }) => Math.max(0, capacity - others))
  const growth =
    drawers.length === 0
      ? { choices: [], recommended: null }
      : planGrowth(
          lines.map(({ drawer }) => drawer),
          rooms,
          request.capacity,
        )
  const labels = new Set(rows.map(({ label }) => textKey(label)))
  const added = growth.choices.find(({ way }) => way === 'added')
  const at = added?.drawers.findIndex(({ before }) => before === null) ?? -1
  const neighbour = drawers[Math.max(0, at - 1)]
  return {
    drawers,
    lines,
    growth,
    addedLabel: at >= 0 && neighbour ? nextLabel(neighbour.label, (label) => labels.has(textKey(label))) : null,
    hasCompartments: batches.some(
      ({ homePlaceId }) =>
        turnAt(homePlaceId) !== null && byId.get(homePlaceId ?? '')?.kind === 'compartment' && !turnOf.has(homePlaceId ?? ''),
    ),
    fingerprint: createHash('sha256')
      .update(
        JSON.stringify([
          drawers.map(({ id, label, capacity, others }) => [id, label, capacity, others]),
          lines.map(({ code, threadId, drawer, batches }) => [code, threadId, drawer, batches]),
          request.capacity,
        ]),
      )
      .digest('base64url'),
  }
}

/**
 * The drawers of a line: of the places its batches live in, those whose labels follow on and that hold the most of it, from the first to
 * the last, with what lies between and what stands empty after.
 */
async function readDrawers(
  tx: Reader,
  context: {
    request: FilingRequest
    batches: readonly { threadId: string; homePlaceId: string | null }[]
    drawerOf: (homePlaceId: string | null) => PlaceRecord | null
    /** In walking order. */
    places: readonly PlaceRecord[]
  },
): Promise<FilingDrawer[]> {
  const { request, batches, drawerOf, places } = context
  const held = new Map<string, Set<string>>()
  for (const { threadId, homePlaceId } of batches) {
    const drawer = drawerOf(homePlaceId)
    if (drawer) held.set(drawer.id, (held.get(drawer.id) ?? new Set()).add(threadId))
  }
  const holding = places.filter(({ id }) => held.has(id))
  const patterns = grouped(holding, (place) => `${place.kind} ${patternOf(place)}`)
  const weigh = (of: readonly PlaceRecord[]) => of.reduce((sum, { id }) => sum + (held.get(id)?.size ?? 0), 0)
  const [best] = [...patterns].sort(([, a], [, b]) => weigh(b) - weigh(a))
  if (!best) return []
  const [pattern, ours] = best
  const run = places.filter((place) => `${place.kind} ${patternOf(place)}` === pattern)
  const inside = new Map(run.map((drawer) => [drawer.id, places.filter(({ path }) => path.startsWith(drawer.path))]))
  const others = await countOthers(tx, request, inside)
  const first = run.findIndex(({ id }) => id === ours[0]?.id)
  let last = run.findIndex(({ id }) => id === ours.at(-1)?.id)
  while (last + 1 < run.length && others.get(run[last + 1]?.id ?? '') === 0) last++
  return run.slice(first, last + 1).map(({ id, label, kind, parentId, capacity }) => ({
    ...{ id, label, kind, parentId },
    capacity: capacity ?? request.capacity,
    others: others.get(id) ?? 0,
  }))
}

/** By drawer, how many threads live in it that are not of this line and these owners. */
async function countOthers(
  tx: Reader,
  { lineId, ownerIds }: FilingRequest,
  inside: ReadonlyMap<string, readonly PlaceRecord[]>,
): Promise<Map<string, number>> {
  const drawerAt = new Map([...inside].flatMap(([drawerId, places]) => places.map(({ id }) => [id, drawerId] as const)))
  const found = new Map([...inside.keys()].map((id) => [id, new Set<string>()]))
  for (const ids of chunks([...drawerAt.keys()])) {
    const rows = await tx.batch.findMany({
      where: {
        homePlaceId: { in: ids },
        goneAt: null,
        NOT: { ownerId: { in: [...ownerIds] }, thread: { lineId, goneAt: null } },
      },
      select: { threadId: true, homePlaceId: true },
    })
    for (const { threadId, homePlaceId } of rows) found.get(drawerAt.get(homePlaceId ?? '') ?? '')?.add(threadId)
  }
  return new Map([...found].map(([id, threadIds]) => [id, threadIds.size]))
}

/** What can be done, for a look before it is done. */
export const findFiling = (request: FilingRequest): Promise<Filing> => readFiling(database().prisma, request)
