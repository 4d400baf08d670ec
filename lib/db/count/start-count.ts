import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { countLinesOf } from '#lib/stock/stocktake'
import { bulkInsert } from '../bulk-insert'
import { newId } from '../new-id'
import { beyondSight } from '../sight/sighted-client'
import { write } from '../write'
import type { StartRefused } from './count-refusal'

/** More lines than this are more than one walk: the places inside are counted one at a time. */
export const mostLines = 1_000

/**
 * Begin to count a place with everything inside it: a line for every batch the record has there now.
 *
 * @returns `already-counting` when a count that is not signed off covers any of it: two counts would correct one another.
 */
export function startCount(input: {
  placeId: string
  /** Left out: what the place's label says. */
  title?: string | null
  by: string
}): Promise<Result<{ countId: string; lines: number }, StartRefused>> {
  return write<{ countId: string; lines: number }, StartRefused>(async ({ tx, engine, at }) => {
    const place = await tx.place.findFirst({ where: { id: input.placeId, goneAt: null }, select: { label: true, path: true } })
    if (!place) return refused({ kind: 'no-such-place' })
    const underWay = await beyondSight(tx).stockCount.findMany({
      where: { status: { in: ['open', 'counted'] } },
      select: { id: true, title: true, place: { select: { label: true, path: true } } },
      orderBy: { id: 'asc' },
    })
    const other = underWay.find(({ place: { path } }) => path.startsWith(place.path) || place.path.startsWith(path))
    if (other) {
      // A count of goods that are not seen is told by the place alone.
      const isSeen = (await tx.stockCount.count({ where: { id: other.id } })) > 0
      return refused({ kind: 'already-counting', countId: other.id, title: isSeen ? other.title : other.place.label })
    }

    const isInside = { path: { startsWith: place.path } }
    const [places, batches] = [
      await tx.place.findMany({ where: isInside, select: { id: true } }),
      await tx.batch.findMany({
        where: {
          goneAt: null,
          OR: [{ currentPlace: isInside }, { currentPlaceId: null, homePlace: isInside }],
          // What was last seen here and is being looked for is an open question, not an error of the count.
          missing: { none: { status: 'open' } },
        },
        select: { id: true, wholePutUps: true, partCertainty: true, homePlaceId: true, currentPlaceId: true },
        orderBy: { id: 'asc' },
      }),
    ]
    const lines = countLinesOf(
      batches.map((batch) => ({ ...batch, partCertainty: batch.partCertainty === 'none' ? 'none' : 'some' })),
      new Set(places.map(({ id }) => id)),
    )
    if (lines.length === 0) return refused({ kind: 'nothing-there' })
    if (lines.length > mostLines) return refused({ kind: 'too-many', lines: lines.length, most: mostLines })
    const countId = newId()
    await tx.stockCount.create({
      data: { id: countId, title: input.title ?? place.label, placeId: input.placeId, startedAt: at, startedBy: input.by },
    })
    await bulkInsert(
      tx,
      engine,
      'StockCountLine',
      lines.map((line) => ({ id: newId(), countId, ...line })),
    )
    return ok({ countId, lines: lines.length })
  })
}
