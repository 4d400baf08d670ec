import 'server-only'
import type { ChartKind } from '#lib/chart/design'
import { mayLendChart } from '#lib/loan/chart-out'
import type { LoanKind } from '#lib/loan/loan'
import { isPeople, type PlaceKind } from '#lib/place/place'
import { ok, type Result, refused } from '#lib/result'
import { isOut } from '#lib/stock/batch'
import { planTake } from '#lib/stock/plan-place'
import { claimChart, journalChart } from '../chart/claim-chart'
import type { Transaction } from '../client'
import { claimCloth, journalCloth } from '../cloth/claim-cloth'
import { readKeptCloth } from '../cloth/kept-cloth'
import { newId } from '../new-id'
import { claimNotion, journalNotion } from '../notion/claim-notion'
import { readProject, writeProject } from '../project/project-row'
import { applyStockChange, readBatches } from '../stock/apply-stock-change'
import type { Write } from '../write-gate'
import type { LoanRefusal } from './loan-refusal'

type Seen = { id: string; version?: number }

/** One thing that goes along; `version` is what the person saw, left out it is taken as it stands. */
export type LoanThing =
  | ({ noun: 'chart'; count: number } & Seen)
  | ({ noun: 'batch'; wholePutUps: number; takesPart: boolean } & Seen)
  | ({ noun: 'cloth' } & Seen)
  | ({ noun: 'notion'; count: number } & Seen)
  | ({ noun: 'project' } & Seen)
  | { noun: 'text'; text: string; count: number }

/** The hands things go to. What lies in the bag of a project that is sent away goes along with it, though it is out. */
export type Hand = {
  kind: LoanKind
  ownerId: string
  /** Where the things are from now on. */
  toPlaceId: string | null
  projectId: string | null
  bagPlaceId: string | null
  reason: string
  who: string | null
  /** When it left: for a loan written down later than it was made, noon of its first day. */
  since: Date
}

type Handed = { key: string; name: string; line: object; count: number; leavesNone: boolean }
type Handing = Promise<Result<Handed, LoanRefusal>>

/** Hand one thing over: where it is, and its line of the journal. Refused when it is not there to be handed over. */
export async function handOver(open: Write, thing: LoanThing, hand: Hand): Handing {
  switch (thing.noun) {
    case 'chart':
      return handChart(open, thing, hand)
    case 'batch':
      return handBatch(open, thing, hand)
    case 'cloth':
      return handCloth(open, thing, hand)
    case 'notion':
      return handNotion(open, thing, hand)
    case 'project':
      return handWork(open, thing, hand)
    case 'text':
      return ok({ key: '', name: thing.text, line: { text: thing.text }, count: thing.count, leavesNone: false })
  }
}

/** Whose it must be: lent and sent are one's own, borrowed are another's. */
function checkOwner(hand: Hand, { ownerId, name }: { ownerId: string; name: string }): Result<null, LoanRefusal> {
  if (hand.kind === 'borrow')
    return ownerId === hand.ownerId
      ? refused({ kind: 'own-thing', name })
      : hand.toPlaceId === null
        ? refused({ kind: 'not-kept-anywhere', name })
        : ok(null)
  return ownerId === hand.ownerId ? ok(null) : refused({ kind: 'other-owner', name })
}

type Lying = { homePlaceId: string | null; currentPlaceId: string | null }

/** Whether it lies where it may be taken from: at home, or in the bag of the project that goes along. */
async function checkLying(
  tx: Transaction,
  hand: Hand,
  { name, ...where }: Lying & { name: string },
): Promise<Result<null, LoanRefusal>> {
  const isInBag = hand.bagPlaceId !== null && where.currentPlaceId === hand.bagPlaceId
  if (isInBag) return ok(null)
  if (isOut(where)) return refused({ kind: 'is-out', name, placeLabel: await labelOf(tx, where.currentPlaceId) })
  return where.homePlaceId === null ? refused({ kind: 'no-home', name }) : ok(null)
}

const labelOf = async (tx: Transaction, placeId: string | null): Promise<string> =>
  (await tx.place.findUnique({ where: { id: placeId ?? '' }, select: { label: true } }))?.label ?? ''

const missing = (noun: string, id: string) => refused({ kind: 'no-such-thing' as const, noun, id })

/** Copies of a chart that are with somebody on loans not closed. */
export async function readCopiesOut(tx: Pick<Transaction, 'loanLine'>, chartId: string): Promise<number> {
  const { _sum: sum } = await tx.loanLine.aggregate({
    where: { chartId, backOn: null, loan: { closedOn: null } },
    _sum: { count: true },
  })
  return sum.count ?? 0
}

async function handChart(open: Write, thing: { id: string; version?: number; count: number }, hand: Hand): Handing {
  const { tx } = open
  const seen = await tx.chart.findFirst({ where: { id: thing.id, goneAt: null }, select: { version: true } })
  if (!seen) return missing('chart', thing.id)
  const claim = await claimChart(open, { id: thing.id, version: thing.version ?? seen.version })
  if (!claim.ok) return claim
  const { id, title: name, kind, copies, ownerId, homePlaceId, currentPlaceId } = claim.value
  const owned = checkOwner(hand, { ownerId, name })
  if (!owned.ok) return owned
  const isInBag = hand.bagPlaceId !== null && currentPlaceId === hand.bagPlaceId
  const awayAt = !isInBag && isOut({ homePlaceId, currentPlaceId }) ? await labelOf(tx, currentPlaceId) : null
  const copiesOut = await readCopiesOut(tx, id)
  const hasHome = isInBag || homePlaceId !== null
  const may = mayLendChart({ kind: kind as ChartKind, copies, copiesOut, awayAt, hasHome }, thing.count)
  if (!may.ok) return refused({ ...may.error, name })
  const { leavesNone } = may.value
  if (leavesNone && hand.toPlaceId !== null)
    await tx.chart.update({
      where: { id },
      data: { currentPlaceId: hand.toPlaceId, ...(homePlaceId !== null && !isInBag && { outSince: hand.since }) },
    })
  await journalChart(open, {
    kind: 'take',
    chartId: id,
    fromPlaceId: currentPlaceId ?? homePlaceId,
    toPlaceId: hand.toPlaceId,
    projectId: hand.projectId,
    reason: copies > 1 ? `${thing.count} of ${copies} copies: ${hand.reason}` : hand.reason,
    who: hand.who,
  })
  return ok({ key: `chart ${id}`, name, line: { chartId: id }, count: thing.count, leavesNone })
}

async function handBatch(
  open: Write,
  thing: { id: string; version?: number; wholePutUps: number; takesPart: boolean },
  hand: Hand,
): Handing {
  const { tx } = open
  const { batches, promises, versions } = await readBatches(tx, { id: thing.id })
  const batch = batches[0]
  if (!batch) return missing('batch', thing.id)
  if (thing.version !== undefined && thing.version !== versions.get(batch.id)) return refused({ kind: 'changed-meanwhile' })
  const { code, line } = await tx.thread.findUniqueOrThrow({
    where: { id: batch.threadId },
    select: { code: true, line: { select: { maker: { select: { name: true } } } } },
  })
  const name = `${line.maker.name} ${code}`
  const owned = checkOwner(hand, { ownerId: batch.ownerId, name })
  if (!owned.ok) return owned
  const lying = await checkLying(tx, hand, { ...batch, name })
  if (!lying.ok) return lying
  const { wholePutUps, takesPart } = thing
  if (wholePutUps === 0 && !takesPart) return refused({ kind: 'nothing-in-it' })
  const toPlaceId = hand.toPlaceId ?? ''
  const { projectId, reason } = hand
  const taken = planTake(batch, { wholePutUps, takesPart, toPlaceId, projectId, reason, newBatchId: newId(), promises })
  if (!taken.ok) {
    if (taken.error.kind === 'not-enough-free') return refused({ kind: 'promised', name })
    if (taken.error.kind === 'already-there') return refused({ kind: 'is-out', name, placeLabel: await labelOf(tx, toPlaceId) })
    return refused({ kind: 'not-so-many', name, atHome: batch.wholePutUps })
  }
  const applied = await applyStockChange(open, taken.value, { versions, who: hand.who })
  if (!applied.ok) return applied
  const batchId = taken.value.batches.find(({ isNew }) => isNew)?.id ?? batch.id
  if (!isOut(batch))
    await tx.batch.updateMany({ where: { id: batchId, outSince: { not: null } }, data: { outSince: hand.since } })
  return ok({ key: `batch ${batch.id}`, name, line: { batchId }, count: Math.max(1, wholePutUps), leavesNone: false })
}

async function handCloth(open: Write, thing: Seen, hand: Hand): Handing {
  const { tx } = open
  const seen = await tx.clothPiece.findFirst({ where: { id: thing.id, goneAt: null }, select: { version: true, name: true } })
  if (!seen) return missing('cloth', thing.id)
  const claim = await claimCloth(open, { id: thing.id, version: thing.version ?? seen.version })
  if (!claim.ok) return refused({ kind: 'changed-meanwhile' })
  const { id, label, ownerId, homePlaceId, currentPlaceId } = claim.value
  const name = [label, seen.name].filter(Boolean).join(' ')
  const owned = checkOwner(hand, { ownerId, name })
  if (!owned.ok) return owned
  const lying = await checkLying(tx, hand, { homePlaceId, currentPlaceId, name })
  if (!lying.ok) return lying
  const kept = (await readKeptCloth(tx, [id])).get(id)
  const by = kept?.projects.find(({ projectId }) => projectId !== hand.projectId) ?? kept?.plans[0]
  if (by) return refused({ kind: 'kept', name, title: by.title })
  const isHomeless = homePlaceId === null
  await tx.clothPiece.update({
    where: { id },
    data: {
      currentPlaceId: hand.toPlaceId,
      ...(!isHomeless && !isOut({ homePlaceId, currentPlaceId }) && { outSince: hand.since }),
    },
  })
  const { toPlaceId, projectId, reason, who } = hand
  await journalCloth(open, { kind: 'take', clothPieceId: id, fromPlaceId: currentPlaceId, toPlaceId, projectId, reason, who })
  return ok({ key: `cloth ${id}`, name, line: { clothPieceId: id }, count: 1, leavesNone: true })
}

async function handNotion(open: Write, thing: Seen & { count: number }, hand: Hand): Handing {
  const { tx, touch } = open
  const seen = await tx.notion.findFirst({ where: { id: thing.id, goneAt: null }, select: { version: true } })
  if (!seen) return missing('notion', thing.id)
  const claim = await claimNotion(open, { id: thing.id, version: thing.version ?? seen.version })
  if (!claim.ok) return refused({ kind: 'changed-meanwhile' })
  const { project, ...held } = claim.value
  const name = [held.name, held.size].filter(Boolean).join(', ')
  const owned = checkOwner(hand, { ownerId: held.ownerId, name })
  if (!owned.ok) return owned
  if (project && held.projectId !== hand.projectId) return refused({ kind: 'in-use', name, title: project.design.title })
  const lying = await checkLying(tx, hand, { ...held, name })
  if (!lying.ok) return lying
  const { id, homePlaceId, currentPlaceId } = held
  const { count } = thing
  if (count > held.count) return refused({ kind: 'not-so-many', name, atHome: held.count })
  const there = { currentPlaceId: hand.toPlaceId, ...(!isOut(held) && homePlaceId !== null && { outSince: hand.since }) }
  const { toPlaceId, projectId, reason, who } = hand
  const places = { fromPlaceId: currentPlaceId, toPlaceId, projectId, reason, who }
  if (count === held.count) {
    await tx.notion.update({ where: { id }, data: there })
    await journalNotion(open, { kind: 'take', notionId: id, ...places })
    return ok({ key: `notion ${id}`, name, line: { notionId: id }, count, leavesNone: true })
  }
  const takenId = newId()
  await tx.notion.update({ where: { id }, data: { count: held.count - count } })
  // How many there should be is said of what stays.
  await tx.notion.create({ data: { ...held, id: takenId, count, minimum: null, ...there } })
  await journalNotion(open, { kind: 'split', notionId: id, wholeDelta: -count, ...places })
  await journalNotion(open, { kind: 'take', notionId: takenId, wholeDelta: count, ...places })
  touch('notion', takenId)
  return ok({ key: `notion ${id}`, name, line: { notionId: takenId }, count, leavesNone: false })
}

/** The work itself: the project is where it is. */
async function handWork(open: Write, thing: Seen, hand: Hand): Handing {
  const { tx } = open
  const read = await readProject(tx, { projectId: thing.id, version: thing.version })
  if (!read.ok) return read.error.kind === 'no-such-project' ? missing('project', thing.id) : refused(read.error)
  const project = read.value
  const { title } = await tx.design.findUniqueOrThrow({ where: { id: project.designId }, select: { title: true } })
  const owned = checkOwner(hand, { ownerId: project.ownerId, name: title })
  if (!owned.ok) return owned
  const there = await tx.place.findUnique({ where: { id: project.placeId ?? '' }, select: { kind: true, label: true } })
  const isLent = await tx.loanLine.count({ where: { projectId: project.id, backOn: null, loan: { closedOn: null } } })
  if (isLent > 0 && there && isPeople(there.kind as PlaceKind))
    return refused({ kind: 'is-out', name: title, placeLabel: there.label })
  const written = await writeProject(open, project, { placeId: hand.toPlaceId })
  if (!written.ok) return written
  return ok({ key: `project ${project.id}`, name: title, line: { projectId: project.id }, count: 1, leavesNone: true })
}
