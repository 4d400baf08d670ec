import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import {
  type BatchOutcome,
  planUnpack,
  type ThingOutcome,
  type UnpackedGoods,
  type UnpackPlan,
  type UnpackRefused,
} from '#lib/stock/unpack'
import { lengthByWeight } from '#lib/thread/put-ups'
import type { Transaction } from '../client'
import { ensureNotFoundPlace } from '../missing/not-found-place'
import { openQuestion } from '../missing/report-missing'
import { newId } from '../new-id'
import { readMergeTargets } from '../project/merge-targets'
import { type ProjectSnapshot, readProject, writeProject } from '../project/project-row'
import { type ChangedMeanwhile, readBatches } from '../stock/apply-stock-change'
import type { NoSuchPlace, NoSuchProject } from '../stock/change-batch'
import { applyLargeChange } from '../walk/in-parts'
import { readWalkRanks } from '../walk/read-things'
import { createPutBackWalk, type PutBackLine } from '../walk/start-put-back'
import { write } from '../write'
import type { Write } from '../write-gate'
import { type AwayIn, readAwayIn } from './unpack-sheet'

/** What is left of all of a batch, by ruler, by the scales, or by eye in hundredths of a put-up. */
export type LeftInBag =
  | { how: 'measured'; strandTenths: number }
  | { how: 'weighed'; milligrams: number }
  | { how: 'guess'; putUpHundredths: number }

export type ThreadUnpacked = {
  batchId: string
  version?: number | undefined
  outcome: { kind: 'as-it-was' | 'used-up' | 'not-there' | 'stays' } | ({ kind: 'left' } & LeftInBag)
  /** Whole put-ups of it that were not in the bag; the outcome is of the others. */
  notThere?: number
  projectId: string | null
}

export type ThingUnpacked = { id: string; version?: number | undefined; outcome: ThingOutcome }

export type UnpackBag = {
  placeId: string
  /** What is not named stays in the bag. */
  threads: readonly ThreadUnpacked[]
  cloth?: readonly ThingUnpacked[]
  charts?: readonly ThingUnpacked[]
  notions?: readonly ThingUnpacked[]
  /** Projects under way that what goes back is promised to no more. One that was kitted is planned again. */
  freedProjectIds?: readonly string[]
  title: string
  who?: string | null
}

export type UnpackBagRefused =
  | NoSuchPlace
  | NoSuchProject
  | ChangedMeanwhile
  | UnpackRefused
  /** It does not lie there, lives there, is on a list already or is being looked for. */
  | { kind: 'not-in-bag'; noun: 'thread' | 'cloth' | 'chart' | 'notion'; id: string }
  | { kind: 'no-weight'; threadId: string }
  | { kind: 'not-used-up'; noun: 'cloth' | 'chart'; id: string }
  /** Everything is to stay as it is. */
  | { kind: 'nothing-to-do' }

export type Unpacked = Omit<UnpackPlan, 'change'> & {
  /** The list to tick; null when nothing is to be put back. */
  walkId: string | null
  missingIds: string[]
  /** The moment of it, by which it is found again. */
  at: Date
  revision: number
}

/**
 * Unpack a bag, in one write: what was used is used up, empties go to the reorder check, what was not there stays *out, last seen here*
 * with an open question, and the rest becomes a put-back list in walking order. The record has that in the bag until it is ticked home.
 */
export function unpackBag(input: UnpackBag): Promise<Result<Unpacked, UnpackBagRefused>> {
  return write<Unpacked, UnpackBagRefused>(async (writing) => {
    const { tx, at, revision } = writing
    const { placeId, title, who = null } = input
    const place = await tx.place.findFirst({ where: { id: placeId, goneAt: null }, select: { path: true } })
    if (!place) return refused({ kind: 'no-such-place', placeId })
    const away = await readAwayIn(tx, place)
    const things = await checkThings(tx, input, away)
    if (!things.ok) return things
    const freed = await freeProjects(writing, input)
    if (!freed.ok) return freed

    const threads = await unpackThreads(writing, input, away)
    if (!threads.ok) return threads
    const { change: _change, ...plan } = threads.value
    const missingIds: string[] = []
    const ask = { lastSeenPlaceId: placeId, walkId: null, note: null, who }
    for (const { batchId, projectId } of plan.missing) {
      missingIds.push(await openQuestion(writing, { batchId, projectId, ...ask }))
      writing.touch('batch', batchId)
    }
    const lines: PutBackLine[] = plan.back.map(threadLine)
    for (const [noun, rows] of things.value)
      for (const { id, outcome, count, homePlaceId, projectId } of rows) {
        const what = thingIdOf(noun, id)
        if (outcome === 'not-there') missingIds.push(await openQuestion(writing, { ...what, projectId, ...ask }))
        if (outcome === 'used-up') await spendNotion(writing, { id, count, placeId, projectId, who })
        if (outcome === 'back' && homePlaceId !== null)
          lines.push({ ...what, projectId, count, takesPart: false, toPlaceId: homePlaceId })
        if (outcome !== 'stays') writing.touch(noun, id)
      }
    if (lines.length === 0 && missingIds.length === 0 && plan.usedUp.length === 0 && threads.value.change.movements.length === 0)
      return refused({ kind: 'nothing-to-do' })
    const projectIds = lines.flatMap(({ projectId }) => projectId ?? [])
    const walk = lines.length > 0 ? await createPutBackWalk(writing, { title, placeId, projectIds, lines, who }) : null
    return ok({ ...plan, walkId: walk?.walkId ?? null, missingIds, at, revision })
  })
}

/** A leftover as a line of the list. */
export const threadLine = (
  goods: Pick<UnpackedGoods, 'batchId' | 'projectId' | 'wholePutUps' | 'partCertainty' | 'homePlaceId'>,
): PutBackLine => ({
  batchId: goods.batchId,
  projectId: goods.projectId,
  count: goods.wholePutUps,
  takesPart: goods.partCertainty !== 'none',
  toPlaceId: goods.homePlaceId,
})

type Noun = 'cloth' | 'chart' | 'notion'
const thingIdOf = (noun: Noun, id: string) =>
  noun === 'cloth' ? { clothPieceId: id } : noun === 'chart' ? { chartId: id } : { notionId: id }

type ThingRow = ThingUnpacked & { count: number; homePlaceId: string | null; projectId: string | null }

/** Every thing named lies there, as it was seen. */
async function checkThings(
  tx: Transaction,
  input: UnpackBag,
  away: AwayIn,
): Promise<Result<[Noun, ThingRow[]][], UnpackBagRefused>> {
  const said: [Noun, readonly ThingUnpacked[], string[]][] = [
    ['cloth', input.cloth ?? [], away.clothPieceIds],
    ['chart', input.charts ?? [], away.chartIds],
    ['notion', input.notions ?? [], away.notionIds],
  ]
  const checked: [Noun, ThingRow[]][] = []
  for (const [noun, things, ids] of said) {
    for (const { id, outcome } of things) {
      if (!ids.includes(id)) return refused({ kind: 'not-in-bag', noun, id })
      if (outcome === 'used-up' && noun !== 'notion') return refused({ kind: 'not-used-up', noun, id })
    }
    const rows = await readThings(tx, noun, ids)
    const rowOf = new Map(rows.map((row) => [row.id, row]))
    const named: ThingRow[] = []
    for (const thing of things) {
      const row = rowOf.get(thing.id)
      if (!row || (thing.version !== undefined && row.version !== thing.version)) return refused({ kind: 'changed-meanwhile' })
      named.push({ ...thing, count: row.count, homePlaceId: row.homePlaceId, projectId: row.projectId })
    }
    checked.push([noun, named])
  }
  return ok(checked)
}

type Lying = { id: string; version: number; homePlaceId: string | null; count: number; projectId: string | null }

async function readThings(tx: Transaction, noun: Noun, ids: readonly string[]): Promise<Lying[]> {
  if (ids.length === 0) return []
  const where = { id: { in: [...ids] } }
  const select = { id: true, version: true, homePlaceId: true } as const
  if (noun === 'notion') return tx.notion.findMany({ where, select: { ...select, count: true, projectId: true } })
  if (noun === 'chart') {
    const rows = await tx.chart.findMany({ where, select: { ...select, copies: true } })
    return rows.map(({ copies, ...row }) => ({ ...row, count: copies, projectId: null }))
  }
  const rows = await tx.clothPiece.findMany({ where, select: { ...select, keptForProjectId: true } })
  return rows.map(({ keptForProjectId, ...row }) => ({ ...row, count: 1, projectId: keptForProjectId }))
}

async function unpackThreads(writing: Write, input: UnpackBag, away: AwayIn): Promise<Result<UnpackPlan, UnpackBagRefused>> {
  const { tx } = writing
  for (const { batchId } of input.threads)
    if (!away.batchIds.includes(batchId)) return refused({ kind: 'not-in-bag', noun: 'thread', id: batchId })
  const { batches, promises, versions } = await readBatches(tx, { id: { in: input.threads.map(({ batchId }) => batchId) } })
  for (const { batchId, version } of input.threads)
    if (version !== undefined && versions.get(batchId) !== version) return refused({ kind: 'changed-meanwhile' })
  const projectIds = [...new Set(input.threads.flatMap(({ projectId }) => projectId ?? []))]
  const known = await tx.project.findMany({ where: { id: { in: projectIds }, goneAt: null }, select: { id: true } })
  const stranger = projectIds.find((id) => !known.some((project) => project.id === id))
  if (stranger) return refused({ kind: 'no-such-project', projectId: stranger })

  const batchOf = new Map(batches.map((batch) => [batch.id, batch]))
  const weights = await readWeights(
    tx,
    batches.map(({ threadId }) => threadId),
  )
  const outcomes: BatchOutcome[] = []
  for (const { batchId, outcome, notThere, projectId } of input.threads) {
    const batch = batchOf.get(batchId)
    if (!batch) return refused({ kind: 'changed-meanwhile' })
    const rest = { batchId, projectId, notThere: notThere ?? 0 }
    if (outcome.kind !== 'left') {
      outcomes.push({ ...rest, outcome: { kind: outcome.kind } })
      continue
    }
    const strandTenths = leftLength(outcome, batch.putUpStrandTenths, weights.get(batch.threadId) ?? null)
    if (strandTenths === null) return refused({ kind: 'no-weight', threadId: batch.threadId })
    const certainty = outcome.how === 'guess' ? 'guess' : 'measured'
    outcomes.push({ ...rest, outcome: { kind: 'left', strandTenths, certainty } })
  }
  const { mergeInto, atHome } = await readMergeTargets(tx, batches)
  const ranks = await readWalkRanks(
    tx,
    batches.map(({ homePlaceId }) => homePlaceId),
  )
  const isHomelessMissing = input.threads.some(
    ({ batchId, outcome, notThere = 0 }) =>
      batchOf.get(batchId)?.homePlaceId === null && (outcome.kind === 'not-there' || notThere > 0),
  )
  const planned = planUnpack({
    ...{ batches, promises, outcomes, mergeInto, walkRanks: ranks, newBatchId: newId },
    freedProjects: new Set(input.freedProjectIds ?? []),
    notFoundPlaceId: isHomelessMissing ? await ensureNotFoundPlace(writing) : null,
  })
  if (!planned.ok) return planned
  const applied = await applyLargeChange(writing, planned.value.change, {
    versions: new Map([...atHome.versions, ...versions]),
    who: input.who ?? null,
  })
  return applied.ok ? planned : applied
}

/** In strand tenths; null when it was weighed and nobody has said what a full put-up weighs. A share is rounded down, as all stock. */
function leftLength(left: LeftInBag, putUpStrandTenths: number, putUpMilligrams: number | null): number | null {
  if (left.how === 'measured') return left.strandTenths
  if (left.how === 'guess') return Math.floor((left.putUpHundredths * putUpStrandTenths) / 100)
  return putUpMilligrams ? lengthByWeight({ milligrams: left.milligrams, putUpMilligrams, putUpStrandTenths }) : null
}

async function readWeights(tx: Transaction, threadIds: readonly string[]): Promise<Map<string, number | null>> {
  const rows = await tx.thread.findMany({
    where: { id: { in: [...new Set(threadIds)] } },
    select: { id: true, line: { select: { putUpMilligrams: true } } },
  })
  return new Map(rows.map(({ id, line }) => [id, line.putUpMilligrams]))
}

/** A kit of which nothing is stitched yet is planned again once its thread goes back free. */
async function freeProjects(
  writing: Write,
  input: UnpackBag,
): Promise<Result<ProjectSnapshot[], NoSuchProject | ChangedMeanwhile>> {
  const freed: ProjectSnapshot[] = []
  for (const projectId of new Set(input.freedProjectIds ?? [])) {
    const read = await readProject(writing.tx, { projectId })
    if (!read.ok) return read
    freed.push(read.value)
    const written = await writeProject(writing, read.value, read.value.status === 'kitted' ? { status: 'planned' } : {})
    if (!written.ok) return written
  }
  return ok(freed)
}

/** Needles lost or broken, beads sewn on: they are not there any more. */
async function spendNotion(
  { tx, at, revision }: Write,
  used: { id: string; count: number; placeId: string; projectId: string | null; who: string | null },
): Promise<void> {
  const { id, count, placeId, projectId, who } = used
  await tx.notion.update({
    where: { id },
    data: { count: 0, goneAt: at, outSince: null, projectId: null, version: { increment: 1 } },
  })
  await tx.movement.create({
    data: {
      ...{ id: newId(), revision, at, kind: 'use', notionId: id, wholeDelta: -count, fromPlaceId: placeId, projectId, who },
      reason: 'used up',
    },
  })
}
