import 'server-only'
import type { ImportedNoun, RowOf } from '#lib/importing/snapshot'
import { openStatuses } from '#lib/project/life-cycle'
import type { Result } from '#lib/result'
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
    for (const step of steps) {
      const why = step.did === 'added' ? await takeAway(writing, step, movements) : await putBack(writing, step, movements)
      if (why === null) undone.takenBack++
      else undone.left.push({ noun: step.noun, nounId: step.nounId, why })
    }
    if (steps.some(({ noun }) => noun === 'place')) await setPlacePaths(writing)
    await bulkInsert(
      tx,
      writing.engine,
      'Movement',
      movements.map((movement) => ({ ...movement, importId, reason: `${found.fileName} taken back` })),
    )
    touch('everything', '*')
    return { ok: true, value: undone }
  }, undoTimeoutMs)
}

async function isChangedSince(writing: Write, { noun, nounId, versionAfter }: Step): Promise<boolean> {
  return versioned.has(noun) && (await versionOf(writing, noun, nounId)) !== versionAfter
}

const movement = (writing: Write, change: BulkRow): BulkRow => ({
  id: newId(),
  revision: writing.revision,
  at: timestamp(writing.at),
  kind: 'undo',
  batchId: null,
  clothPieceId: null,
  chartId: null,
  wholeDelta: 0,
  partDeltaStrandTenths: 0,
  fromPlaceId: null,
  toPlaceId: null,
  ...change,
})

/** @returns why it stays; null when it is gone. */
async function takeAway(writing: Write, step: Step, movements: BulkRow[]): Promise<Left | null> {
  const { tx, at } = writing
  const { noun, nounId: id } = step
  const gone = { goneAt: at, version: { increment: 1 } } as const
  switch (noun) {
    case 'batch': {
      if (await isChangedSince(writing, step)) return 'changed-since'
      if ((await tx.stockPromise.count({ where: { batchId: id } })) > 0) return 'in-use'
      const batch = await tx.batch.findUniqueOrThrow({ where: { id } })
      movements.push(
        movement(writing, {
          batchId: id,
          wholeDelta: -batch.wholePutUps,
          partDeltaStrandTenths: -batch.partStrandTenths,
          fromPlaceId: batch.currentPlaceId,
        }),
      )
      await tx.batch.update({ where: { id }, data: { ...gone, wholePutUps: 0, partStrandTenths: 0, partCertainty: 'none' } })
      return null
    }
    case 'cloth': {
      if (await isChangedSince(writing, step)) return 'changed-since'
      if ((await tx.project.count({ where: { clothPieceId: id, goneAt: null } })) > 0) return 'in-use'
      const piece = await tx.clothPiece.update({ where: { id }, data: { ...gone, labelKey: null } })
      movements.push(movement(writing, { clothPieceId: id, wholeDelta: -1, fromPlaceId: piece.currentPlaceId }))
      return null
    }
    case 'chart': {
      if (await isChangedSince(writing, step)) return 'changed-since'
      if ((await tx.project.count({ where: { design: { chartId: id }, goneAt: null } })) > 0) return 'in-use'
      const chart = await tx.chart.update({ where: { id }, data: gone })
      movements.push(movement(writing, { chartId: id, wholeDelta: -chart.copies, fromPlaceId: chart.currentPlaceId }))
      return null
    }
    case 'design': {
      if (await isChangedSince(writing, step)) return 'changed-since'
      const design = await tx.design.findUnique({ where: { id }, select: { _count: { select: { projects: true } } } })
      if (design === null) return null
      if (design._count.projects > 0) return 'in-use'
      await tx.design.delete({ where: { id } })
      return null
    }
    case 'list': {
      if (await isChangedSince(writing, step)) return 'changed-since'
      if ((await tx.project.count({ where: { threadListId: id } })) > 0) return 'in-use'
      await tx.threadList.deleteMany({ where: { id } })
      return null
    }
    case 'project': {
      if (await isChangedSince(writing, step)) return 'changed-since'
      const counts = await tx.project.findUniqueOrThrow({
        where: { id },
        select: { _count: { select: { promises: true, movements: true } } },
      })
      if (counts._count.promises + counts._count.movements > 0) return 'in-use'
      await tx.project.update({ where: { id }, data: gone })
      return null
    }
    case 'standIn':
      await tx.standIn.deleteMany({ where: { id } })
      return null
    case 'thread': {
      const used = await tx.thread.findUniqueOrThrow({
        where: { id },
        select: { _count: { select: { keyLines: true, batches: { where: { goneAt: null } } } } },
      })
      if (used._count.keyLines + used._count.batches > 0) return 'in-use'
      await tx.thread.update({ where: { id }, data: gone })
      return null
    }
    case 'place': {
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
              projects: { where: { goneAt: null, status: { in: [...openStatuses] } } },
            },
          },
        },
      })
      if (Object.values(used._count).some((count) => count > 0)) return 'in-use'
      await tx.place.update({ where: { id }, data: gone })
      return null
    }
    // Owners, makers, lines, designers and themes without anything of theirs are shown nowhere and harm nobody.
    case 'owner':
    case 'maker':
    case 'line':
    case 'designer':
    case 'theme':
      return null
  }
}

/** @returns why the change stays; null when the values are as they were. */
async function putBack(writing: Write, step: Step, movements: BulkRow[]): Promise<Left | null> {
  const { tx } = writing
  const { noun, nounId: id } = step
  if (await isChangedSince(writing, step)) return 'changed-since'
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
