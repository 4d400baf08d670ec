import 'server-only'
import type { Housing } from '#lib/place/merge-places'
import { isOut } from '#lib/stock/batch'
import { doerName } from '../access/doer'
import { chunks } from '../bulk-edit/read-bulk-edit'
import { bulkInsert, timestamp } from '../bulk-insert'
import type { Transaction } from '../client'
import { newId } from '../new-id'
import type { ChangedNoun, Write } from '../write-gate'

export const housedNouns = ['thread', 'cloth', 'chart', 'notion'] as const
export type HousedNoun = (typeof housedNouns)[number]

/** A batch of thread, a piece of cloth, a chart or a notion, with no more than where it is. */
export type HousedThing = Housing & { noun: HousedNoun; id: string; version: number; outSince: Date | null }

const columns = { id: true, version: true, homePlaceId: true, currentPlaceId: true, outSince: true } as const
type Where = { OR?: { homePlaceId?: string; currentPlaceId?: string }[]; id?: { in: string[] } }

async function readNoun(tx: Transaction, noun: HousedNoun, where: Where): Promise<HousedThing[]> {
  const asked = { where: { ...where, goneAt: null }, select: columns, orderBy: { id: 'asc' } } as const
  const rows = await {
    thread: () => tx.batch.findMany(asked),
    cloth: () => tx.clothPiece.findMany(asked),
    chart: () => tx.chart.findMany(asked),
    notion: () => tx.notion.findMany(asked),
  }[noun]()
  return rows.map((row) => ({ noun, ...row }))
}

/** Everybody's goods that live or lie in a place itself. */
export async function readHousedIn(tx: Transaction, placeId: string): Promise<HousedThing[]> {
  const things: HousedThing[] = []
  for (const noun of housedNouns)
    things.push(...(await readNoun(tx, noun, { OR: [{ homePlaceId: placeId }, { currentPlaceId: placeId }] })))
  return things
}

/** These things, as far as they are still there. */
export async function readHoused(
  tx: Transaction,
  things: readonly { noun: HousedNoun; id: string }[],
): Promise<Map<string, HousedThing>> {
  const found = new Map<string, HousedThing>()
  for (const noun of housedNouns)
    for (const some of chunks(things.filter((thing) => thing.noun === noun)))
      for (const thing of await readNoun(tx, noun, { id: { in: some.map(({ id }) => id) } })) found.set(thingKey(thing), thing)
  return found
}

export const thingKey = ({ noun, id }: { noun: HousedNoun; id: string }): string => `${noun} ${id}`

export type Rehousing = { thing: HousedThing; after: Housing; fromPlaceId: string | null; toPlaceId: string | null }

/**
 * Give things read in this same write another home or another place to lie in, each with its line of the journal. What is out stays out
 * since the day it left; what is home again is out no more.
 *
 * @returns the things as they are then, in their order
 */
export async function rehouseThings(
  write: Write,
  moves: readonly Rehousing[],
  { reason, who }: { reason: string; who: string | null },
): Promise<HousedThing[]> {
  const { tx, at } = write
  const after = moves.map(({ thing, after: housing }) => ({
    ...thing,
    ...housing,
    version: thing.version + 1,
    outSince: isOut(housing) ? (thing.outSince ?? at) : null,
  }))
  const alike = new Map<string, HousedThing[]>()
  for (const thing of after) {
    const key = JSON.stringify([thing.noun, thing.homePlaceId, thing.currentPlaceId, thing.outSince])
    const group = alike.get(key)
    if (group) group.push(thing)
    else alike.set(key, [thing])
  }
  for (const group of alike.values()) {
    const { noun, homePlaceId, currentPlaceId, outSince } = group[0] as HousedThing
    for (const some of chunks(group)) {
      const change = {
        where: { id: { in: some.map(({ id }) => id) } },
        data: { homePlaceId, currentPlaceId, outSince, version: { increment: 1 } },
      }
      await {
        thread: () => tx.batch.updateMany(change),
        cloth: () => tx.clothPiece.updateMany(change),
        chart: () => tx.chart.updateMany(change),
        notion: () => tx.notion.updateMany(change),
      }[noun]()
    }
  }
  await journal(write, moves, { reason, who })
  await touchThings(write, after)
  return after
}

const idColumns = { thread: 'batchId', cloth: 'clothPieceId', chart: 'chartId', notion: 'notionId' } as const

async function journal(
  { tx, engine, revision, at }: Write,
  moves: readonly Rehousing[],
  { reason, who }: { reason: string; who: string | null },
): Promise<void> {
  for (const noun of housedNouns) {
    const lines = moves
      .filter(({ thing }) => thing.noun === noun)
      .map(({ thing, fromPlaceId, toPlaceId }) => ({
        ...{ id: newId(), revision, at: timestamp(at), kind: 'move', wholeDelta: 0, partDeltaStrandTenths: 0 },
        ...{ [idColumns[noun]]: thing.id, fromPlaceId, toPlaceId, who: who ?? doerName(null), reason },
      }))
    await bulkInsert(tx, engine, 'Movement', lines)
  }
}

const changedNouns: Record<HousedNoun, ChangedNoun> = { thread: 'batch', cloth: 'cloth', chart: 'chart', notion: 'notion' }

async function touchThings({ tx, touch }: Write, things: readonly HousedThing[]): Promise<void> {
  for (const { noun, id } of things) touch(changedNouns[noun], id)
  for (const charts of chunks(things.filter(({ noun }) => noun === 'chart'))) {
    const designs = await tx.design.findMany({ where: { chartId: { in: charts.map(({ id }) => id) } }, select: { id: true } })
    for (const { id } of designs) touch('design', id)
  }
}
