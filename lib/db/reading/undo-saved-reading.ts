import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import type { WorkingProject } from '../chart/chart-refusal'
import { journalChart } from '../chart/claim-chart'
import { readProjects } from '../chart/read-projects'
import { write } from '../write'
import type { Write } from '../write-gate'
import { type ReadingSaved, readingStepsBegin, readReadingSteps } from './reading-change'
import { changeReading } from './reading-store'

export type UndoReadingRefusal =
  | { kind: 'no-such-change' }
  | { kind: 'already-undone' }
  /** The chart, or one of the lists, is not as it was saved. */
  | { kind: 'changed-since' }
  | { kind: 'in-work'; projects: WorkingProject[] }

/** Whether something a design was given stays, for the design was changed since. */
export type ReadingUndone = { readingId: string; factsLeft: number }

/**
 * Take a saved reading back: chart, lists, threads that nothing else uses, file and cover. Refused whole when the chart or a list was changed
 * since, or is worked from. The reading itself is under review again, while its day lasts.
 */
export async function undoSavedReading(input: {
  changeId: string
  who?: string | null
}): Promise<Result<ReadingUndone, UndoReadingRefusal>> {
  const undone = await write<ReadingUndone, UndoReadingRefusal>((open) => takeBack(open, input))
  if (undone.ok)
    await changeReading(undone.value.readingId, async (staged) => {
      if (staged.state.kind !== 'saved' || staged.state.changeId !== input.changeId) return { next: null, value: null }
      const state = staged.review ? ({ kind: 'read' } as const) : ({ kind: 'refused', refusal: { kind: 'no-text' } } as const)
      return { next: { ...staged, state }, value: null }
    })
  return undone
}

async function takeBack(
  open: Write,
  { changeId, who = null }: { changeId: string; who?: string | null },
): Promise<Result<ReadingUndone, UndoReadingRefusal>> {
  const { tx, at, touch } = open
  const row = await tx.bulkEdit.findFirst({ where: { id: changeId, stepsJson: { startsWith: readingStepsBegin } } })
  if (!row) return refused({ kind: 'no-such-change' })
  const claimed = await tx.bulkEdit.updateMany({
    where: { id: changeId, status: 'done', version: row.version },
    data: { status: 'undone', version: { increment: 1 } },
  })
  if (claimed.count === 0) return refused({ kind: 'already-undone' })
  const saved = readReadingSteps(row.stepsJson)

  const standing = await asSaved(open, saved)
  if (!standing.ok) return standing
  for (const { id, designId } of saved.lists) {
    await tx.project.updateMany({ where: { threadListId: id }, data: { threadListId: null, version: { increment: 1 } } })
    await tx.threadList.delete({ where: { id } })
    touch('list', id)
    touch('design', designId)
  }
  let factsLeft = 0
  for (const { id, version, before } of saved.facts) {
    const back = await tx.design.updateMany({ where: { id, version }, data: { ...before, version: { increment: 1 } } })
    if (back.count === 0) factsLeft++
    touch('design', id)
  }
  const files = { id: { in: saved.fileIds }, goneAt: null }
  await tx.keptFile.updateMany({ where: files, data: { goneAt: at, version: { increment: 1 } } })
  for (const id of saved.covered) {
    if (id === saved.chart?.id) continue
    await tx.chart.updateMany({ where: { id }, data: { coverFile: null, coverHash: null, version: { increment: 1 } } })
    touch('chart', id)
  }
  if (saved.chart) await takeChartAway(open, saved, { reason: `${row.what}, taken back`, who })
  await takeThreadsAway(open, saved.threadIds)
  return ok({ readingId: saved.reading.id, factsLeft })
}

/** Whether all that was saved is still as it was, and nobody works from it. */
async function asSaved(open: Write, { chart, designs, lists }: ReadingSaved): Promise<Result<null, UndoReadingRefusal>> {
  const { tx } = open
  if (chart && (await tx.chart.count({ where: { ...chart, goneAt: null } })) === 0) return refused({ kind: 'changed-since' })
  for (const design of designs) if ((await tx.design.count({ where: design })) === 0) return refused({ kind: 'changed-since' })
  if (chart && (await tx.design.count({ where: { chartId: chart.id } })) > designs.length)
    return refused({ kind: 'changed-since' })
  for (const { id, version } of lists)
    if ((await tx.threadList.count({ where: { id, version } })) === 0) return refused({ kind: 'changed-since' })
  const listIds = { in: lists.map(({ id }) => id) }
  const designIds = { in: designs.map(({ id }) => id) }
  const projects = await readProjects(open, {
    OR: [
      { threadListId: listIds, goneAt: null, status: { not: 'abandoned' } },
      { designId: designIds, goneAt: null },
    ],
  })
  if (projects.length > 0) return refused({ kind: 'in-work', projects })
  const extra = await tx.threadList.count({ where: { designId: designIds, id: { notIn: listIds.in } } })
  return extra > 0 ? refused({ kind: 'changed-since' }) : ok(null)
}

async function takeChartAway(
  open: Write,
  { chart, designs }: ReadingSaved,
  { reason, who }: { reason: string; who: string | null },
): Promise<void> {
  const { tx, at, touch } = open
  if (!chart) return
  // A project that was removed still points at its design.
  const kept = await tx.project.findMany({ where: { designId: { in: designs.map(({ id }) => id) } }, select: { designId: true } })
  const keptIds = new Set(kept.map(({ designId }) => designId))
  for (const { id } of designs) {
    if (!keptIds.has(id)) await tx.design.delete({ where: { id } })
    touch('design', id)
  }
  const row = await tx.chart.update({ where: { id: chart.id }, data: { goneAt: at, outSince: null, version: { increment: 1 } } })
  const { copies, currentPlaceId, ownerId } = row
  await journalChart(open, {
    ...{ kind: 'undo', chartId: chart.id, wholeDelta: -copies, fromPlaceId: currentPlaceId, fromOwnerId: ownerId, reason, who },
  })
  touch('chart', chart.id)
}

const idsAtOnce = 500

/** Threads that came with it go with it, unless something else has come to need them. */
async function takeThreadsAway({ tx, at, touch }: Write, threadIds: readonly string[]): Promise<void> {
  for (let from = 0; from < threadIds.length; from += idsAtOnce) {
    const unused = await tx.thread.findMany({
      where: {
        ...{ id: { in: threadIds.slice(from, from + idsAtOnce) }, goneAt: null },
        ...{ keyLines: { none: {} }, batches: { none: {} }, orders: { none: {} }, swaps: { none: {} }, swappedIn: { none: {} } },
        ...{ standIns: { none: {} }, standsInFor: { none: {} }, kitLots: { none: {} }, formerCodes: { none: {} } },
      },
      select: { id: true },
    })
    const id = { in: unused.map((thread) => thread.id) }
    await tx.thread.updateMany({ where: { id }, data: { goneAt: at, version: { increment: 1 } } })
    for (const thread of unused) touch('thread', thread.id)
  }
}
