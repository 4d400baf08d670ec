import 'server-only'
import { openStatuses } from '#lib/project/life-cycle'
import { isInHand } from '#lib/project/walk'
import { inWalkingOrder } from '#lib/project/walk-lines'
import { ok, type Result, refused } from '#lib/result'
import { newId } from '../new-id'
import { getSettings } from '../settings/settings'
import { write } from '../write'
import { keyOf, readPull, readPulledProjects } from './read-pull'
import { readWalkedThings, readWalkRanks, stopOf } from './read-things'
import type { WalkRefusal } from './walk-refusal'
import { batchIdOf, claimOpenWalk, readLineRows } from './walk-row'
import { insertLines, type LineRow, untouchedLine } from './write-lines'

export type BringUpToDateRefused = Extract<
  WalkRefusal,
  { kind: 'no-such-walk' | 'walk-closed' | 'not-a-pull' | 'no-such-project' | 'project-not-open' }
>

/**
 * Plan what is still open on a pull anew, as the record stands now. What is in hand, not there or carried out stays as it is; a line that
 * is wanted as before stays the same line, so that ticks on their way find it.
 */
export async function bringUpToDate(input: {
  walkId: string
}): Promise<Result<{ added: number; removed: number }, BringUpToDateRefused>> {
  const settings = await getSettings()
  return write<{ added: number; removed: number }, BringUpToDateRefused>(async (writing) => {
    const { tx, revision } = writing
    const { walkId } = input
    const walk = await claimOpenWalk(writing, walkId)
    if (!walk.ok) return walk
    if (walk.value.kind !== 'pull') return refused({ kind: 'not-a-pull' })
    // A project that was finished or given up meanwhile wants nothing more.
    const open = await tx.walkProject.findMany({
      where: { walkId, project: { goneAt: null, status: { in: [...openStatuses] } } },
      select: { projectId: true },
      orderBy: { position: 'asc' },
    })
    const projectIds = open.map(({ projectId }) => projectId)
    const projects = await readPulledProjects(tx, projectIds)
    if (!projects.ok) return projects

    const rows = await readLineRows(tx, walkId)
    const settled = rows.filter((row) => row.carriedAt !== null || row.status !== 'open')
    const waiting = settled
      .filter((row) => row.carriedAt === null && (isInHand(row.status) || row.status === 'not there'))
      .map((row) => ({ ...row, batchId: batchIdOf(row) }))
    const { stops } = await readPull(tx, projects.value, settings, waiting)

    const openBefore = new Map(rows.flatMap((row) => (settled.includes(row) ? [] : [[keyOf(row), row]])))
    const planned = stops.map((stop): LineRow => {
      const before = openBefore.get(keyOf(stop))
      openBefore.delete(keyOf(stop))
      return before
        ? { ...before, count: stop.count, takesPart: stop.takesPart, toPlaceId: stop.toPlaceId, revision }
        : { ...stop, ...untouchedLine, id: newId(), revision }
    })
    const known = new Set(rows.map(({ id }) => id))
    const all = [...settled, ...planned]
    const things = await readWalkedThings(tx, all)
    const inOrder = all.map((line) => stopOf(line, things, false))
    const rankOf = await readWalkRanks(
      tx,
      inOrder.map(({ placeId }) => placeId),
    )
    await tx.walkLine.deleteMany({ where: { walkId } })
    await insertLines(writing, walkId, inWalkingOrder(inOrder, { rankOf, projectIds }))
    return ok({ added: planned.filter(({ id }) => !known.has(id)).length, removed: openBefore.size })
  })
}
