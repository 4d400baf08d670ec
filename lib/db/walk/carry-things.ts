import 'server-only'
import { calendarDay } from '#lib/quantity/day'
import { isOut } from '#lib/stock/batch'
import { journalChart } from '../chart/claim-chart'
import { journalCloth } from '../cloth/claim-cloth'
import { settleLines } from '../loan/settle-lines'
import { claimNotion } from '../notion/claim-notion'
import { layNotionBack } from '../notion/put-back-notion'
import { carryToProject } from '../notion/take-notion'
import type { Write } from '../write-gate'

/**
 * Put a piece of cloth or a chart back where it lives; what has no home comes to live where the list says. What lies there already, or is
 * gone, is left as it is.
 *
 * @returns false when it has no home and the list names none
 */
export async function putThingBack(
  writing: Write,
  thing: {
    clothPieceId: string | null
    chartId: string | null
    projectId: string | null
    toPlaceId: string | null
    who: string | null
  },
): Promise<boolean> {
  const { tx, touch } = writing
  const { clothPieceId, chartId, projectId, who } = thing
  const columns = { homePlaceId: true, currentPlaceId: true } as const
  const id = clothPieceId ?? chartId ?? ''
  const where = { id, goneAt: null }
  const row = clothPieceId
    ? await tx.clothPiece.findFirst({ where, select: columns })
    : await tx.chart.findFirst({ where, select: columns })
  if (!row) return true
  const homePlaceId = row.homePlaceId ?? thing.toPlaceId
  if (homePlaceId === null) return false
  if (row.currentPlaceId === homePlaceId && row.homePlaceId === homePlaceId) return true
  const data = { homePlaceId, currentPlaceId: homePlaceId, outSince: null, version: { increment: 1 } }
  const places = { fromPlaceId: row.currentPlaceId, toPlaceId: homePlaceId, projectId, who }
  await settleLines(tx, clothPieceId ? { clothPieceId } : { chartId: id }, {
    fromPlaceId: row.currentPlaceId,
    on: calendarDay(writing.at),
  })
  if (clothPieceId) {
    await tx.clothPiece.update({ where: { id }, data })
    await journalCloth(writing, { kind: 'return', clothPieceId, ...places })
    touch('cloth', id)
    return true
  }
  await tx.chart.update({ where: { id }, data })
  await journalChart(writing, { kind: 'return', chartId: id, ...places })
  touch('chart', id)
  for (const design of await tx.design.findMany({ where: { chartId: id }, select: { id: true } })) touch('design', design.id)
  return true
}

/** Put a notion back where it lives, free again. One that is gone is left as it is. @returns true: what has no home is free where it is */
export async function putNotionHome(writing: Write, id: string): Promise<boolean> {
  const row = await writing.tx.notion.findFirst({ where: { id, goneAt: null }, select: { version: true } })
  if (!row) return true
  const held = await claimNotion(writing, { id, ...row })
  if (!held.ok) return false
  const { projectId, currentPlaceId } = held.value
  if (projectId === null && !isOut(held.value)) return true
  await layNotionBack(writing, held.value)
  await settleLines(writing.tx, { notionId: id }, { fromPlaceId: currentPlaceId, on: calendarDay(writing.at) })
  return true
}

/**
 * Carry a notion into a project's bag: what is in use for it already goes along, of what is free as many as are wanted.
 *
 * @returns false when there are not so many free
 */
export async function takeNotionAlong(
  writing: Write,
  id: string,
  take: { projectId: string; many: number; placeId: string; who: string | null },
): Promise<boolean> {
  const row = await writing.tx.notion.findFirst({
    where: { id, goneAt: null },
    select: { version: true, count: true, projectId: true, currentPlaceId: true },
  })
  if (!row) return false
  const isTheirs = row.projectId === take.projectId
  if (row.projectId !== null && !isTheirs) return false
  if (isTheirs && row.currentPlaceId === take.placeId) return true
  if (!isTheirs && row.count < take.many) return false
  const held = await claimNotion(writing, { id, version: row.version })
  if (!held.ok) return false
  await carryToProject(writing, held.value, { ...take, many: isTheirs ? row.count : take.many })
  return true
}
