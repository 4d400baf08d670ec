import 'server-only'
import { isPeople, type PlaceKind, peopleKinds } from '#lib/place/place'
import { openStatuses } from '#lib/project/life-cycle'
import { ok, type Result, refused } from '#lib/result'
import { isOut } from '#lib/stock/batch'
import { planReturn, planTake } from '#lib/stock/plan-place'
import { claimChart, journalChart } from '../chart/claim-chart'
import { claimCloth, journalCloth } from '../cloth/claim-cloth'
import { claimNotion, journalNotion } from '../notion/claim-notion'
import { layNotionBack } from '../notion/put-back-notion'
import { ensurePlace } from '../place/ensure-place'
import { readProject, writeProject } from '../project/project-row'
import { applyStockChange, readBatches } from '../stock/apply-stock-change'
import { findEqualAtHome } from '../stock/find-equal-at-home'
import { write } from '../write'
import type { Write } from '../write-gate'
import { claimLoan, type HeldLoan, type LoanEdit } from './claim-loan'
import type { LoanRefusal } from './loan-refusal'

type Line = HeldLoan['lines'][number]

/** Where things go that come back: each where it lives, unless it came out of the bag of a kit that is still in work. */
type Back = {
  loan: HeldLoan
  on: string
  reason: string | null
  who: string | null
  /** Where the kit is from now on; null when nobody said and no bag is known. */
  kitPlaceId: string | null
  isKitOpen: boolean
}

/**
 * Take things back, all of a loan's or some: each goes where it lives, on the record, or into the bag of its kit while that is in work.
 * When nothing is out any more, the loan is closed. What was put somewhere else meanwhile stays there and is only ticked.
 *
 * @param input.lineIds     null for all that is not back yet
 * @param input.on          yyyy-mm-dd
 * @param input.placeLabel  where the project's work is now; left out, where its kit was before, which only a kit in work says
 */
export function takeBack(
  input: LoanEdit & { lineIds: readonly string[] | null; on: string; note: string | null; placeLabel: string | null },
): Promise<Result<{ left: number }, LoanRefusal>> {
  return write<{ left: number }, LoanRefusal>(async (open) => {
    const { tx } = open
    const { lineIds, on, note, placeLabel, who = null } = input
    const claimed = await claimLoan(tx, input)
    if (!claimed.ok) return claimed
    const loan = claimed.value
    if (on < loan.fromOn) return refused({ kind: 'back-before', fromOn: loan.fromOn })
    const notBack = loan.lines.filter(({ backOn }) => backOn === null)
    const lines = lineIds === null ? notBack : notBack.filter(({ id }) => lineIds.includes(id))
    if (lineIds !== null && lines.length !== new Set(lineIds).size) return refused({ kind: 'no-such-line' })

    const project = loan.projectId === null ? null : await readProject(tx, { projectId: loan.projectId })
    const isKitOpen = project?.ok === true && openStatuses.some((status) => status === project.value.status)
    const saidPlaceId = placeLabel === null ? null : await ensurePlace(open, placeLabel)
    const kitPlaceId = saidPlaceId ?? (await bagBefore(open, loan)) ?? (isKitOpen ? await lastPlaceOf(open, loan) : null)
    const back: Back = { loan, on, reason: note, who, kitPlaceId, isKitOpen }
    for (const line of lines) {
      const returned = await bringBack(open, line, back)
      if (!returned.ok) return returned
    }
    await tx.loanLine.updateMany({
      where: { id: { in: lines.map(({ id }) => id) } },
      data: { backOn: on, backNote: note },
    })
    const left = notBack.length - lines.length
    if (left === 0) await tx.loan.update({ where: { id: loan.id }, data: { closedOn: on } })
    return ok({ left })
  })
}

/** The bag that the goods of a project's kit were in before they went along. */
async function bagBefore({ tx }: Write, loan: HeldLoan): Promise<string | null> {
  if (loan.projectId === null) return null
  const taken = await tx.movement.findFirst({
    where: { kind: 'take', toPlaceId: loan.placeId, projectId: loan.projectId, fromPlace: { goneAt: null, kind: 'bag' } },
    select: { fromPlaceId: true },
    orderBy: [{ revision: 'desc' }, { id: 'desc' }],
  })
  return taken?.fromPlaceId ?? null
}

/** Where the goods of a project's kit were carried last, before anybody had them. */
async function lastPlaceOf({ tx }: Write, loan: HeldLoan): Promise<string | null> {
  const taken = await tx.movement.findFirst({
    where: {
      ...{ kind: 'take', projectId: loan.projectId, NOT: { toPlaceId: loan.placeId } },
      toPlace: { goneAt: null, kind: { notIn: [...peopleKinds, 'not found'] } },
    },
    select: { toPlaceId: true },
    orderBy: [{ revision: 'desc' }, { id: 'desc' }],
  })
  return taken?.toPlaceId ?? null
}

async function bringBack(open: Write, line: Line, back: Back): Promise<Result<null, LoanRefusal>> {
  if (line.chartId !== null) return bringChart(open, line.chartId, line.count, back)
  if (line.batchId !== null) return bringBatch(open, line.batchId, back)
  if (line.clothPieceId !== null) return bringCloth(open, line.clothPieceId, back)
  if (line.notionId !== null) return bringNotion(open, line.notionId, back)
  if (line.projectId !== null) return bringWork(open, line.projectId, back)
  return ok(null)
}

type Lying = { homePlaceId: string | null; currentPlaceId: string | null }

/** With them still. Of what was borrowed, anywhere but at home is. */
const isStillThere = ({ loan }: Back, lying: Lying): boolean =>
  loan.kind === 'borrow' ? isOut(lying) : lying.currentPlaceId === loan.placeId

/** The bag it came out of, when that is where it belongs for now: its kit is in work, or it has no home. */
async function bagFor({ tx }: Write, thing: object, back: Back, homePlaceId: string | null): Promise<string | null> {
  const taken = await tx.movement.findFirst({
    where: { ...thing, kind: 'take', toPlaceId: back.loan.placeId },
    select: { fromPlaceId: true },
    orderBy: [{ revision: 'desc' }, { id: 'desc' }],
  })
  const from = taken?.fromPlaceId ?? null
  if (from === homePlaceId || (from === null && homePlaceId !== null)) return null
  if (homePlaceId === null) return back.kitPlaceId ?? from
  return back.isKitOpen ? back.kitPlaceId : null
}

async function bringChart(open: Write, chartId: string, count: number, back: Back): Promise<Result<null, LoanRefusal>> {
  const { tx } = open
  const seen = await tx.chart.findFirst({ where: { id: chartId, goneAt: null }, select: { version: true } })
  if (!seen) return ok(null)
  const claim = await claimChart(open, { id: chartId, version: seen.version })
  if (!claim.ok) return claim
  const { copies, homePlaceId, currentPlace } = claim.value
  const isAllOut = isStillThere(back, claim.value) || (copies > 1 && isPeople((currentPlace?.kind ?? 'box') as PlaceKind))
  const bagId = copies === 1 ? await bagFor(open, { chartId }, back, homePlaceId) : null
  const toPlaceId = bagId ?? homePlaceId
  if (isAllOut) {
    const isAway = bagId !== null && homePlaceId !== null && bagId !== homePlaceId
    await tx.chart.update({
      where: { id: chartId },
      data: { currentPlaceId: toPlaceId, ...(!isAway && { outSince: null }) },
    })
  } else if (copies === 1) return ok(null)
  const { reason, who } = back
  await journalChart(open, {
    kind: bagId === null ? 'return' : 'take',
    ...{ chartId, fromPlaceId: back.loan.placeId, toPlaceId, projectId: back.loan.projectId, who },
    reason: copies > 1 ? [`${count} of ${copies} copies`, reason].filter(Boolean).join(': ') : reason,
  })
  return ok(null)
}

async function bringBatch(open: Write, batchId: string, back: Back): Promise<Result<null, LoanRefusal>> {
  const { tx } = open
  const { batches, promises, versions } = await readBatches(tx, { id: batchId })
  const batch = batches[0]
  if (!batch || !isStillThere(back, batch)) return ok(null)
  const { reason, who } = back
  const projectId = back.loan.projectId
  const bagId = await bagFor(open, { batchId }, back, batch.homePlaceId)
  if (bagId !== null) {
    const takesPart = batch.partCertainty !== 'none'
    if (batch.wholePutUps === 0 && !takesPart) return ok(null)
    const taken = planTake(batch, { wholePutUps: batch.wholePutUps, takesPart, toPlaceId: bagId, projectId, reason, promises })
    return taken.ok ? applyStockChange(open, taken.value, { versions, who }) : ok(null)
  }
  const { parentId } = await tx.batch.findUniqueOrThrow({ where: { id: batch.id }, select: { parentId: true } })
  const atHome = await findEqualAtHome(tx, { ...batch, parentId })
  if (atHome) versions.set(atHome.batch.id, atHome.version)
  const there = atHome ? (await readBatches(tx, { id: atHome.batch.id })).promises : []
  const returned = planReturn(batch, { atHome: atHome?.batch, projectId, reason, promises: [...promises, ...there] })
  return returned.ok ? applyStockChange(open, returned.value, { versions, who }) : ok(null)
}

async function bringCloth(open: Write, clothPieceId: string, back: Back): Promise<Result<null, LoanRefusal>> {
  const { tx } = open
  const seen = await tx.clothPiece.findFirst({
    where: { id: clothPieceId, goneAt: null },
    select: { version: true, homePlaceId: true, currentPlaceId: true },
  })
  if (!seen || !isStillThere(back, seen)) return ok(null)
  const claim = await claimCloth(open, { id: clothPieceId, version: seen.version })
  if (!claim.ok) return refused({ kind: 'changed-meanwhile' })
  const bagId = await bagFor(open, { clothPieceId }, back, seen.homePlaceId)
  const toPlaceId = bagId ?? seen.homePlaceId
  const isAway = isOut({ homePlaceId: seen.homePlaceId, currentPlaceId: toPlaceId })
  await tx.clothPiece.update({
    where: { id: clothPieceId },
    data: { currentPlaceId: toPlaceId, ...(!isAway && { outSince: null }) },
  })
  const { reason, who } = back
  const places = { fromPlaceId: seen.currentPlaceId, toPlaceId, projectId: back.loan.projectId }
  await journalCloth(open, { kind: bagId === null ? 'return' : 'take', clothPieceId, ...places, reason, who })
  return ok(null)
}

async function bringNotion(open: Write, notionId: string, back: Back): Promise<Result<null, LoanRefusal>> {
  const { tx } = open
  const seen = await tx.notion.findFirst({
    where: { id: notionId, goneAt: null },
    select: { version: true, homePlaceId: true, currentPlaceId: true },
  })
  if (!seen || !isStillThere(back, seen)) return ok(null)
  const claim = await claimNotion(open, { id: notionId, version: seen.version })
  if (!claim.ok) return refused({ kind: 'changed-meanwhile' })
  const bagId = await bagFor(open, { notionId }, back, seen.homePlaceId)
  if (bagId === null) {
    await layNotionBack(open, claim.value)
    return ok(null)
  }
  const isAway = isOut({ homePlaceId: seen.homePlaceId, currentPlaceId: bagId })
  await tx.notion.update({ where: { id: notionId }, data: { currentPlaceId: bagId, ...(!isAway && { outSince: null }) } })
  const { reason, who } = back
  const places = { fromPlaceId: seen.currentPlaceId, toPlaceId: bagId, projectId: back.loan.projectId }
  await journalNotion(open, { kind: 'take', notionId, ...places, reason, who })
  return ok(null)
}

/** The work itself: where it is from now on. */
async function bringWork(open: Write, projectId: string, back: Back): Promise<Result<null, LoanRefusal>> {
  const read = await readProject(open.tx, { projectId })
  if (!read.ok || read.value.placeId !== back.loan.placeId) return ok(null)
  if (back.kitPlaceId === null) return refused({ kind: 'where-is-work', name: read.value.title })
  return writeProject(open, read.value, { placeId: back.kitPlaceId })
}
