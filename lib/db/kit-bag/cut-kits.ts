import 'server-only'
import { cuttingKey, type KitCutting, planKitCutting, type ThreadToCut } from '#lib/project/kit/cutting'
import type { MasterLine, MasterList } from '#lib/project/kit/master-list'
import { type KitLot, withoutBag } from '#lib/project/kit/record'
import { ok, type Result, refused } from '#lib/result'
import type { Batch } from '#lib/stock/batch'
import { database, type Transaction } from '../client'
import { newId } from '../new-id'
import { applyStockChange, type ChangedMeanwhile, readBatches, type StockSnapshot } from '../stock/apply-stock-change'
import { write } from '../write'
import type { Write } from '../write-gate'
import { ensureBags } from './ensure-bags'
import { type KitLotRow, readLotRows } from './kit-rows'
import { type KitClosed, type KitProject, type NoSuchKit, readKitProject, readMaster, refuseClosed } from './read-kit-project'

export type KitCuttingSeen = KitCutting & {
  /** Hand it back with the order to cut, so that what was seen is what is cut. */
  key: string
  batches: ReadonlyMap<string, Batch>
}

export type CutKitsRefused =
  | NoSuchKit
  | KitClosed
  | ChangedMeanwhile
  /** Threads that should be of one lot would come out of several. */
  | { kind: 'lots-differ'; threadIds: string[] }
  /** The bags have all that can be cut. */
  | { kind: 'nothing-to-cut'; shortThreadIds: string[] }

export type KitsCut = { cuts: number; threads: number; short: { threadId: string; bags: number[] }[] }

const toCut = (lines: readonly MasterLine[]): ThreadToCut[] =>
  lines.flatMap((line) =>
    line.kind === 'thread'
      ? [
          {
            threadId: line.threadId,
            cutStrandTenths: line.perKit.strandTenths,
            linePutUpStrandTenths: line.putUpStrandTenths,
            needsOneLot: line.needsOneLot,
          },
        ]
      : [],
  )

const bagsOf = ({ copies }: MasterList): number[] => Array.from({ length: copies }, (_, at) => at + 1)

async function readStock(tx: Transaction, ownerId: string, threadIds: readonly string[]): Promise<StockSnapshot> {
  const all: StockSnapshot = { batches: [], promises: [], versions: new Map() }
  for (let at = 0; at < threadIds.length; at += 500) {
    const some = await readBatches(tx, { ownerId, threadId: { in: threadIds.slice(at, at + 500) } })
    all.batches.push(...some.batches)
    all.promises.push(...some.promises)
    for (const [id, version] of some.versions) all.versions.set(id, version)
  }
  return all
}

function planFor(master: MasterList, project: KitProject, stock: StockSnapshot, lots: readonly KitLot[], bags = bagsOf(master)) {
  return planKitCutting({
    ...{ projectId: project.id, ownerId: project.ownerId, bags, lots, threads: toCut(master.lines) },
    ...{ batches: stock.batches, promises: stock.promises, newBatchId: newId },
  })
}

/** What would be cut now for the bags of a project; null when there is no such project. */
export async function readKitCutting(projectId: string): Promise<KitCuttingSeen | null> {
  const master = await readMaster(projectId)
  if (!master.ok) return null
  const { prisma } = database()
  const project = await readKitProject(prisma, master.value)
  if (!project.ok) return null
  const threadIds = toCut(master.value.lines).map(({ threadId }) => threadId)
  const [stock, lots] = await Promise.all([readStock(prisma, project.value.ownerId, threadIds), readLotRows(prisma, projectId)])
  const plan = planFor(master.value, project.value, stock, lots)
  return { ...plan, key: cuttingKey(plan), batches: new Map(stock.batches.map((batch) => [batch.id, batch])) }
}

/**
 * Cut thread for the bags, all in one write: stock goes down, leftovers are stock, and the batch record says which bags have which batch
 * and lot. Bags that have their cut already are passed over; what is short is left for another time.
 *
 * @param input.seen         the key of the plan the person saw; another plan by now is refused
 * @param input.acceptsLots  several lots of a thread that should be of one are taken all the same
 */
export async function cutKits(input: {
  projectId: string
  by: string | null
  seen?: string | undefined
  acceptsLots: boolean
}): Promise<Result<KitsCut, CutKitsRefused>> {
  const read = await readMaster(input.projectId)
  if (!read.ok) return read
  const master = read.value
  return write<KitsCut, CutKitsRefused>(async (writing) => {
    const { tx } = writing
    const project = await readKitProject(tx, master)
    if (!project.ok) return project
    const open = refuseClosed(project.value)
    if (!open.ok) return open
    await ensureBags(writing, master)
    const threadIds = toCut(master.lines).map(({ threadId }) => threadId)
    const stock = await readStock(tx, project.value.ownerId, threadIds)
    const lots = await readLotRows(tx, project.value.id)
    const plan = planFor(master, project.value, stock, lots)
    if (input.seen !== undefined && input.seen !== cuttingKey(plan)) return refused({ kind: 'changed-meanwhile' })
    const mixed = plan.threads.filter(({ runs, isMixed }) => isMixed && runs.length > 0)
    if (mixed.length > 0 && !input.acceptsLots)
      return refused({ kind: 'lots-differ', threadIds: mixed.map(({ threadId }) => threadId) })
    const short = plan.threads.flatMap(({ threadId, short: bags }) => (bags.length > 0 ? [{ threadId, bags }] : []))
    const cut = plan.threads.filter(({ runs }) => runs.length > 0)
    if (cut.length === 0) return refused({ kind: 'nothing-to-cut', shortThreadIds: short.map(({ threadId }) => threadId) })
    const applied = await applyCutting(writing, project.value, plan, stock, input.by)
    if (!applied.ok) return applied
    const cuts = cut.flatMap(({ runs }) => runs).reduce((sum, { fromBag, toBag }) => sum + toBag - fromBag + 1, 0)
    return ok({ cuts, threads: cut.length, short })
  })
}

/** Cut one thread for one bag anew, in place of a cut that was wrong or short. What was cut first is used up; the record names the new one. */
export async function cutAgain(input: {
  projectId: string
  bag: number
  threadId: string
  by: string | null
}): Promise<Result<KitsCut, CutKitsRefused>> {
  const read = await readMaster(input.projectId)
  if (!read.ok) return read
  const { threadId, bag, by } = input
  const master = { ...read.value, lines: read.value.lines.filter((line) => line.kind === 'thread' && line.threadId === threadId) }
  return write<KitsCut, CutKitsRefused>(async (writing) => {
    const { tx } = writing
    const project = await readKitProject(tx, master)
    if (!project.ok) return project
    const open = refuseClosed(project.value)
    if (!open.ok) return open
    const isOpen = await tx.kitBag.count({
      where: { projectId: project.value.id, number: bag, status: { in: ['open', 'packed', 'checked'] } },
    })
    if (isOpen === 0 || master.lines.length === 0) return refused({ kind: 'changed-meanwhile' })
    const stock = await readStock(tx, project.value.ownerId, [threadId])
    const lots = await readLotRows(tx, project.value.id)
    const others = lots.flatMap((lot) => (lot.threadId === threadId ? withoutBag(lot, bag) : [lot]))
    const plan = planFor(master, project.value, stock, others, [bag])
    if (plan.threads[0]?.runs.length !== 1) return refused({ kind: 'nothing-to-cut', shortThreadIds: [threadId] })
    await takeOutOfRecord(writing, lots, threadId, bag)
    const applied = await applyCutting(writing, project.value, plan, stock, by)
    return applied.ok ? ok({ cuts: 1, threads: 1, short: [] }) : applied
  })
}

async function takeOutOfRecord({ tx }: Write, lots: readonly KitLotRow[], threadId: string, bag: number): Promise<void> {
  for (const lot of lots) {
    if (lot.threadId !== threadId || bag < lot.fromBag || bag > lot.toBag) continue
    const { projectId } = await tx.kitLot.delete({ where: { id: lot.id }, select: { projectId: true } })
    const rest = withoutBag(lot, bag).map((left) => ({ ...left, id: newId(), projectId }))
    if (rest.length > 0) await tx.kitLot.createMany({ data: rest })
  }
}

async function applyCutting(
  writing: Write,
  project: KitProject,
  plan: KitCutting,
  { versions }: StockSnapshot,
  who: string | null,
): Promise<Result<null, ChangedMeanwhile>> {
  const { tx, at, touch } = writing
  const applied = await applyStockChange(writing, plan.change, { versions, who })
  if (!applied.ok) return applied
  const runs = plan.threads.flatMap((thread) => thread.runs)
  await tx.kitLot.createMany({ data: runs.map((run) => ({ id: newId(), projectId: project.id, at, who, ...run })) })
  touch('project', project.id)
  return ok(null)
}
