import 'server-only'
import type { Place } from '#lib/place/place'
import { walkRanks } from '#lib/place/walk-order'
import { thingKey, type WalkThing } from '#lib/project/walk'
import type { Transaction } from '../client'
import { readPlacesAround } from '../project/queries'
import { readInParts } from './in-parts'

/** Where a thing is, where it lives, and what its label says. */
type WalkedThing = { maker: string; code: string; placeId: string | null; homePlaceId: string | null }

/** The things of a list by their id, those that are gone too. */
export async function readWalkedThings(tx: Transaction, things: readonly WalkThing[]): Promise<Map<string, WalkedThing>> {
  const lies = { id: true, homePlaceId: true, currentPlaceId: true } as const
  const read = new Map<string, WalkedThing>()
  const add = (
    row: { id: string; homePlaceId: string | null; currentPlaceId: string | null },
    label: Pick<WalkedThing, 'maker' | 'code'>,
  ) => read.set(row.id, { ...label, placeId: row.currentPlaceId ?? row.homePlaceId, homePlaceId: row.homePlaceId })

  const batches = await readInParts(
    things.map(({ batchId }) => batchId),
    (ids) => tx.batch.findMany({ where: { id: { in: ids } }, select: { ...lies, threadId: true } }),
  )
  const threads = await readInParts(
    batches.map(({ threadId }) => threadId),
    (ids) =>
      tx.thread.findMany({
        where: { id: { in: ids } },
        select: { id: true, code: true, line: { select: { maker: { select: { name: true } } } } },
      }),
  )
  const threadOf = new Map(threads.map((thread) => [thread.id, thread]))
  for (const batch of batches) {
    const thread = threadOf.get(batch.threadId)
    add(batch, { maker: thread?.line.maker.name ?? '', code: thread?.code ?? '' })
  }
  const pieces = await readInParts(
    things.map(({ clothPieceId }) => clothPieceId),
    (ids) => tx.clothPiece.findMany({ where: { id: { in: ids } }, select: { ...lies, name: true } }),
  )
  for (const piece of pieces) add(piece, { maker: '', code: piece.name })
  const charts = await readInParts(
    things.map(({ chartId }) => chartId),
    (ids) => tx.chart.findMany({ where: { id: { in: ids } }, select: { ...lies, title: true } }),
  )
  for (const chart of charts) add(chart, { maker: '', code: chart.title })
  const notions = await readInParts(
    things.map(({ notionId }) => notionId),
    (ids) => tx.notion.findMany({ where: { id: { in: ids } }, select: { ...lies, name: true } }),
  )
  for (const notion of notions) add(notion, { maker: '', code: notion.name })
  return read
}

/** The turn of each of these places in the walk past all of them. */
export async function readWalkRanks(tx: Transaction, placeIds: readonly (string | null)[]): Promise<Map<string, number>> {
  const places: [string, Place][] = await readInParts(placeIds, async (ids) => [...(await readPlacesAround(tx, ids))])
  return walkRanks([...new Map(places).values()])
}

/** A line with what it takes to put it in its order. `goal`: one goes to where it belongs, not to where it lies. */
export function stopOf<Line extends WalkThing & { projectId: string | null; toPlaceId: string | null }>(
  line: Line,
  things: ReadonlyMap<string, WalkedThing>,
  goal: boolean,
): Line & { maker: string; code: string; placeId: string | null } {
  const thing = things.get(thingKey(line))
  const placeId = goal ? (line.toPlaceId ?? thing?.homePlaceId ?? null) : (thing?.placeId ?? null)
  return { ...line, maker: thing?.maker ?? '', code: thing?.code ?? '', placeId }
}
