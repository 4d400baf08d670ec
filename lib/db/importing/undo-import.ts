import 'server-only'
import type { ImportedNoun, RowOf } from '#lib/importing/snapshot'
import { openStatuses } from '#lib/project/life-cycle'
import type { Result } from '#lib/result'
import { doerName } from '../access/doer'
import { requireWhole } from '../access/whole'
import { type BulkRow, bulkInsert, timestamp } from '../bulk-insert'
import { newId } from '../new-id'
import { write } from '../write'
import type { Write } from '../write-gate'
import type { ImportRefused, UndoDone } from './import-service'
import { versioned } from './noun-columns'
import { setPlacePaths } from './place-paths'
import { versionOf, writeValues } from './write-plan'

type Step = { did: string; noun: ImportedNoun; nounId: string; beforeJson: string | null; versionAfter: number }
type Left = UndoDone['left'][number]['why']

const undoTimeoutMs = 15 * 60_000

/**
 * Take an import back, step by step from its last: what it added goes, what it changed is as it was. What was changed or used since
 * stays, and is named. Nothing leaves the journal: stock goes by movements of its own.
 */
export function undoImport(importId: string): Promise<Result<UndoDone, ImportRefused>> {
  requireWhole()
  return write<UndoDone, ImportRefused>(async (writing) => {
    const { tx, touch } = writing
    const found = await tx.importBatch.findUnique({ where: { id: importId } })
    if (!found) return { ok: false, error: { kind: 'no-such-import', importId } }
    const claimed = await tx.importBatch.updateMany({
      where: { id: importId, status: 'done', version: found.version },
      data: { status: 'undone', version: { increment: 1 } },
    })
    if (claimed.count === 0) return { ok: false, error: { kind: 'already-undone', importId } }

    const steps = (await tx.importStep.findMany({
      where: { importId },
      orderBy: { position: 'desc' },
      select: { did: true, noun: true, nounId: true, beforeJson: true, versionAfter: true },
    })) as Step[]
    const undone: UndoDone = { takenBack: 0, left: [] }
    const movements: BulkRow[] = []
    for (const run of runsOf(steps)) {
      const [first] = run as [Step]
      const stays = first.did === 'added' ? await takeAway(writing, run, movements) : await putBackAll(writing, run, movements)
      undone.takenBack += run.length - stays.size
      for (const [nounId, why] of stays) undone.left.push({ noun: first.noun, nounId, why })
      // The SQLite driver holds the event loop while it works; let others in between.
      await new Promise((resolve) => setImmediate(resolve))
    }
    if (steps.some(({ noun }) => noun === 'place')) await setPlacePaths(writing)
    await bulkInsert(
      tx,
      writing.engine,
      'Movement',
      movements.map((movement) => ({ ...movement, importId, reason: `${found.fileName} taken back`, who: doerName(null) })),
    )
    touch('everything', '*')
    return { ok: true, value: undone }
  }, undoTimeoutMs)
}

/** As many ids as a statement may name; SQLite takes no more than 999. */
const idsAtOnce = 500

/** Neighbouring steps of the same sort and noun, so that they are undone together; places one by one, each after what is in it. */
function runsOf(steps: readonly Step[]): Step[][] {
  const runs: Step[][] = []
  for (const step of steps) {
    const run = runs.at(-1)
    const last = run?.[0]
    const goesAlong = last?.did === step.did && last.noun === step.noun && step.noun !== 'place'
    if (run && goesAlong && run.length < idsAtOnce) run.push(step)
    else runs.push([step])
  }
  return runs
}

const movement = (writing: Write, change: BulkRow): BulkRow => ({
  id: newId(),
  revision: writing.revision,
  at: timestamp(writing.at),
  kind: 'undo',
  batchId: null,
  clothPieceId: null,
  chartId: null,
  notionId: null,
  wholeDelta: 0,
  partDeltaStrandTenths: 0,
  fromPlaceId: null,
  toPlaceId: null,
  ...change,
})

/** What stays of a run of steps, by id, and why. */
type Stays = Map<string, Left>

/** Sort a run into those whose row is still as the import left it, and the others, which stay. */
function unchanged<Row extends { id: string; version: number }>(run: readonly Step[], rows: readonly Row[], stays: Stays): Row[] {
  const versionAfter = new Map(run.map((step) => [step.nounId, step.versionAfter]))
  return rows.filter((row) => {
    if (row.version === versionAfter.get(row.id)) return true
    stays.set(row.id, 'changed-since')
    return false
  })
}

/** Those of `rows` that nothing in `usedIds` points at; the others stay. */
function unused<Row extends { id: string }>(rows: readonly Row[], usedIds: Iterable<string | null>, stays: Stays): Row[] {
  const used = new Set(usedIds)
  return rows.filter(({ id }) => {
    if (used.has(id)) stays.set(id, 'in-use')
    return !used.has(id)
  })
}

const idsOf = (rows: readonly { id: string }[]) => ({ in: rows.map(({ id }) => id) })

/** Take away what a run of steps added. @returns what stays, and why */
async function takeAway(writing: Write, run: readonly Step[], movements: BulkRow[]): Promise<Stays> {
  const { tx, at } = writing
  const stays: Stays = new Map()
  const id = { in: run.map(({ nounId }) => nounId) }
  const gone = { goneAt: at, version: { increment: 1 } } as const
  switch ((run[0] as Step).noun) {
    case 'batch': {
      const rows = unchanged(run, await tx.batch.findMany({ where: { id } }), stays)
      const promised = await tx.stockPromise.findMany({ where: { batchId: id }, select: { batchId: true } })
      const going = unused(
        rows,
        promised.map(({ batchId }) => batchId),
        stays,
      )
      for (const batch of going) {
        movements.push(
          movement(writing, {
            batchId: batch.id,
            wholeDelta: -batch.wholePutUps,
            partDeltaStrandTenths: -batch.partStrandTenths,
            fromPlaceId: batch.currentPlaceId,
          }),
        )
      }
      const nothing = { wholePutUps: 0, partStrandTenths: 0, partCertainty: 'none' }
      await tx.batch.updateMany({ where: { id: idsOf(going) }, data: { ...gone, ...nothing } })
      return stays
    }
    case 'cloth': {
      const rows = unchanged(run, await tx.clothPiece.findMany({ where: { id } }), stays)
      const projects = await tx.project.findMany({ where: { clothPieceId: id, goneAt: null }, select: { clothPieceId: true } })
      const going = unused(
        rows,
        projects.map(({ clothPieceId }) => clothPieceId),
        stays,
      )
      for (const piece of going) {
        movements.push(movement(writing, { clothPieceId: piece.id, wholeDelta: -1, fromPlaceId: piece.currentPlaceId }))
      }
      await tx.clothPiece.updateMany({ where: { id: idsOf(going) }, data: { ...gone, labelKey: null } })
      return stays
    }
    case 'chart': {
      const rows = unchanged(run, await tx.chart.findMany({ where: { id } }), stays)
      const worked = await tx.design.findMany({
        where: { chartId: id, projects: { some: { goneAt: null } } },
        select: { chartId: true },
      })
      const going = unused(
        rows,
        worked.map(({ chartId }) => chartId),
        stays,
      )
      for (const chart of going) {
        movements.push(movement(writing, { chartId: chart.id, wholeDelta: -chart.copies, fromPlaceId: chart.currentPlaceId }))
      }
      await tx.chart.updateMany({ where: { id: idsOf(going) }, data: gone })
      return stays
    }
    case 'design': {
      const rows = unchanged(run, await tx.design.findMany({ where: { id }, select: { id: true, version: true } }), stays)
      const projects = await tx.project.findMany({ where: { designId: id }, select: { designId: true } })
      const going = unused(
        rows,
        projects.map(({ designId }) => designId),
        stays,
      )
      await tx.design.deleteMany({ where: { id: idsOf(going) } })
      return stays
    }
    case 'list': {
      const rows = unchanged(run, await tx.threadList.findMany({ where: { id }, select: { id: true, version: true } }), stays)
      const projects = await tx.project.findMany({ where: { threadListId: id }, select: { threadListId: true } })
      const going = unused(
        rows,
        projects.map(({ threadListId }) => threadListId),
        stays,
      )
      await tx.threadList.deleteMany({ where: { id: idsOf(going) } })
      return stays
    }
    case 'project': {
      const rows = unchanged(run, await tx.project.findMany({ where: { id }, select: { id: true, version: true } }), stays)
      const moved = await tx.movement.findMany({ where: { projectId: id }, select: { projectId: true }, distinct: ['projectId'] })
      const going = unused(
        rows,
        moved.map(({ projectId }) => projectId),
        stays,
      )
      await tx.stockPromise.deleteMany({ where: { projectId: idsOf(going) } })
      await tx.project.updateMany({ where: { id: idsOf(going) }, data: gone })
      return stays
    }
    case 'notion': {
      const rows = unchanged(run, await tx.notion.findMany({ where: { id } }), stays)
      const kits = await tx.kitItem.findMany({ where: { notionId: id }, select: { notionId: true } })
      const going = unused(
        rows,
        kits.map(({ notionId }) => notionId),
        stays,
      )
      for (const notion of going) {
        movements.push(movement(writing, { notionId: notion.id, wholeDelta: -notion.count, fromPlaceId: notion.currentPlaceId }))
      }
      await tx.notion.updateMany({ where: { id: idsOf(going) }, data: { ...gone, outSince: null } })
      return stays
    }
    case 'standIn':
      await tx.standIn.deleteMany({ where: { id } })
      return stays
    case 'thread': {
      const rows = await tx.thread.findMany({ where: { id }, select: { id: true } })
      const lines = await tx.keyLineThread.findMany({
        where: { threadId: id },
        select: { threadId: true },
        distinct: ['threadId'],
      })
      const held = await tx.batch.findMany({ where: { threadId: id, goneAt: null }, select: { threadId: true } })
      const going = unused(
        rows,
        [...lines, ...held].map(({ threadId }) => threadId),
        stays,
      )
      await tx.thread.updateMany({ where: { id: idsOf(going) }, data: gone })
      return stays
    }
    case 'place': {
      for (const { nounId } of run) if (!(await takePlaceAway(writing, nounId))) stays.set(nounId, 'in-use')
      return stays
    }
    // Owners, makers, lines, designers and themes without anything of theirs are shown nowhere and harm nobody.
    case 'owner':
    case 'maker':
    case 'line':
    case 'designer':
    case 'theme':
      return stays
  }
}

/** @returns whether nothing is in it any more, so that it could go */
async function takePlaceAway({ tx, at }: Write, id: string): Promise<boolean> {
  const held = { where: { goneAt: null } }
  const used = await tx.place.findUniqueOrThrow({
    where: { id },
    select: {
      _count: {
        select: {
          children: held,
          batchesHome: held,
          batchesHere: held,
          clothHome: held,
          clothHere: held,
          chartsHome: held,
          chartsHere: held,
          notionsHome: held,
          notionsHere: held,
          projects: { where: { goneAt: null, status: { in: [...openStatuses] } } },
        },
      },
    },
  })
  if (Object.values(used._count).some((count) => count > 0)) return false
  await tx.place.update({ where: { id }, data: { goneAt: at, version: { increment: 1 } } })
  return true
}

async function putBackAll(writing: Write, run: readonly Step[], movements: BulkRow[]): Promise<Stays> {
  const stays: Stays = new Map()
  for (const step of run) {
    const why = await putBack(writing, step, movements)
    if (why !== null) stays.set(step.nounId, why)
  }
  return stays
}

/** @returns why the change stays; null when the values are as they were. */
async function putBack(writing: Write, step: Step, movements: BulkRow[]): Promise<Left | null> {
  const { tx } = writing
  const { noun, nounId: id } = step
  if (versioned.has(noun) && (await versionOf(writing, noun, id)) !== step.versionAfter) return 'changed-since'
  const before = JSON.parse(step.beforeJson ?? '{}') as Partial<RowOf[ImportedNoun]>
  if (noun === 'batch') {
    const now = await tx.batch.findUniqueOrThrow({ where: { id } })
    const was = { ...now, ...(before as Partial<RowOf['batch']>) }
    movements.push(
      movement(writing, {
        batchId: id,
        wholeDelta: was.wholePutUps - now.wholePutUps,
        partDeltaStrandTenths: was.partStrandTenths - now.partStrandTenths,
        fromPlaceId: now.currentPlaceId,
        toPlaceId: was.currentPlaceId,
      }),
    )
    await writeValues(writing, noun, id, before, was as unknown as RowOf['batch'])
    return null
  }
  if (noun === 'notion') {
    const now = await tx.notion.findUniqueOrThrow({ where: { id } })
    const was = { ...now, ...before } as unknown as RowOf['notion']
    const wholeDelta = was.count - now.count
    if (wholeDelta !== 0 || was.currentPlaceId !== now.currentPlaceId) {
      const places = { fromPlaceId: now.currentPlaceId, toPlaceId: was.currentPlaceId }
      movements.push(movement(writing, { notionId: id, wholeDelta, ...places }))
    }
    await writeValues(writing, noun, id, before, was)
    return null
  }
  if (noun === 'chart' || noun === 'cloth') {
    const now =
      noun === 'chart'
        ? await tx.chart.findUniqueOrThrow({ where: { id } })
        : await tx.clothPiece.findUniqueOrThrow({ where: { id } })
    const was = { ...now, ...before } as unknown as RowOf['chart'] & RowOf['cloth']
    const copies = 'copies' in now ? was.copies - now.copies : 0
    if (copies !== 0 || was.currentPlaceId !== now.currentPlaceId) {
      movements.push(
        movement(writing, {
          ...(noun === 'chart' ? { chartId: id } : { clothPieceId: id }),
          wholeDelta: copies,
          fromPlaceId: now.currentPlaceId,
          toPlaceId: was.currentPlaceId,
        }),
      )
    }
    await writeValues(writing, noun, id, before, was)
    return null
  }
  if (noun === 'list' && (await tx.threadList.count({ where: { id } })) === 0) return null
  await writeValues(writing, noun, id, before, { id, ...before } as unknown as RowOf[ImportedNoun])
  return null
}
