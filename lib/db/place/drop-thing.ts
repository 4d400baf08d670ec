import 'server-only'
import { type DropMeaning, dropMeans } from '#lib/place/drop'
import type { PlaceKind } from '#lib/place/place'
import { ok, type Result, refused } from '#lib/result'
import type { ChartRefusal } from '../chart/chart-refusal'
import { moveChart } from '../chart/move-chart'
import { database } from '../client'
import { type MoveRefused, moveBatch } from '../stock/move-batch'
import { placeTagColumns } from './place-rows'

/** A row that was dragged: a chart, a design for its chart, or a thread for the one batch of it. */
export type Dragged = { noun: 'chart' | 'design' | 'thread'; id: string }

/** A thing of one line of stock, as it lay before it was moved. */
export type Lay = { noun: 'chart' | 'batch'; id: string; homePlaceId: string | null; currentPlaceId: string | null }

export type Dropped = { meaning: DropMeaning; label: string; before: Lay }

export type DropRefused =
  | Extract<ChartRefusal, { kind: 'changed-meanwhile' | 'is-a-file' | 'is-lending' | 'kept-by-record' | 'already-there' }>
  | MoveRefused
  | { kind: 'no-such-thing' }
  /** A thread that lies in several places: which of them is meant is not said by its row. */
  | { kind: 'several-batches'; threadId: string; count: number }

const layColumns = { id: true, version: true, homePlaceId: true, currentPlaceId: true } as const

/**
 * Put what was dragged into a place: the ordinary move of a chart or a batch, by what the kind of place means (`dropMeans`).
 *
 * @param asked.fromPlaceId  the place on whose page the row stood: of a thread the batch that is there, or in one of its compartments
 * @param asked.ownerIds     whose goods the page showed
 */
export async function dropThing(asked: {
  dragged: Dragged
  toPlaceId: string
  fromPlaceId: string | null
  ownerIds: readonly string[]
}): Promise<Result<Dropped, DropRefused>> {
  const { dragged, toPlaceId, fromPlaceId, ownerIds } = asked
  const { prisma } = database()
  const place = await prisma.place.findFirst({ where: { id: toPlaceId, goneAt: null }, ...placeTagColumns })
  if (!place) return refused({ kind: 'no-such-place', placeId: toPlaceId })
  const meaning = dropMeans(place.kind as PlaceKind)
  const { label } = place

  if (dragged.noun === 'thread') {
    const batches = await prisma.batch.findMany({
      where: {
        threadId: dragged.id,
        ownerId: { in: [...ownerIds] },
        goneAt: null,
        OR: [{ wholePutUps: { gt: 0 } }, { partCertainty: { not: 'none' } }],
        ...(fromPlaceId !== null && {
          currentPlace: { is: { OR: [{ id: fromPlaceId }, { parentId: fromPlaceId, kind: 'compartment' }] } },
        }),
      },
      select: layColumns,
    })
    const [batch] = batches
    if (!batch) return refused({ kind: 'no-such-thing' })
    if (batches.length > 1) return refused({ kind: 'several-batches', threadId: dragged.id, count: batches.length })
    const { id, version, homePlaceId, currentPlaceId } = batch
    const moved = await moveBatch({ batchId: id, version, toPlaceId, becomesHome: meaning === 'home' })
    return moved.ok ? ok({ meaning, label, before: { noun: 'batch', id, homePlaceId, currentPlaceId } }) : moved
  }

  const chart = await prisma.chart.findFirst({
    where: dragged.noun === 'chart' ? { id: dragged.id, goneAt: null } : { designs: { some: { id: dragged.id } }, goneAt: null },
    select: layColumns,
  })
  if (!chart) return refused({ kind: 'no-such-thing' })
  const { id, version, homePlaceId, currentPlaceId } = chart
  const moved = await moveChart({ id, version, toPlaceLabel: label, how: meaning, reason: null })
  return moved.ok ? ok({ meaning, label, before: { noun: 'chart', id, homePlaceId, currentPlaceId } }) : moved
}

/**
 * Put a thing back as it lay: where it lived, and where it was if that was elsewhere. The journal keeps both ways. What had no place at
 * all before cannot be put back there.
 */
export async function putAsItLay(lay: Lay): Promise<Result<null, DropRefused>> {
  const { prisma } = database()
  const homeId = lay.homePlaceId ?? lay.currentPlaceId
  if (homeId === null) return refused({ kind: 'no-such-thing' })
  const hereId = lay.currentPlaceId ?? homeId
  const steps: { toPlaceId: string; how: DropMeaning }[] = [
    { toPlaceId: homeId, how: 'home' },
    ...(hereId === homeId ? [] : [{ toPlaceId: hereId, how: 'take' as const }]),
  ]
  for (const { toPlaceId, how } of steps) {
    const done =
      lay.noun === 'batch'
        ? await moveBatch({ batchId: lay.id, toPlaceId, becomesHome: how === 'home' })
        : await moveChartTo(lay.id, toPlaceId, how)
    if (!done.ok && done.error.kind !== 'already-there') return done
  }
  return ok(null)

  async function moveChartTo(id: string, toPlaceId: string, how: DropMeaning): Promise<Result<null, DropRefused>> {
    const [chart, place] = await Promise.all([
      prisma.chart.findFirst({ where: { id, goneAt: null }, select: { version: true } }),
      prisma.place.findFirst({ where: { id: toPlaceId, goneAt: null }, select: { label: true } }),
    ])
    if (!chart) return refused({ kind: 'no-such-thing' })
    if (!place) return refused({ kind: 'no-such-place', placeId: toPlaceId })
    return moveChart({ id, version: chart.version, toPlaceLabel: place.label, how, reason: null })
  }
}
