import 'server-only'
import { createHash } from 'node:crypto'
import { familyNamed } from '#lib/colour/family'
import { grouped } from '#lib/grouped'
import {
  type Compartments,
  compartmentLabels,
  type FilingChoice,
  type Growth,
  nextLabel,
  planAfresh,
  planGrowth,
} from '#lib/place/filing-moves'
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
  /** How many a drawer holds that does not say so itself and has no compartments. */
  capacity: number
  /** How full drawers are kept when all is dealt out afresh. */
  percent: number
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
  /** What else takes room in it: threads of other lines or owners, and more of a thread that is filed in another drawer. */
  others: number
  /** Its compartments that are places of their own, in walking order. */
  compartments: { id: string; label: string }[]
  /** What of it takes these things, one each, in walking order: compartments, or the drawer itself as often as it has room. */
  places: string[]
}

export type FiledLine = FiledThread & {
  /** Null for a code that is not on record yet. */
  threadId: string | null
  /** The drawer it lives in, by its place in the run; null for one that is to come in. */
  drawer: number | null
  /** The place it lives in, the drawer or a compartment of it. A thread in two compartments is two lines. */
  at: string | null
  /** What goes with it to another drawer: its batches in this place or, for one that comes in, all of them. */
  batches: { id: string; version: number }[]
}

export type Filing = {
  drawers: FilingDrawer[]
  /** In the order asked for. */
  lines: FiledLine[]
  growth: Growth
  /** The compartments things live in and can go to; null where the drawers have none that are places. */
  compartments: Compartments | null
  /** A drawer put in, by the choice that puts one in: what it and its compartments would be called, and how many things it takes. */
  added: { label: string; compartments: string[]; room: number } | null
  /** What places are called; those of a drawer put in by the name they have in the plan. */
  placeLabels: ReadonlyMap<string, string>
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
  const places = walkOrder(rows) as PlaceRecord[]
  const turnOfPlace = new Map(places.map(({ id }, turn) => [id, turn]))
  const { run, othersAt } = await readRun(tx, { request, batches, drawerOf, places })
  const turnOf = new Map(run.map(({ place }, turn) => [place.id, turn]))
  const turnAt = (homePlaceId: string | null) => turnOf.get(drawerOf(homePlaceId)?.id ?? '') ?? null
  const hasCompartments = run.some(({ compartments }) => compartments.length > 0)

  const asked = new Set(request.codes)
  const batchesOf = grouped(batches, ({ threadId }) => threadId)
  const lines: FiledLine[] = []
  for (const thread of threads) {
    const its = batchesOf.get(thread.id) ?? []
    const filed = its.find(({ homePlaceId }) => turnAt(homePlaceId) !== null)
    const drawer = filed ? turnAt(filed.homePlaceId) : null
    // More of it in another drawer of the run takes room there, and stays.
    for (const { homePlaceId } of its) {
      const turn = turnAt(homePlaceId)
      if (homePlaceId !== null && turn !== null && turn !== drawer)
        othersAt.set(homePlaceId, (othersAt.get(homePlaceId) ?? new Set()).add(thread.id))
    }
    const isWaiting = its.some(
      ({ homePlaceId, wholePutUps, partCertainty }) => homePlaceId === null && (wholePutUps > 0 || partCertainty !== 'none'),
    )
    if (drawer === null && !asked.has(thread.code) && !(request.takesUnplaced && isWaiting)) continue
    const goes = its.filter(({ homePlaceId }) =>
      drawer !== null ? turnAt(homePlaceId) === drawer : asked.has(thread.code) || homePlaceId === null,
    )
    const heaps = grouped(goes, ({ homePlaceId }) => (drawer !== null && hasCompartments ? homePlaceId : null))
    const inWalk = [...heaps].sort(([a], [b]) => (turnOfPlace.get(a ?? '') ?? 0) - (turnOfPlace.get(b ?? '') ?? 0))
    for (const [at, heap] of inWalk.length > 0 ? inWalk : ([[null, []]] as const)) {
      lines.push({
        ...{ threadId: thread.id, code: thread.code, name: thread.name, lab: labOf(thread), family: familyNamed(thread.family) },
        ...{ drawer, at, batches: heap.map(({ id, version }) => ({ id, version })) },
      })
    }
  }
  const known = new Set(threads.map(({ code }) => code))
  for (const code of asked) {
    if (known.has(code)) continue
    lines.push({ threadId: null, code, name: null, lab: null, family: null, drawer: null, at: null, batches: [] })
  }
  lines.sort((a, b) => compareFiled(order, a, b))

  const heldAt = new Map<string, number>()
  for (const { at } of lines) if (at !== null) heldAt.set(at, (heldAt.get(at) ?? 0) + 1)
  const drawers = run.map((one): FilingDrawer => {
    const { id, label, kind, parentId } = one.place
    const room =
      hasCompartments && one.compartments.length > 0 ? roomByPlace(one, heldAt, othersAt) : roomOfOne(one, othersAt, request)
    return { id, label, kind, parentId, compartments: one.compartments.map(({ id, label }) => ({ id, label })), ...room }
  })
  const rooms = drawers.map(({ places }) => places.length)
  const addedRoom = hasCompartments ? Math.max(...drawers.map((drawer) => drawer.compartments.length)) : request.capacity
  const compartments: Compartments | null = hasCompartments
    ? {
        at: lines.map(({ at }) => at),
        places: drawers.map((drawer) => drawer.places),
        added: Array.from({ length: addedRoom }, (_, turn) => addedPlace(turn)),
      }
    : null
  const filed = lines.map(({ drawer }) => drawer)
  const growth: Growth =
    drawers.length === 0 ? { choices: [], recommended: null } : planGrowth(filed, rooms, addedRoom, compartments)
  const afresh = drawers.length === 0 || lines.length === 0 ? null : planAfresh(filed, rooms, request.percent, compartments)
  if (afresh) growth.choices.push(afresh)
  const added = addedOf(growth.choices, drawers, { rows, room: addedRoom })
  const placeLabels = new Map(rows.map(({ id, label }) => [id, label]))
  for (const [turn, label] of (added?.compartments ?? []).entries()) placeLabels.set(addedPlace(turn), label)
  return {
    ...{ drawers, lines, growth, compartments, added, placeLabels },
    fingerprint: createHash('sha256')
      .update(
        JSON.stringify([
          drawers.map(({ id, label, capacity, others, places }) => [id, label, capacity, others, places]),
          lines.map(({ code, threadId, drawer, at, batches }) => [code, threadId, drawer, at, batches]),
          [addedRoom, added, request.percent],
        ]),
      )
      .digest('base64url'),
  }
}

/** The name a compartment has in the plan that is not a place yet. */
export const addedPlace = (turn: number): string => `added ${turn}`

type RunDrawer = {
  place: PlaceRecord
  compartments: PlaceRecord[] /** All places inside it, and itself. */
  inside: PlaceRecord[]
}
type OthersAt = ReadonlyMap<string, ReadonlySet<string>>

const othersIn = (places: readonly PlaceRecord[], othersAt: OthersAt): number =>
  new Set(places.flatMap(({ id }) => [...(othersAt.get(id) ?? [])])).size

type Room = Pick<FilingDrawer, 'capacity' | 'others' | 'places'>

/** A drawer without compartments: it takes as many as it says less what else is in it. */
function roomOfOne({ place, inside }: RunDrawer, othersAt: OthersAt, request: FilingRequest): Room {
  const capacity = place.capacity ?? request.capacity
  const others = othersIn(inside, othersAt)
  return { capacity, others, places: new Array<string>(Math.max(0, capacity - others)).fill(place.id) }
}

/**
 * A drawer with compartments: one thing to each that holds nothing else, or as many as it holds now; and in the drawer itself what it says it
 * takes beyond its compartments.
 */
function roomByPlace({ place, compartments, inside }: RunDrawer, heldAt: ReadonlyMap<string, number>, othersAt: OthersAt): Room {
  const isTaken = ({ id }: PlaceRecord) => !heldAt.has(id) && (othersAt.get(id)?.size ?? 0) > 0
  const places = compartments.flatMap((one) => (isTaken(one) ? [] : new Array<string>(heldAt.get(one.id) ?? 1).fill(one.id)))
  const inCompartments = new Set(compartments.map(({ id }) => id))
  const beyond = Math.max(0, (place.capacity ?? 0) - compartments.length)
  const loose = Math.min(
    beyond,
    othersIn(
      inside.filter(({ id }) => !inCompartments.has(id)),
      othersAt,
    ),
  )
  places.push(...new Array<string>(beyond - loose).fill(place.id))
  const others = compartments.filter(isTaken).length + loose
  return { capacity: places.length + others, others, places }
}

/** A drawer put in is numbered on from the one before it, and its compartments as in the drawers there are. */
function addedOf(
  choices: readonly FilingChoice[],
  drawers: readonly FilingDrawer[],
  { rows, room }: { rows: readonly PlaceRecord[]; room: number },
): Filing['added'] {
  const at = choices.find(({ way }) => way === 'added')?.drawers.findIndex(({ before }) => before === null) ?? -1
  const neighbour = drawers[Math.max(0, at - 1)]
  if (at < 0 || !neighbour) return null
  const taken = new Set(rows.map(({ label }) => textKey(label)))
  const like = neighbour.compartments.length > 0 ? neighbour : drawers.find(({ compartments }) => compartments.length > 0)
  const compartmentsOf = (label: string) =>
    like
      ? compartmentLabels(label, { beside: { ...like, compartments: like.compartments.map((one) => one.label) }, count: room })
      : []
  const label = nextLabel(neighbour.label, (label) => [label, ...compartmentsOf(label)].some((one) => taken.has(textKey(one))))
  return { label, compartments: compartmentsOf(label), room }
}

/**
 * The drawers of a line: of the places its batches live in, those whose labels follow on and that hold the most of it, from the first to
 * the last, with what lies between and what stands empty after.
 */
async function readRun(
  tx: Reader,
  context: {
    request: FilingRequest
    batches: readonly { threadId: string; homePlaceId: string | null }[]
    drawerOf: (homePlaceId: string | null) => PlaceRecord | null
    /** In walking order. */
    places: readonly PlaceRecord[]
  },
): Promise<{ run: RunDrawer[]; othersAt: Map<string, Set<string>> }> {
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
  if (!best) return { run: [], othersAt: new Map() }
  const [pattern, ours] = best
  const run = places.filter((place) => `${place.kind} ${patternOf(place)}` === pattern)
  const inside = new Map(run.map((drawer) => [drawer.id, places.filter(({ path }) => path.startsWith(drawer.path))]))
  const insideOf = ({ id }: PlaceRecord) => inside.get(id) ?? []
  const othersAt = await readOthers(
    tx,
    request,
    run.flatMap((drawer) => insideOf(drawer).map(({ id }) => id)),
  )
  const first = run.findIndex(({ id }) => id === ours[0]?.id)
  let last = run.findIndex(({ id }) => id === ours.at(-1)?.id)
  for (let next = run[last + 1]; next && othersIn(insideOf(next), othersAt) === 0; next = run[last + 1]) last++
  return {
    run: run.slice(first, last + 1).map((place) => ({
      ...{ place, inside: insideOf(place) },
      compartments: insideOf(place).filter(({ kind, parentId }) => kind === 'compartment' && parentId === place.id),
    })),
    othersAt,
  }
}

/** By place, the threads that live in it and are not of this line and these owners. */
async function readOthers(
  tx: Reader,
  { lineId, ownerIds }: FilingRequest,
  placeIds: readonly string[],
): Promise<Map<string, Set<string>>> {
  const othersAt = new Map<string, Set<string>>()
  for (const ids of chunks(placeIds)) {
    const rows = await tx.batch.findMany({
      where: {
        homePlaceId: { in: ids },
        goneAt: null,
        NOT: { ownerId: { in: [...ownerIds] }, thread: { lineId, goneAt: null } },
      },
      select: { threadId: true, homePlaceId: true },
    })
    for (const { threadId, homePlaceId } of rows) {
      if (homePlaceId === null) continue
      const found = othersAt.get(homePlaceId)
      if (found) found.add(threadId)
      else othersAt.set(homePlaceId, new Set([threadId]))
    }
  }
  return othersAt
}

/** What can be done, for a look before it is done. */
export const findFiling = (request: FilingRequest): Promise<Filing> => readFiling(database().prisma, request)
