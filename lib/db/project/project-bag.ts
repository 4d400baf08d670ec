import 'server-only'
import { calendarDay } from '#lib/quantity/day'
import type { StockChange } from '#lib/stock/stock-change'
import type { Transaction } from '../client'
import { settleLines, settleThing } from '../loan/settle-lines'
import { settleSeen } from '../missing/settle-seen'
import { newId } from '../new-id'
import { ensurePlace } from '../place/ensure-place'
import { readBatches, type StockSnapshot } from '../stock/apply-stock-change'
import type { Write } from '../write-gate'
import type { ProjectSnapshot } from './project-row'

/** The place a project's kit goes to, by its label; a label that is new becomes a bag. */
export const ensureBag = (write: Write, label: string): Promise<string> => ensurePlace(write, label, { kind: 'bag' })

/** Every batch that is this project's business: what it was promised, and what was carried to its bag for it. */
export const readKit = (tx: Transaction, project: Pick<ProjectSnapshot, 'id' | 'placeId'>): Promise<StockSnapshot> =>
  readBatches(tx, {
    // What is being looked for is in nobody's bag; what is on a list to be put back is on its way home.
    missing: { none: { status: 'open' } },
    OR: [
      { promises: { some: { projectId: project.id } } },
      ...(project.placeId === null
        ? []
        : [
            {
              currentPlaceId: project.placeId,
              movements: { some: { projectId: project.id, kind: 'take' } },
              walkLines: { none: { carriedAt: null, walk: { kind: 'put-back', status: 'open' } } },
            },
          ]),
    ],
  })

/** Changes of different batches as one. */
export const joinChanges = (changes: readonly StockChange[]): StockChange => ({
  batches: changes.flatMap((change) => change.batches),
  movements: changes.flatMap((change) => change.movements),
  promises: changes.flatMap((change) => change.promises),
})

type Carried = { projectId: string; who?: string | null }

/** Carry a project's piece of cloth to its bag. A piece that is gone or there already stays as it is. */
export async function takeClothAlong(write: Write, clothPieceId: string, toPlaceId: string, carried: Carried): Promise<void> {
  const { tx, at, touch } = write
  const piece = await tx.clothPiece.findFirst({
    where: { id: clothPieceId, goneAt: null, NOT: { currentPlaceId: toPlaceId } },
    select: { homePlaceId: true, currentPlaceId: true, outSince: true },
  })
  if (!piece) return
  const isAtHome = piece.homePlaceId === null || piece.homePlaceId === toPlaceId
  await tx.clothPiece.update({
    where: { id: clothPieceId },
    data: { currentPlaceId: toPlaceId, outSince: isAtHome ? null : (piece.outSince ?? at), version: { increment: 1 } },
  })
  touch('cloth', clothPieceId)
  await writeCarried(write, { kind: 'take', clothPieceId, from: piece.currentPlaceId, to: toPlaceId }, carried)
}

/** Carry the chart to the bag. A file has no place, and several copies cannot be told apart: those stay. */
export async function takeChartAlong(write: Write, chartId: string, toPlaceId: string, carried: Carried): Promise<void> {
  const { tx, at } = write
  const chart = await tx.chart.findFirst({
    where: { id: chartId, goneAt: null, copies: 1, kind: { not: 'file' }, NOT: { currentPlaceId: toPlaceId } },
    select: { homePlaceId: true, currentPlaceId: true, outSince: true },
  })
  if (!chart) return
  const isAtHome = chart.homePlaceId === null || chart.homePlaceId === toPlaceId
  await tx.chart.update({
    where: { id: chartId },
    data: { currentPlaceId: toPlaceId, outSince: isAtHome ? null : (chart.outSince ?? at), version: { increment: 1 } },
  })
  await touchChart(write, chartId)
  await writeCarried(write, { kind: 'take', chartId, from: chart.currentPlaceId, to: toPlaceId }, carried)
}

/** Put cloth and chart that lie in a project's bag back where they live. What has no home stays in the bag, what is looked for is not there. */
export async function putClothBack(write: Write, clothPieceId: string, fromPlaceId: string, carried: Carried): Promise<void> {
  const piece = await write.tx.clothPiece.findFirst({
    where: { id: clothPieceId, goneAt: null, currentPlaceId: fromPlaceId, missing: { none: { status: 'open' } } },
    select: { homePlaceId: true },
  })
  if (!piece?.homePlaceId || piece.homePlaceId === fromPlaceId) return
  await write.tx.clothPiece.update({
    where: { id: clothPieceId },
    data: { currentPlaceId: piece.homePlaceId, outSince: null, version: { increment: 1 } },
  })
  write.touch('cloth', clothPieceId)
  await writeCarried(write, { kind: 'return', clothPieceId, from: fromPlaceId, to: piece.homePlaceId }, carried)
}

/** As `putClothBack`, for the chart; one that another project in the same bag is worked from stays there. */
export async function putChartBack(write: Write, chartId: string, fromPlaceId: string, carried: Carried): Promise<void> {
  const { tx } = write
  const chart = await tx.chart.findFirst({
    where: {
      ...{ id: chartId, goneAt: null, currentPlaceId: fromPlaceId },
      movements: { some: { projectId: carried.projectId } },
      missing: { none: { status: 'open' } },
    },
    select: { homePlaceId: true },
  })
  if (!chart?.homePlaceId || chart.homePlaceId === fromPlaceId) return
  await tx.chart.update({
    where: { id: chartId },
    data: { currentPlaceId: chart.homePlaceId, outSince: null, version: { increment: 1 } },
  })
  await touchChart(write, chartId)
  await writeCarried(write, { kind: 'return', chartId, from: fromPlaceId, to: chart.homePlaceId }, carried)
}

/** A chart's row is read by the answers of its designs too. */
async function touchChart({ tx, touch }: Write, chartId: string): Promise<void> {
  touch('chart', chartId)
  for (const { id } of await tx.design.findMany({ where: { chartId }, select: { id: true } })) touch('design', id)
}

type CarriedThing = { kind: 'take' | 'return'; from: string | null; to: string } & (
  | { clothPieceId: string }
  | { chartId: string }
)

async function writeCarried({ tx, at, revision }: Write, thing: CarriedThing, carried: Carried): Promise<void> {
  const { kind, from, to, ...what } = thing
  const { projectId, who = null } = carried
  await settleSeen({ tx, at }, what, who)
  if ('chartId' in what) await settleLines(tx, what, { fromPlaceId: from, on: calendarDay(at) })
  else await settleThing(tx, what, calendarDay(at))
  await tx.movement.create({
    data: { id: newId(), revision, at, kind, ...what, fromPlaceId: from, toPlaceId: to, projectId, who },
  })
}
