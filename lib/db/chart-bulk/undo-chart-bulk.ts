import 'server-only'
import { type ChartBulkLeft, type ChartBulkStep, isOfCharts, planChartBulkUndo } from '#lib/chart/plan-chart-bulk'
import { ok, type Result, refused } from '#lib/result'
import { requireWhole } from '../access/whole'
import { chunks } from '../bulk-edit/read-bulk-edit'
import { bulkInsert } from '../bulk-insert'
import { write } from '../write'
import type { Write } from '../write-gate'
import { inParts, journal, raiseDesigns, touchCharts } from './apply-chart-bulk'
import { chartStepsText, type KeptChartBulk, ofCharts, readChartSteps } from './queries'

export type ChartBulkUndoRefused = { kind: 'no-such-edit'; bulkEditId: string } | { kind: 'already-undone'; bulkEditId: string }

export type ChartBulkUndone = { takenBack: number; left: ChartBulkLeft[] }

const timeoutMs = 180_000

/** Take a change of many charts back in one write; what was changed since is left alone and named. */
export function undoChartBulk(input: {
  bulkEditId: string
  who?: string | null
}): Promise<Result<ChartBulkUndone, ChartBulkUndoRefused>> {
  requireWhole()
  return write<ChartBulkUndone, ChartBulkUndoRefused>(async (writing) => {
    const { tx } = writing
    const { bulkEditId, who = null } = input
    const row = await tx.bulkEdit.findFirst({ where: { id: bulkEditId, ...ofCharts } })
    if (!row) return refused({ kind: 'no-such-edit', bulkEditId })
    const claimed = await tx.bulkEdit.updateMany({
      where: { id: bulkEditId, status: 'done', version: row.version },
      data: { status: 'undone', version: { increment: 1 } },
    })
    if (claimed.count === 0) return refused({ kind: 'already-undone', bulkEditId })

    const kept = readChartSteps(row.stepsJson)
    const versions = await readVersions(writing, kept)
    const places = await tx.place.findMany({ where: { goneAt: null }, select: { id: true } })
    const { back, left } = planChartBulkUndo(kept.steps, versions, new Set(places.map(({ id }) => id)))
    await putBack(writing, { ...kept, steps: back }, { who, reason: `${row.what}, taken back` })
    await tx.bulkEdit.update({ where: { id: bulkEditId }, data: { stepsJson: chartStepsText({ ...kept, left }) } })
    return ok({ takenBack: back.length, left })
  }, timeoutMs)
}

/** Versions of what a change was of, as it stands: those charts that are held, or for a change that marked them gone, those that are not. */
async function readVersions({ tx }: Write, { change, steps }: KeptChartBulk): Promise<Map<string, number>> {
  const versions = new Map<string, number>()
  const select = { id: true, version: true } as const
  for (const some of chunks(steps)) {
    const id = { in: some.map((step) => step.id) }
    const rows =
      change.kind === 'stars'
        ? await tx.project.findMany({ where: { id, goneAt: null }, select })
        : isOfCharts(change)
          ? await tx.chart.findMany({ where: { id, goneAt: change.kind === 'gone' ? { not: null } : null }, select })
          : await tx.design.findMany({ where: { id, chart: { goneAt: null } }, select })
    for (const { id: one, version } of rows) versions.set(one, version)
  }
  return versions
}

/** Steps that get the same values share their statements. */
function alike(steps: readonly ChartBulkStep[]): ChartBulkStep[][] {
  const groups = new Map<string, ChartBulkStep[]>()
  for (const step of steps) {
    const key = JSON.stringify([step.before, step.outSince ?? null])
    const group = groups.get(key)
    if (group) group.push(step)
    else groups.set(key, [step])
  }
  return [...groups.values()]
}

async function putBack(
  writing: Write,
  { change, themeId, steps }: Omit<KeptChartBulk, 'left'>,
  { who, reason }: { who: string | null; reason: string },
): Promise<void> {
  const { tx, engine, touch } = writing
  const raise = { version: { increment: 1 } } as const
  const ids = steps.map(({ id }) => id)
  switch (change.kind) {
    case 'home':
      for (const group of alike(steps)) {
        const { before, outSince } = group[0] as ChartBulkStep
        const housing = before as { homePlaceId: string | null; currentPlaceId: string | null }
        const data = { ...housing, outSince: outSince ? new Date(outSince) : null, ...raise }
        await inParts(
          group.map(({ id }) => id),
          (id) => tx.chart.updateMany({ where: { id }, data }),
        )
      }
      await journal(
        writing,
        steps.map(({ chartId, before }) => {
          const { homePlaceId } = before as { homePlaceId: string | null }
          return { kind: 'undo', chartId, fromPlaceId: change.toPlaceId, toPlaceId: homePlaceId, who, reason }
        }),
      )
      break
    case 'owner':
      for (const group of alike(steps)) {
        const ownerId = (group[0] as ChartBulkStep).before as string
        await inParts(
          group.map(({ id }) => id),
          (id) => tx.chart.updateMany({ where: { id }, data: { ownerId, ...raise } }),
        )
      }
      await journal(
        writing,
        steps.map(({ chartId, before }) => ({
          ...{ kind: 'undo', chartId, fromOwnerId: change.toOwnerId, toOwnerId: before as string, who, reason },
        })),
      )
      break
    case 'gone': {
      for (const group of alike(steps)) {
        const { outSince } = group[0] as ChartBulkStep
        await inParts(
          group.map(({ id }) => id),
          (id) =>
            tx.chart.updateMany({
              where: { id },
              data: { goneAt: null, outSince: outSince ? new Date(outSince) : null, ...raise },
            }),
        )
      }
      await journal(
        writing,
        steps.map(({ chartId, before }) => ({ kind: 'undo', chartId, wholeDelta: before as number, who, reason })),
      )
      break
    }
    case 'add-theme':
      if (themeId !== null) await inParts(ids, (designId) => tx.designTheme.deleteMany({ where: { themeId, designId } }))
      return raiseDesigns(writing, ids)
    case 'take-theme': {
      const rows = ids.map((designId) => ({ designId, themeId }))
      // A theme that was taken off all its designs may have been tidied away since: then there is nothing to put back on.
      const isThere = themeId !== null && (await tx.theme.findUnique({ where: { id: themeId }, select: { id: true } })) !== null
      if (isThere) await bulkInsert(tx, engine, 'DesignTheme', rows)
      return raiseDesigns(writing, ids)
    }
    case 'stars':
      for (const group of alike(steps)) {
        const stars = (group[0] as ChartBulkStep).before as number | null
        await inParts(
          group.map(({ id }) => id),
          (id) => tx.project.updateMany({ where: { id }, data: { stars, ...raise } }),
        )
      }
      for (const id of ids) touch('project', id)
      return
  }
  const designsOf = new Map<string, string[]>()
  for (const some of chunks(ids)) {
    const designs = await tx.design.findMany({ where: { chartId: { in: some } }, select: { id: true, chartId: true } })
    for (const { id, chartId } of designs) designsOf.set(chartId, [...(designsOf.get(chartId) ?? []), id])
  }
  touchCharts(writing, ids, designsOf)
}
