import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { isOut } from '#lib/stock/batch'
import { planCorrect } from '#lib/stock/plan-amounts'
import { planSplit } from '#lib/stock/plan-batches'
import { planMove, planReturn } from '#lib/stock/plan-place'
import type { NotEnough, NotEnoughFree, NothingParted, StockChange } from '#lib/stock/stock-change'
import { journalChart } from '../chart/claim-chart'
import { journalCloth } from '../cloth/claim-cloth'
import { goneNow } from '../cloth/remove-cloth'
import { newId } from '../new-id'
import { journalNotion } from '../notion/claim-notion'
import { ensurePlace } from '../place/ensure-place'
import { readMergeTargets } from '../project/merge-targets'
import { applyStockChange, type ChangedMeanwhile, readBatches } from '../stock/apply-stock-change'
import { putNotionHome, putThingBack } from '../walk/carry-things'
import { write } from '../write'
import type { Write } from '../write-gate'

export type SettleRefused =
  | ChangedMeanwhile
  | { kind: 'no-such-question' }
  | { kind: 'settled-already' }
  | { kind: 'no-home' }
  | { kind: 'no-reason' }
  | { kind: 'not-enough' }
  | { kind: 'nothing-parted' }

type Question = {
  id: string
  version: number
  batchId: string | null
  clothPieceId: string | null
  chartId: string | null
  notionId: string | null
  lastSeenPlaceId: string | null
}

type SettleEdit = { missingId: string; version?: number | undefined; who?: string | null }

/** Where a thing was found: it lies at home now, it was where it was seen last after all, or somewhere else. */
export type FoundWhere = { kind: 'home' } | { kind: 'last-seen' } | { kind: 'place'; label: string }

/**
 * A thing that was missing is found: the record follows to where it is now. Found at home it is laid with its like; anywhere else it is out
 * there. When only some of a batch turned up, the question stays open for the rest.
 */
export function foundMissing(
  input: SettleEdit & {
    where: FoundWhere
    found?: { wholePutUps: number; takesPart: boolean } | undefined
    note?: string | null
  },
): Promise<Result<{ isAll: boolean }, SettleRefused>> {
  return write<{ isAll: boolean }, SettleRefused>(async (writing) => {
    const asked = await claimQuestion(writing, input)
    if (!asked.ok) return asked
    const question = asked.value
    const { where, who = null, note = null } = input
    if (where.kind === 'last-seen' && question.lastSeenPlaceId === null) return refused({ kind: 'no-home' })
    const toPlaceId =
      where.kind === 'home' ? null : where.kind === 'place' ? await ensurePlace(writing, where.label) : question.lastSeenPlaceId
    if (question.batchId !== null) {
      const moved = await bringBatch(writing, question.batchId, { toPlaceId, found: input.found, who })
      if (!moved.ok) return moved
      if (!moved.value.isAll) return ok({ isAll: false })
    } else {
      const moved = await bringThing(writing, question, { toPlaceId, who })
      if (!moved.ok) return moved
    }
    await settle(writing, question.id, { status: 'found', who, note })
    return ok({ isAll: true })
  })
}

/**
 * Nobody looks for it any longer: it is written off, with the reason, as a correction. The question stays to be read.
 */
export function giveUpMissing(input: SettleEdit & { reason: string }): Promise<Result<null, SettleRefused>> {
  return write<null, SettleRefused>(async (writing) => {
    const reason = input.reason.trim()
    if (reason === '') return refused({ kind: 'no-reason' })
    const asked = await claimQuestion(writing, input)
    if (!asked.ok) return asked
    const question = asked.value
    const { who = null } = input
    const said = `given up: ${reason}`
    const done =
      question.batchId !== null
        ? await writeOffBatch(writing, question.batchId, said, who)
        : await writeOffThing(writing, question, said, who)
    if (!done.ok) return done
    await settle(writing, question.id, { status: 'given up', who, note: reason })
    return ok(null)
  })
}

async function claimQuestion({ tx }: Write, edit: SettleEdit): Promise<Result<Question, SettleRefused>> {
  const row = await tx.missingThing.findUnique({
    where: { id: edit.missingId },
    select: {
      ...{ id: true, version: true, status: true, lastSeenPlaceId: true },
      ...{ batchId: true, clothPieceId: true, chartId: true, notionId: true },
    },
  })
  if (!row) return refused({ kind: 'no-such-question' })
  if (row.status !== 'open') return refused({ kind: 'settled-already' })
  if (edit.version !== undefined && edit.version !== row.version) return refused({ kind: 'changed-meanwhile' })
  const claimed = await tx.missingThing.updateMany({
    where: { id: row.id, version: row.version, status: 'open' },
    data: { version: { increment: 1 } },
  })
  return claimed.count === 0 ? refused({ kind: 'changed-meanwhile' }) : ok(row)
}

const settle = async (
  { tx, at }: Write,
  id: string,
  { status, who, note }: { status: 'found' | 'given up'; who: string | null; note: string | null },
): Promise<void> => {
  const data = { status, settledAt: at, settledBy: who, ...(note !== null && { note }) }
  await tx.missingThing.update({ where: { id }, data })
}

type Bring = { toPlaceId: string | null; found?: { wholePutUps: number; takesPart: boolean } | undefined; who: string | null }

async function bringBatch(writing: Write, batchId: string, bring: Bring): Promise<Result<{ isAll: boolean }, SettleRefused>> {
  const { tx } = writing
  const { found, who } = bring
  const { batches, promises, versions } = await readBatches(tx, { id: batchId })
  const batch = batches[0]
  if (!batch) return refused({ kind: 'changed-meanwhile' })
  const toPlaceId = bring.toPlaceId ?? batch.homePlaceId
  if (toPlaceId === null) return refused({ kind: 'no-home' })
  const isAll = !found || (found.wholePutUps >= batch.wholePutUps && (found.takesPart || batch.partCertainty === 'none'))
  if (!isAll) {
    const split = planSplit(batch, { ...found, currentPlaceId: toPlaceId, newBatchId: newId(), reason: 'found', promises })
    if (!split.ok) return refusedAs(split.error)
    const applied = await applyStockChange(writing, split.value, { versions, who })
    return applied.ok ? ok({ isAll }) : applied
  }
  if (batch.currentPlaceId === toPlaceId) {
    writing.touch('batch', batchId)
    return ok({ isAll })
  }
  if (toPlaceId !== batch.homePlaceId) {
    const moved = planMove(batch, { toPlaceId, becomesHome: false, reason: 'found' })
    if (!moved.ok) return refused({ kind: 'changed-meanwhile' })
    const applied = await applyStockChange(writing, moved.value, { versions, who })
    return applied.ok ? ok({ isAll }) : applied
  }
  const { mergeInto, atHome } = await readMergeTargets(tx, [batch])
  const back = planReturn(batch, {
    atHome: mergeInto.get(batchId) ?? null,
    reason: 'found',
    promises: [...promises, ...atHome.promises.filter(({ batchId: other }) => other !== batchId)],
  })
  if (!back.ok) return refused({ kind: 'changed-meanwhile' })
  const applied = await applyStockChange(writing, back.value, { versions: new Map([...atHome.versions, ...versions]), who })
  return applied.ok ? ok({ isAll }) : applied
}

function refusedAs(error: NotEnough | NotEnoughFree | NothingParted | { kind: 'nothing-left' }): Result<never, SettleRefused> {
  return refused({ kind: error.kind === 'nothing-parted' ? 'nothing-parted' : 'not-enough' })
}

async function bringThing(writing: Write, question: Question, { toPlaceId, who }: Bring): Promise<Result<null, SettleRefused>> {
  const { tx, at, touch } = writing
  const { clothPieceId, chartId, notionId } = question
  const id = clothPieceId ?? chartId ?? notionId ?? ''
  const asked = { where: { id, goneAt: null }, select: { homePlaceId: true, currentPlaceId: true, outSince: true } } as const
  const row = clothPieceId
    ? await tx.clothPiece.findFirst(asked)
    : chartId
      ? await tx.chart.findFirst(asked)
      : await tx.notion.findFirst(asked)
  if (!row) return refused({ kind: 'changed-meanwhile' })
  const goal = toPlaceId ?? row.homePlaceId
  if (goal === null) return refused({ kind: 'no-home' })
  if (goal === row.homePlaceId && isOut(row)) {
    if (notionId) await putNotionHome(writing, notionId)
    else await putThingBack(writing, { clothPieceId, chartId, projectId: null, toPlaceId: goal, who })
    return ok(null)
  }
  if (goal === row.currentPlaceId) {
    touch(clothPieceId ? 'cloth' : chartId ? 'chart' : 'notion', id)
    return ok(null)
  }
  const isAway = isOut({ homePlaceId: row.homePlaceId, currentPlaceId: goal })
  const data = { currentPlaceId: goal, outSince: isAway ? (row.outSince ?? at) : null, version: { increment: 1 } }
  const journal = { kind: 'move', fromPlaceId: row.currentPlaceId, toPlaceId: goal, who, reason: 'found' }
  if (clothPieceId) {
    await tx.clothPiece.update({ where: { id }, data })
    await journalCloth(writing, { ...journal, clothPieceId })
    touch('cloth', id)
  } else if (chartId) {
    await tx.chart.update({ where: { id }, data })
    await journalChart(writing, { ...journal, chartId })
    await touchDesigns(writing, chartId)
  } else if (notionId) {
    await tx.notion.update({ where: { id }, data })
    await journalNotion(writing, { ...journal, notionId })
    touch('notion', id)
  }
  return ok(null)
}

async function touchDesigns({ tx, touch }: Write, chartId: string): Promise<void> {
  touch('chart', chartId)
  for (const { id } of await tx.design.findMany({ where: { chartId }, select: { id: true } })) touch('design', id)
}

async function writeOffBatch(
  writing: Write,
  batchId: string,
  reason: string,
  who: string | null,
): Promise<Result<null, SettleRefused>> {
  const { batches, versions } = await readBatches(writing.tx, { id: batchId })
  const batch = batches[0]
  if (!batch) return refused({ kind: 'changed-meanwhile' })
  const corrected = planCorrect(batch, { wholePutUps: 0, partStrandTenths: 0, partCertainty: 'none', reason })
  const change: StockChange = corrected.ok ? corrected.value : { batches: [], movements: [], promises: [] }
  const left = change.batches[0] ?? { ...batch, isNew: false, isGone: false, parentId: null }
  if (isOut(batch)) {
    // The empty row is not out: it goes up in its like at home, or waits there for the thread to be bought again.
    const { mergeInto, atHome } = await readMergeTargets(writing.tx, [batch])
    const home = planReturn(left, { atHome: mergeInto.get(batchId) ?? null, reason })
    if (home.ok) {
      change.batches = home.value.batches
      change.movements.push(...home.value.movements)
      for (const [id, version] of atHome.versions) if (!versions.has(id)) versions.set(id, version)
    }
  }
  const applied = await applyStockChange(writing, change, { versions, who })
  return applied.ok ? ok(null) : applied
}

async function writeOffThing(
  writing: Write,
  { clothPieceId, chartId, notionId }: Question,
  reason: string,
  who: string | null,
): Promise<Result<null, SettleRefused>> {
  const { tx, at, touch } = writing
  const where = { id: clothPieceId ?? chartId ?? notionId ?? '', goneAt: null }
  if (clothPieceId) {
    const piece = await tx.clothPiece.findFirst({ where, select: { ownerId: true, currentPlaceId: true } })
    if (!piece) return refused({ kind: 'changed-meanwhile' })
    const data = { ...goneNow(at), keptForProjectId: null, version: { increment: 1 } }
    await tx.clothPiece.update({ where: { id: clothPieceId }, data })
    const journal = { fromPlaceId: piece.currentPlaceId, fromOwnerId: piece.ownerId, reason, who }
    await journalCloth(writing, { kind: 'correct', clothPieceId, wholeDelta: -1, ...journal })
    touch('cloth', clothPieceId)
    return ok(null)
  }
  if (chartId) {
    const chart = await tx.chart.findFirst({ where, select: { ownerId: true, currentPlaceId: true, copies: true } })
    if (!chart) return refused({ kind: 'changed-meanwhile' })
    await tx.chart.update({ where: { id: chartId }, data: { goneAt: at, outSince: null, version: { increment: 1 } } })
    const journal = { fromPlaceId: chart.currentPlaceId, fromOwnerId: chart.ownerId, reason, who }
    await journalChart(writing, { kind: 'correct', chartId, wholeDelta: -chart.copies, ...journal })
    await touchDesigns(writing, chartId)
    return ok(null)
  }
  const notion = await tx.notion.findFirst({ where, select: { ownerId: true, currentPlaceId: true, count: true } })
  if (!notion || notionId === null) return refused({ kind: 'changed-meanwhile' })
  const data = { count: 0, goneAt: at, projectId: null, outSince: null, version: { increment: 1 } }
  await tx.notion.update({ where: { id: notionId }, data })
  const journal = { fromPlaceId: notion.currentPlaceId, fromOwnerId: notion.ownerId, reason, who }
  await journalNotion(writing, { kind: 'correct', notionId, wholeDelta: -notion.count, ...journal })
  touch('notion', notionId)
  return ok(null)
}
