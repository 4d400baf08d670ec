import 'server-only'
import { isPeople, type PlaceKind } from '#lib/place/place'
import { calendarDay } from '#lib/quantity/day'
import { ok, type Result, refused } from '#lib/result'
import type { Prisma } from '../generated/sqlite/client'
import { settleThing } from '../loan/settle-lines'
import { seenKinds, settleSeen } from '../missing/settle-seen'
import { newId } from '../new-id'
import { ensurePlace } from '../place/ensure-place'
import { findMeant } from '../place/look-up-label'
import { refuseKeptByRecord } from '../place/refuse-kept-by-record'
import type { Write } from '../write-gate'
import type { ChartRefusal } from './chart-refusal'

const heldColumns = {
  id: true,
  title: true,
  titleKey: true,
  kind: true,
  ownerId: true,
  copies: true,
  homePlaceId: true,
  currentPlaceId: true,
  outSince: true,
  currentPlace: { select: { kind: true } },
  designs: { select: { id: true, titleKey: true }, orderBy: [{ position: 'asc' }, { id: 'asc' }] },
} as const satisfies Prisma.ChartSelect

export type HeldChart = Prisma.ChartGetPayload<{ select: typeof heldColumns }>

/**
 * The chart as it stands, claimed for this write: its version goes up by one, and it and its designs are touched. Refused when
 * somebody was there first, or it is gone (with `isGone`: when it is not).
 */
export async function claimChart(
  { tx, touch }: Pick<Write, 'tx' | 'touch'>,
  { id, version, isGone = false }: { id: string; version: number; isGone?: boolean },
): Promise<Result<HeldChart, Extract<ChartRefusal, { kind: 'changed-meanwhile' }>>> {
  const claimed = await tx.chart.updateMany({
    where: { id, version, goneAt: isGone ? { not: null } : null },
    data: { version: { increment: 1 } },
  })
  if (claimed.count === 0) return refused({ kind: 'changed-meanwhile' })
  const chart = await tx.chart.findUniqueOrThrow({ where: { id }, select: heldColumns })
  touch('chart', id)
  for (const design of chart.designs) touch('design', design.id)
  return ok(chart)
}

/**
 * One line of the journal about a chart. Its `wholeDelta`s sum to its copies while it is held and to 0 once it is gone.
 */
export async function journalChart(
  { tx, revision, at }: Pick<Write, 'tx' | 'revision' | 'at'>,
  movement: Omit<Prisma.MovementUncheckedCreateInput, 'id' | 'revision' | 'at' | 'chartId'> & { chartId: string },
): Promise<void> {
  const { chartId, kind, who = null } = movement
  if (seenKinds.some((seen) => seen === kind)) await settleSeen({ tx, at }, { chartId }, who)
  await settleThing(tx, { chartId }, calendarDay(at))
  await tx.movement.create({ data: { id: newId(), revision, at, ...movement } })
}

/** The place with that label, made when it is new. A file goes to nobody, and nothing where only the record puts things. */
export async function ensureChartPlace(
  open: Write,
  { label, chartKind }: { label: string; chartKind: string },
): Promise<Result<{ id: string; kind: string; label: string }, Extract<ChartRefusal, { kind: 'is-a-file' | 'kept-by-record' }>>> {
  const { tx } = open
  const known = await findMeant(label, tx)
  if (chartKind === 'file' && known && isPeople(known.kind as PlaceKind)) return refused({ kind: 'is-a-file' })
  const mayGo = await refuseKeptByRecord(open, label)
  if (!mayGo.ok) return mayGo
  const id = await ensurePlace(open, label)
  return ok(await tx.place.findUniqueOrThrow({ where: { id }, select: { id: true, kind: true, label: true } }))
}
