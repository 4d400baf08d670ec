import { textKey } from '#lib/quantity/text-key'
import type { Place } from './place'

/** How many of one kind of put-up a place takes: six skeins. */
export type PutUpRoom = { putUpWord: string; most: number }
export type PutUpsHeld = { putUpWord: string; count: number }

/** How full something is, exact: `filled` of `whole` parts. `whole` is above 0; `filled` may be the larger. */
export type Fill = { filled: bigint; whole: bigint }

/** A put-up's word for comparing: skein, Skeins and SKEIN are one. */
export const putUpKey = (word: string): string => textKey(word).replace(/(?<=..)s$/, '')

const addFills = (a: Fill, b: Fill): Fill => {
  const fill = { filled: a.filled * b.whole + b.filled * a.whole, whole: a.whole * b.whole }
  const common = greatestCommon(fill.filled, fill.whole)
  return { filled: fill.filled / common, whole: fill.whole / common }
}

function greatestCommon(a: bigint, b: bigint): bigint {
  let [x, y] = [a, b]
  while (y !== 0n) [x, y] = [y, x % y]
  return x === 0n ? 1n : x
}

const nothingOf: Fill = { filled: 0n, whole: 1n }

/** Whether something is fuller than so many per cent: at just three-quarters it is not over three-quarters. */
export const isFullerThan = ({ filled, whole }: Fill, percent: number): boolean => filled * 100n > whole * BigInt(percent)

/** Compare by how full, the fullest first. */
export const byFillDescending = (a: Fill, b: Fill): number => {
  const [left, right] = [a.filled * b.whole, b.filled * a.whole]
  return left < right ? 1 : left > right ? -1 : 0
}

/** In per cent, to a tenth, for showing. */
export const percentOf = ({ filled, whole }: Fill): number => Number((filled * 1_000n + whole / 2n) / whole) / 10

/**
 * How full a place is that takes six skeins or twelve cards or twenty loops: each kind takes its share of the room, and the shares add up.
 * Three skeins and six cards in it fill it. A part skein takes the room of a whole one. Kinds nothing is said about take up room that is
 * not known; they are named, and count for nothing.
 */
export function fillByPutUps(
  room: readonly PutUpRoom[],
  held: readonly PutUpsHeld[],
): { fill: Fill; byWord: (PutUpRoom & { count: number })[]; unknown: PutUpsHeld[] } {
  const counts = new Map<string, PutUpsHeld>()
  for (const { putUpWord, count } of held) {
    const key = putUpKey(putUpWord)
    counts.set(key, { putUpWord: counts.get(key)?.putUpWord ?? putUpWord, count: (counts.get(key)?.count ?? 0) + count })
  }
  const byWord = room.map(({ putUpWord, most }) => ({ putUpWord, most, count: counts.get(putUpKey(putUpWord))?.count ?? 0 }))
  const known = new Set(room.map(({ putUpWord }) => putUpKey(putUpWord)))
  return {
    fill: byWord.reduce((sum, { count, most }) => addFills(sum, { filled: BigInt(count), whole: BigInt(most) }), nothingOf),
    byWord,
    unknown: [...counts].filter(([key, { count }]) => !known.has(key) && count > 0).map(([, one]) => one),
  }
}

/** What lives or lies somewhere, at any depth; of different threads the kinds, of other things the pieces. */
export type Holding = {
  putUps: readonly PutUpsHeld[]
  /** Different threads, pieces of cloth, charts and notions that lie there. */
  here: number
  /** Those that live there but are all out: their room is kept. */
  out: number
  /** Which of them they are, when they are all of one sort. */
  sort: 'threads' | 'pieces' | 'charts' | 'notions' | 'things'
}

export type PlaceFill =
  | { by: 'put-ups'; fill: Fill; byWord: (PutUpRoom & { count: number })[]; unknown: PutUpsHeld[] }
  /** The mean of its compartments, none counted more than full; `unsaid` of them do not say what they take. */
  | { by: 'compartments-room'; fill: Fill; compartments: number; unsaid: number }
  /** Compartments that have something, of all there are. */
  | { by: 'compartments'; fill: Fill; here: number; out: number; capacity: number }
  /** Things, of as many as it is said to hold. */
  | { by: 'things'; fill: Fill; here: number; out: number; capacity: number; sort: Holding['sort'] }

type Standing = Pick<Place, 'id' | 'parentId' | 'kind' | 'capacity'>

const emptyHolding: Holding = { putUps: [], here: 0, out: 0, sort: 'things' }

/**
 * How full each place is that can say so: by the put-ups it takes; else by its compartments, as far as they say what they take, or by how
 * many of them have something; else by the number of things it is said to hold.
 *
 * @param roomOf     put-ups a place takes, by place
 * @param holdingOf  what lives or lies in it and everything inside it, by place
 */
export function fillsOf(
  places: readonly Standing[],
  roomOf: ReadonlyMap<string, readonly PutUpRoom[]>,
  holdingOf: ReadonlyMap<string, Holding>,
): Map<string, PlaceFill> {
  const compartmentsOf = new Map<string, Standing[]>()
  for (const place of places) {
    if (place.kind !== 'compartment' || place.parentId === null) continue
    const siblings = compartmentsOf.get(place.parentId)
    if (siblings) siblings.push(place)
    else compartmentsOf.set(place.parentId, [place])
  }
  const byRoom = (id: string) => {
    const room = roomOf.get(id)
    return room && room.length > 0 ? fillByPutUps(room, (holdingOf.get(id) ?? emptyHolding).putUps) : null
  }
  const fills = new Map<string, PlaceFill>()
  for (const { id, capacity } of places) {
    const own = byRoom(id)
    const compartments = compartmentsOf.get(id) ?? []
    const holding = holdingOf.get(id) ?? emptyHolding
    if (own) fills.set(id, { by: 'put-ups', ...own })
    else if (compartments.length > 0) fills.set(id, byCompartments(compartments, capacity, byRoom, holdingOf))
    else if (capacity !== null && capacity > 0) {
      const { here, out, sort } = holding
      fills.set(id, { by: 'things', fill: { filled: BigInt(here + out), whole: BigInt(capacity) }, here, out, capacity, sort })
    }
  }
  return fills
}

function byCompartments(
  compartments: readonly Standing[],
  capacity: number | null,
  byRoom: (id: string) => { fill: Fill } | null,
  holdingOf: ReadonlyMap<string, Holding>,
): PlaceFill {
  const known = compartments.flatMap(({ id }) => byRoom(id)?.fill ?? [])
  if (known.length > 0) {
    const one: Fill = { filled: 1n, whole: 1n }
    const sum = known.reduce((all, fill) => addFills(all, isFullerThan(fill, 100) ? one : fill), nothingOf)
    return {
      ...{ by: 'compartments-room', compartments: compartments.length, unsaid: compartments.length - known.length },
      fill: { filled: sum.filled, whole: sum.whole * BigInt(known.length) },
    }
  }
  const holdings = compartments.map(({ id }) => holdingOf.get(id) ?? emptyHolding)
  const here = holdings.filter((one) => one.here > 0).length
  const out = holdings.filter((one) => one.here === 0 && one.out > 0).length
  const all = Math.max(capacity ?? 0, compartments.length)
  return { by: 'compartments', fill: { filled: BigInt(here + out), whole: BigInt(all) }, here, out, capacity: all }
}

/** The places that are fuller than so many per cent, the fullest first; alike ones as they came. */
export function listFuller<Some extends { id: string }>(
  places: readonly Some[],
  fills: ReadonlyMap<string, PlaceFill>,
  percent: number,
): { place: Some; fill: PlaceFill }[] {
  return places
    .flatMap((place) => {
      const fill = fills.get(place.id)
      return fill && isFullerThan(fill.fill, percent) ? [{ place, fill }] : []
    })
    .sort((a, b) => byFillDescending(a.fill.fill, b.fill.fill))
}
