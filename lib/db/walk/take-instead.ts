import 'server-only'
import { leastUsefulPart } from '#lib/coverage/kit-cuts'
import { openStatuses } from '#lib/project/life-cycle'
import { takePromised } from '#lib/project/walk-lines'
import { ok, type Result, refused } from '#lib/result'
import type { Settings } from '#lib/settings/settings'
import { type Batch, knownStrandTenths, type StockPromise } from '#lib/stock/batch'
import { freeOfBatch } from '#lib/stock/free-stock'
import { newId } from '../new-id'
import { type ProjectSnapshot, readProject } from '../project/project-row'
import { cutsOf, readProjectNeed } from '../project/read-need'
import { getSettings } from '../settings/settings'
import { applyStockChange, readBatches } from '../stock/apply-stock-change'
import { write } from '../write'
import type { Write } from '../write-gate'
import type { WalkRefusal } from './walk-refusal'
import { batchIdOf, claimOpenWalk, readLineRows } from './walk-row'
import type { LineRow } from './write-lines'

export type TakeInsteadRefused = Extract<
  WalkRefusal,
  {
    kind:
      | 'no-such-walk'
      | 'walk-closed'
      | 'not-a-pull'
      | 'no-such-line'
      | 'carried-already'
      | 'not-thread'
      | 'no-such-project'
      | 'project-not-open'
      | 'no-such-batch'
      | 'not-instead'
      | 'would-mix'
      | 'not-enough-free'
      | 'changed-meanwhile'
  }
>

/**
 * Another batch is taken for these lines, on the spot: of the same thread, or of an accepted stand-in, which the project is then worked
 * in. What the project was promised of the one moves to the other. All the lines or none.
 *
 * @returns `would-mix` when other thread of the colour is promised to the project as well: a stand-in for some of a colour would show
 */
export async function takeInstead(input: {
  walkId: string
  lineIds: readonly string[]
  batchId: string
  who?: string | null
}): Promise<Result<null, TakeInsteadRefused>> {
  const settings = await getSettings()
  return write<null, TakeInsteadRefused>(async (writing) => {
    const walk = await claimOpenWalk(writing, input.walkId)
    if (!walk.ok) return walk
    if (walk.value.kind !== 'pull') return refused({ kind: 'not-a-pull' })
    const rows = await readLineRows(writing.tx, input.walkId)
    for (const lineId of input.lineIds) {
      const line = rows.find(({ id }) => id === lineId)
      if (!line) return refused({ kind: 'no-such-line', lineId })
      const taken = await takeOne(writing, line, input, settings)
      if (!taken.ok) return taken
    }
    return ok(null)
  })
}

async function takeOne(
  writing: Write,
  line: LineRow,
  { batchId, who = null }: { batchId: string; who?: string | null },
  settings: Settings,
): Promise<Result<null, TakeInsteadRefused>> {
  const { tx, at, revision } = writing
  if (line.carriedAt !== null) return refused({ kind: 'carried-already' })
  const oldId = batchIdOf(line)
  if (oldId === null || line.projectId === null) return refused({ kind: 'not-thread' })
  if (oldId === batchId) return refused({ kind: 'not-instead' })
  const read = await readProject(tx, { projectId: line.projectId })
  if (!read.ok) return refused(read.error)
  const project = read.value
  // Given up while its list was open, it holds nothing any more.
  if (!(openStatuses as readonly string[]).includes(project.status))
    return refused({ kind: 'project-not-open', title: project.title })

  // What the old one is does not depend on whether it is still there.
  const old = await tx.batch.findUniqueOrThrow({
    where: { id: oldId },
    select: {
      threadId: true,
      lot: true,
      putUpStrandTenths: true,
      partStrandTenths: true,
      homePlace: { select: { label: true } },
    },
  })
  const stock = await readBatches(tx, { id: { in: [oldId, batchId] } })
  const batch = stock.batches.find(({ id }) => id === batchId)
  if (!batch) return refused({ kind: 'no-such-batch', batchId })
  if (batch.ownerId !== project.ownerId) return refused({ kind: 'not-instead' })
  if (batch.threadId !== old.threadId) {
    const swapped = await workedIn(writing, project, { from: old.threadId, to: batch.threadId, oldId })
    if (!swapped.ok) return swapped
  }

  const own = promisedTo(project.id, oldId, stock.promises)
  const lifted = line.count * old.putUpStrandTenths + (line.takesPart ? old.partStrandTenths : 0)
  const moved = Math.min(own || lifted, lifted)
  const there = promisedTo(project.id, batchId, stock.promises)
  const promises = stock.promises.filter((promise) => promise.batchId === batchId)
  const freeStrandTenths = Math.max(0, freeOfBatch(batch, promises, project.id).freeStrandTenths - there)
  const pull = await pullFor(writing, project, batch, { strandTenths: moved, promises }, settings)
  if (moved > freeStrandTenths || !pull)
    return refused({ kind: 'not-enough-free', freeStrandTenths, requestedStrandTenths: moved })

  const after = [
    ...(own > 0 ? [{ batchId: oldId, projectId: project.id, strandTenths: own - Math.min(own, moved) }] : []),
    { batchId, projectId: project.id, strandTenths: there + moved },
  ].filter((promise) => stock.versions.has(promise.batchId))
  const applied = await applyStockChange(
    writing,
    { batches: [], movements: [], promises: after },
    { versions: stock.versions, who },
  )
  if (!applied.ok) return applied
  const note = ['Instead of', old.lot && `lot ${old.lot}`, old.homePlace && `from ${old.homePlace.label}`]
  await tx.walkLine.update({
    where: { id: line.id },
    data: {
      ...{ status: 'instead', insteadBatchId: batchId, count: pull.wholePutUps, takesPart: pull.takesPart },
      ...{ tickedAt: at, tickedBy: who, revision },
      note: note.filter(Boolean).length > 1 ? note.filter(Boolean).join(' ') : 'Instead of another',
    },
  })
  return ok(null)
}

const promisedTo = (projectId: string, batchId: string, promises: readonly StockPromise[]): number =>
  promises.find((promise) => promise.batchId === batchId && promise.projectId === projectId)?.strandTenths ?? 0

async function pullFor(
  { tx }: Write,
  project: ProjectSnapshot,
  batch: Batch,
  { strandTenths, promises }: { strandTenths: number; promises: readonly StockPromise[] },
  settings: Settings,
): Promise<{ wholePutUps: number; takesPart: boolean } | null> {
  if (strandTenths > knownStrandTenths(batch)) return null
  const cut = project.quantity > 1 ? (cutsOf(await readProjectNeed(tx, project, settings)).get(batch.threadId) ?? 0) : 0
  const taken = takePromised(batch, {
    ...{ strandTenths, promises, projectId: project.id, toPlaceId: `the bag of ${project.id}`, newBatchId: 'taken' },
    leastCutStrandTenths: leastUsefulPart(cut, batch.putUpStrandTenths),
  })
  return taken?.pull ?? null
}

/** The project's colour is worked in a stand-in from now on; refused where nobody accepted that one, or the colour is begun. */
async function workedIn(
  { tx, touch }: Write,
  project: ProjectSnapshot,
  { from, to, oldId }: { from: string; to: string; oldId: string },
): Promise<Result<null, Extract<WalkRefusal, { kind: 'not-instead' | 'would-mix' }>>> {
  const projectId = project.id
  const swap = await tx.projectSwap.findFirst({ where: { projectId, standInThreadId: from }, select: { threadId: true } })
  const charted = swap?.threadId ?? from
  const accepted = await tx.standIn.count({ where: { threadId: charted, standInThreadId: to } })
  if (accepted === 0 && charted !== to) return refused({ kind: 'not-instead' })
  const others = await tx.stockPromise.count({
    where: { projectId, batchId: { not: oldId }, batch: { threadId: from, goneAt: null } },
  })
  const isWorkedElse = await tx.projectSwap.count({ where: { projectId, standInThreadId: to, threadId: { not: charted } } })
  const isInKey = await tx.keyLineThread.count({
    where: { threadId: to, keyLine: { threadListId: project.threadListId ?? '' } },
  })
  if (others > 0 || isWorkedElse > 0 || (isInKey > 0 && charted !== to)) return refused({ kind: 'would-mix' })
  await tx.projectSwap.deleteMany({ where: { projectId, threadId: charted } })
  if (charted !== to)
    await tx.projectSwap.create({
      data: { id: newId(), projectId, threadId: charted, standInThreadId: to, reason: 'not there when it was pulled' },
    })
  touch('project', projectId)
  return ok(null)
}
