import 'server-only'
import type { ChartBulkLine, ChartBulkStep } from '#lib/chart/plan-chart-bulk'
import type { Housing } from '#lib/place/new-home'
import { calendarDay } from '#lib/quantity/day'
import { ok, type Result, refused } from '#lib/result'
import { requireWhole } from '../access/whole'
import { chunks } from '../bulk-edit/read-bulk-edit'
import { type BulkRow, bulkInsert, timestamp } from '../bulk-insert'
import { ensureThemes } from '../chart/ensure-themes'
import { settleLines, settleThing } from '../loan/settle-lines'
import { settleSeen } from '../missing/settle-seen'
import { newId } from '../new-id'
import { hasOwner, hasPlace, type NoSuchOwner, type NoSuchPlace } from '../stock/change-batch'
import { write } from '../write'
import type { Write } from '../write-gate'
import { chartStepsText } from './queries'
import { type ChartBulkReading, type ChartBulkRequest, mostDesigns, readChartBulk } from './read-chart-bulk'

export type ChartBulkRefused =
  | NoSuchPlace
  | NoSuchOwner
  | { kind: 'no-such-theme'; themeId: string }
  /** Only the record puts things there. */
  | { kind: 'kept-by-record' }
  | { kind: 'changed-meanwhile' }
  | { kind: 'nothing-changes' }
  | { kind: 'too-many'; count: number; most: number }

export type ChartBulkDone = { bulkEditId: string; changed: number; refused: number; same: number }

/** 20,000 charts take some seconds: the statements are of hundreds each, and the journal goes in by thousands. */
const timeoutMs = 180_000

/**
 * Make one change to many charts or designs in one write, with a movement for every chart it changes, and keep what it takes to undo it.
 *
 * @param request.fingerprint  of the preview the person saw; refused as `changed-meanwhile` when it would now do something else
 */
export function applyChartBulk(
  request: ChartBulkRequest & { what: string; fingerprint?: string | undefined; who?: string | null },
): Promise<Result<ChartBulkDone, ChartBulkRefused>> {
  requireWhole()
  return write<ChartBulkDone, ChartBulkRefused>(async (writing) => {
    const { tx, at } = writing
    const { change, what, who = null } = request
    if (request.designIds.length > mostDesigns)
      return refused({ kind: 'too-many', count: request.designIds.length, most: mostDesigns })
    if (change.kind === 'home') {
      if (!(await hasPlace(tx, change.toPlaceId))) return refused({ kind: 'no-such-place', placeId: change.toPlaceId })
      const place = await tx.place.findUnique({ where: { id: change.toPlaceId }, select: { kind: true } })
      if (place?.kind === 'not found') return refused({ kind: 'kept-by-record' })
    }
    if (change.kind === 'owner' && !(await hasOwner(tx, change.toOwnerId)))
      return refused({ kind: 'no-such-owner', ownerId: change.toOwnerId })
    if (change.kind === 'take-theme' && !(await tx.theme.findUnique({ where: { id: change.themeId }, select: { id: true } })))
      return refused({ kind: 'no-such-theme', themeId: change.themeId })

    const reading = await readChartBulk(tx, request)
    const { lines, versions, outSince, fingerprint } = reading
    if (request.fingerprint !== undefined && request.fingerprint !== fingerprint) return refused({ kind: 'changed-meanwhile' })
    const changing = lines.filter(({ outcome }) => outcome.kind === 'changes')
    if (changing.length === 0) return refused({ kind: 'nothing-changes' })

    const themeId = await writeChange(writing, request, changing, reading)
    const steps = changing.map(
      ({ id, chartId, designId, before }): ChartBulkStep => ({
        ...{ id, chartId, designId, before, versionAfter: (versions.get(id) as number) + 1 },
        ...(outSince.get(id) && { outSince: (outSince.get(id) as Date).toISOString() }),
      }),
    )
    const bulkEditId = newId()
    const kept = chartStepsText({ change, themeId, steps, left: [] })
    await tx.bulkEdit.create({ data: { id: bulkEditId, at, who, what, stepsJson: kept } })
    const count = (kind: 'refused' | 'same') => lines.filter(({ outcome }) => outcome.kind === kind).length
    return ok({ bulkEditId, changed: changing.length, refused: count('refused'), same: count('same') })
  }, timeoutMs)
}

/** Write what changes. @returns the theme that was given or taken */
async function writeChange(
  writing: Write,
  { change, what, who = null }: ChartBulkRequest & { what: string; who?: string | null },
  changing: readonly ChartBulkLine[],
  { outSince, designsOf }: Pick<ChartBulkReading, 'outSince' | 'designsOf'>,
): Promise<string | null> {
  const { tx, at, engine } = writing
  const raise = { version: { increment: 1 } } as const
  const ids = changing.map(({ id }) => id)
  switch (change.kind) {
    case 'home': {
      const { toPlaceId } = change
      for (const isOut of [false, true]) {
        const some = changing.filter((line) => line.isOut === isOut).map(({ id }) => id)
        const data = isOut ? { homePlaceId: toPlaceId } : { homePlaceId: toPlaceId, currentPlaceId: toPlaceId, outSince: null }
        await inParts(some, (id) => tx.chart.updateMany({ where: { id }, data: { ...data, ...raise } }))
      }
      // Laid down without a home before, it is out from now on.
      const fromNow = changing.filter(({ id, isOut }) => isOut && (outSince.get(id) ?? null) === null).map(({ id }) => id)
      await inParts(fromNow, (id) => tx.chart.updateMany({ where: { id }, data: { outSince: at } }))
      await journal(
        writing,
        changing.map(({ chartId, before, isOut }) => {
          const was = before as Housing
          // What stays where it is was not moved; the journal says which home it got.
          const fromPlaceId = isOut ? was.homePlaceId : was.currentPlaceId
          return { kind: 'move', chartId, fromPlaceId, toPlaceId, who, reason: what }
        }),
      )
      // What was out in the very place that is its home now is back.
      const back = changing.filter(({ id, isOut }) => !isOut && outSince.get(id))
      await settle(
        writing,
        back.map(({ id }) => id),
        { isBackAt: toPlaceId, who },
      )
      break
    }
    case 'owner':
      await inParts(ids, (id) => tx.chart.updateMany({ where: { id }, data: { ownerId: change.toOwnerId, ...raise } }))
      await journal(
        writing,
        changing.map(({ chartId, before }) => ({
          ...{ kind: 'transfer', chartId, fromOwnerId: before as string, toOwnerId: change.toOwnerId, who, reason: what },
        })),
      )
      await settle(writing, ids, { isBackAt: null, who })
      break
    case 'gone': {
      const rows: BulkRow[] = []
      for (const some of chunks(ids)) {
        const charts = await tx.chart.findMany({
          where: { id: { in: some } },
          select: { id: true, copies: true, currentPlaceId: true, ownerId: true },
        })
        for (const { id, copies, currentPlaceId, ownerId } of charts) {
          const kind = change.ending === 'passed on' ? 'transfer' : 'correct'
          rows.push({
            ...{ kind, chartId: id, wholeDelta: -copies, fromPlaceId: currentPlaceId, fromOwnerId: ownerId },
            ...{ who, reason: change.ending },
          })
        }
        await tx.chart.updateMany({ where: { id: { in: some } }, data: { goneAt: at, outSince: null, ...raise } })
      }
      await journal(writing, rows)
      await settle(writing, ids, { isBackAt: null, who })
      break
    }
    case 'add-theme': {
      const names = { season: [], subject: [], form: [], [change.axis]: [change.name] }
      const [themeId] = await ensureThemes(writing, names)
      if (themeId === undefined) throw new TypeError(`writeChange: no theme is called "${change.name}"`)
      const rows = ids.map((designId) => ({ designId, themeId }))
      await bulkInsert(tx, engine, 'DesignTheme', rows)
      await raiseDesigns(writing, ids)
      return themeId
    }
    case 'take-theme':
      await inParts(ids, (designId) => tx.designTheme.deleteMany({ where: { themeId: change.themeId, designId } }))
      await raiseDesigns(writing, ids)
      return change.themeId
    case 'stars':
      await inParts(ids, (id) => tx.project.updateMany({ where: { id }, data: { stars: change.stars, ...raise } }))
      for (const id of ids) writing.touch('project', id)
      return null
  }
  touchCharts(writing, ids, designsOf)
  return null
}

/** Some hundreds of ids a statement. */
export async function inParts(ids: readonly string[], work: (id: { in: string[] }) => Promise<unknown>): Promise<void> {
  for (const some of chunks(ids)) await work({ in: some })
}

export async function raiseDesigns({ tx, touch }: Write, ids: readonly string[]): Promise<void> {
  await inParts(ids, (id) => tx.design.updateMany({ where: { id }, data: { version: { increment: 1 } } }))
  for (const id of ids) touch('design', id)
}

export function touchCharts({ touch }: Write, ids: readonly string[], designsOf: ReadonlyMap<string, readonly string[]>): void {
  for (const id of ids) {
    touch('chart', id)
    for (const designId of designsOf.get(id) ?? []) touch('design', designId)
  }
}

/** Lines of the journal, all of one shape. */
export async function journal({ tx, engine, revision, at }: Write, rows: readonly BulkRow[]): Promise<void> {
  const stamped = rows.map((row) => ({ id: newId(), revision, at: timestamp(at), ...row }))
  await bulkInsert(tx, engine, 'Movement', stamped)
}

/**
 * Loans and open questions of those few charts that have one.
 *
 * @param isBackAt  the place they are back in; null where they were not moved
 */
async function settle(
  { tx, at }: Write,
  chartIds: readonly string[],
  { isBackAt, who }: { isBackAt: string | null; who: string | null },
): Promise<void> {
  const on = calendarDay(at)
  for (const some of chunks(chartIds)) {
    const chartId = { in: some }
    const [lent, missing] = await Promise.all([
      tx.loanLine.findMany({ where: { chartId, backOn: null, loan: { closedOn: null } }, select: { chartId: true } }),
      tx.missingThing.findMany({ where: { chartId, status: 'open' }, select: { chartId: true } }),
    ])
    // A handful at most, each with a loan or a question of its own.
    for (const id of new Set(lent.map((line) => line.chartId as string))) {
      if (isBackAt !== null) await settleLines(tx, { chartId: id }, { fromPlaceId: isBackAt, on })
      await settleThing(tx, { chartId: id }, on)
    }
    for (const id of new Set(missing.map((thing) => thing.chartId as string))) await settleSeen({ tx, at }, { chartId: id }, who)
  }
}
