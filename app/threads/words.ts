import type { MovementLine } from '#lib/db/movement/thread-story'
import type { CorrectRefused } from '#lib/db/stock/correct-batch'
import type { MergeRefused } from '#lib/db/stock/merge-batches'
import type { MoveRefused } from '#lib/db/stock/move-batch'
import type { PromiseRefused } from '#lib/db/stock/promise-stock'
import type { ReceiveRefused } from '#lib/db/stock/receive-thread'
import type { UseRefused } from '#lib/db/stock/record-use'
import type { RelabelRefused } from '#lib/db/stock/relabel-batch'
import type { ReturnRefused } from '#lib/db/stock/return-batch'
import type { SplitRefused } from '#lib/db/stock/split-batch'
import type { TakeRefused } from '#lib/db/stock/take-thread'
import type { TransferRefused } from '#lib/db/stock/transfer-batch'
import type { StockState } from '#lib/db/thread/summarise-stock'
import type { ThreadRefusal } from '#lib/db/thread/thread-refusal'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import type { PartRefused } from '#lib/stock/part-length'
import type { BatchMark } from '#lib/stock/stock-change'
import { counted, listed, threadLength } from '#words/amounts'
import { calendarDay, dayOf } from '#words/date'
import { amountWords } from '#words/stock'

export type StockRefusal =
  | ReceiveRefused
  | UseRefused
  | TakeRefused
  | MoveRefused
  | ReturnRefused
  | CorrectRefused
  | RelabelRefused
  | TransferRefused
  | SplitRefused
  | MergeRefused
  | PromiseRefused

type Figures = { strands: number; unit: ThreadLengthUnit }

const changedMeanwhile = 'Somebody changed this while you were looking. Open the page again and look before you repeat it.'

/** Why stock was left as it was, and what would be accepted. */
export function describeStockRefusal(refusal: StockRefusal, { strands, unit }: Figures): string {
  const length = (strandTenths: number) => threadLength(strandTenths, strands, unit)
  switch (refusal.kind) {
    case 'changed-meanwhile':
      return changedMeanwhile
    case 'no-such-batch':
      return 'This stock is no longer there: it was laid together with another or removed.'
    case 'no-such-thread':
      return 'This thread was removed meanwhile.'
    case 'no-such-place':
      return 'That place was removed meanwhile. Choose another.'
    case 'no-such-project':
      return 'That project was removed meanwhile. Choose another, or none.'
    case 'no-such-owner':
      return 'Nobody of that name is on record. Choose an owner from the list.'
    case 'nothing-received':
      return 'Say how much came in: whole put-ups, a part, or tick that some of unknown length is there.'
    case 'not-equal':
      return 'It cannot be laid with what is there: lot, put-up or owner differ.'
    case 'not-enough':
      return `Only ${length(refusal.heldStrandTenths)} is there; ${length(refusal.requestedStrandTenths)} is asked for.`
    case 'not-enough-free':
      return `Only ${length(refusal.freeStrandTenths)} of it is free, the rest is promised to other projects; ${length(refusal.requestedStrandTenths)} is asked for.`
    case 'already-there':
      return 'It is there already.'
    case 'not-out':
      return 'It is at its home already.'
    case 'no-reason':
      return 'Say why the record changes: counted, found, lost, misread.'
    case 'no-change':
      return 'The record says so already; nothing needed changing.'
    case 'already-theirs':
      return 'It is theirs already.'
    case 'nothing-parted':
      return 'Say how many are parted off, or tick the part.'
    case 'nothing-left':
      return 'That is all there is: move it instead, then nothing has to be parted.'
    case 'same-batch':
      return 'That is the same stock. Choose another to lay it with.'
    case 'marks-differ':
      return `They cannot be laid together: ${listed(refusal.differs.map((mark) => markWords[mark]))} ${refusal.differs.length === 1 ? 'is' : 'are'} not the same.`
    case 'lot-unmarked':
      return 'They have no lot mark, and lots of this line are kept apart: nobody can say that the two match. Mark the lot on both first.'
    case 'not-open':
      return 'That project is not planned or under way, so nothing can be promised to it.'
    case 'other-owner':
      return 'The project is stitched from another owner’s goods. Pass this stock on first.'
    case 'promised':
      return `It is promised to ${counted(refusal.projectIds.length, 'project')} of the present owner. Release the promise first.`
  }
}

const markWords: Record<BatchMark | 'place', string> = {
  threadId: 'the thread',
  ownerId: 'the owner',
  lot: 'the lot',
  putUpWord: 'what one is called',
  putUpStrandTenths: 'the length of one',
  homePlaceId: 'the home',
  place: 'the place they lie in',
}

/** Why a part was not understood, and what would be. */
export function describePartRefusal(refusal: PartRefused, { strands, unit }: Figures): string {
  switch (refusal.kind) {
    case 'not-a-part':
      return 'A part is a length (2.5 m, 60 cm), a fraction of a full one (1/2), a weight (3.1 g), or “some”.'
    case 'not-a-fraction':
      return 'A fraction of a full one is below one: 1/4, 1/2, 3/4. Whole ones are counted beside it.'
    case 'no-full-weight':
      return 'What a full one weighs is not set down for its line, so a weight says nothing yet. Give a length or a fraction.'
    case 'too-long':
      return `A part is up to ${threadLength(refusal.mostStrandTenths, strands, unit)}.`
  }
}

/** Why a thread, a line or a stand-in was left as it was. */
export function describeThreadRefusal(refusal: ThreadRefusal): string {
  switch (refusal.kind) {
    case 'changed-meanwhile':
      return changedMeanwhile
    case 'no-such-thread':
      return 'This thread was removed meanwhile.'
    case 'no-such-line':
      return 'That line is not on record. Choose one from the list.'
    case 'code-taken':
      return `The line has a thread ${refusal.code} already. Codes are exact: 0017 and 17 are two.`
    case 'line-taken':
      return `${[refusal.makerName, refusal.lineName].filter(Boolean).join(' ')} is here already. Choose it from the list of lines.`
    case 'strands-in-use':
      return `The number of strands is fixed: ${describeStrandsUse(refusal.batchCount, refusal.statedCount)} measured in it.`
    case 'thread-in-use':
      return `It stays: ${describeUse(refusal.heldBatchCount, refusal.designCount)}.`
    case 'stands-for-itself':
      return 'A thread cannot stand in for itself. Name another.'
    case 'stand-in-known':
      return 'That stand-in is on record already.'
    case 'no-such-stand-in':
      return 'That stand-in was removed meanwhile.'
  }
}

const describeStrandsUse = (batchCount: number, statedCount: number): string => {
  const parts = [
    batchCount > 0 && `${counted(batchCount, 'batch')} of stock`,
    statedCount > 0 && `${counted(statedCount, 'stated amount')} in keys`,
  ].filter((part) => part !== false)
  return `${listed(parts)} ${batchCount + statedCount === 1 ? 'is' : 'are'}`
}

const describeUse = (heldBatchCount: number, designCount: number): string =>
  [
    heldBatchCount > 0 && `stock of it is on record (${counted(heldBatchCount, 'batch')})`,
    designCount > 0 && `${designCount} ${designCount === 1 ? 'design names' : 'designs name'} it in a key`,
  ]
    .filter((part) => part !== false)
    .join(', and ')

export const stateWords: Record<StockState, string> = {
  held: 'held',
  none: 'none held',
  low: 'low: fewer free than to keep',
  out: 'out of its place',
}

/** `isSplitOff`: what was taken or passed on is a part of what lay there. */
export type ToldMovement = MovementLine & { isSplitOff: boolean }

/** The lines of one write that a line of another kind or batch tells as well: what is left behind by what was parted off or joined. */
function isToldByAnother(movement: MovementLine, write: readonly MovementLine[]): boolean {
  if (movement.kind === 'merge') {
    if (write.some(({ kind }) => kind === 'return')) return true
    return isLess(movement) && write.some((other) => other.kind === 'merge' && !isLess(other))
  }
  if (movement.kind !== 'split') return false
  if (write.some(({ kind }) => kind === 'take' || kind === 'transfer')) return true
  return isLess(movement) && write.some((other) => other.kind === 'split' && !isLess(other))
}

const isLess = ({ wholeDelta, partDeltaStrandTenths }: MovementLine) => wholeDelta < 0 || partDeltaStrandTenths < 0

/** Movements without their doubles: what is split off is told by what was taken, what is laid together by what came back. */
export function movementsToTell(movements: readonly MovementLine[]): ToldMovement[] {
  const writes = new Map<number, MovementLine[]>()
  for (const movement of movements) writes.set(movement.revision, [...(writes.get(movement.revision) ?? []), movement])
  const writeOf = ({ revision }: MovementLine) => writes.get(revision) ?? []
  return movements
    .filter((movement) => !isToldByAnother(movement, writeOf(movement)))
    .map((movement) => {
      const isParted = movement.kind === 'take' || movement.kind === 'transfer'
      return { ...movement, isSplitOff: isParted && writeOf(movement).some(({ kind }) => kind === 'split') }
    })
}

export type ToldDay = { day: string; dateTime: string; movements: ToldMovement[] }

/** What was told, day by day on this machine's calendar; the order stays. */
export function byDay(movements: readonly ToldMovement[]): ToldDay[] {
  const days: ToldDay[] = []
  for (const movement of movements) {
    const day = dayOf(movement.at)
    const last = days.at(-1)
    if (last?.day === day) last.movements.push(movement)
    else days.push({ day, dateTime: calendarDay(movement.at), movements: [movement] })
  }
  return days
}

/** One line of the history as a sentence without its full stop. */
export function describeMovement(movement: ToldMovement, thread: Figures & { putUpWord: string }): string {
  const changed = {
    wholePutUps: Math.abs(movement.wholeDelta),
    partStrandTenths: Math.abs(movement.partDeltaStrandTenths),
  }
  /** What it brought or took, whichever way; empty when no figure changed. */
  const delta = amountWords(changed, thread, thread.unit)
  const all = movement.isSplitOff ? 'the part, length unknown' : movement.lot ? 'all' : 'all of it'
  const netStrandTenths = movement.wholeDelta * movement.putUpStrandTenths + movement.partDeltaStrandTenths
  const net = threadLength(Math.abs(netStrandTenths), thread.strands, thread.unit)
  const lot = movement.lot ? ` of lot ${movement.lot}` : ''
  const lotItself = movement.lot ? ` lot ${movement.lot}` : ''
  const amount = `${delta || all}${lot}`
  const from = movement.from ? ` from ${movement.from}` : ''
  const to = movement.to ? ` to ${movement.to}` : ''
  const project = movement.projectTitle ? ` for ${movement.projectTitle}` : ''
  switch (movement.kind) {
    case 'receive':
      return `Came in: ${delta || 'some, length unknown'}${lot}${movement.to ? `, into ${movement.to}` : ''}`
    case 'use':
      return `Used ${net}${lot}${from}${project}`
    case 'move':
      return `Moved ${amount}${from}${to}`
    case 'take':
      return `Taken: ${amount}${from}${to}${project}`
    case 'split':
      return movement.from === movement.to ? `Parted: ${amount}` : `Parted: ${amount}${from}${to}${project}`
    case 'return':
      return `Put back: ${amount}${from}${to}`
    case 'merge':
      return `Laid together: ${amount}${to}`
    case 'correct':
      if (delta === '') return `Corrected${lotItself}, the amount as it was`
      return netStrandTenths === 0
        ? `Corrected${lotItself}: the same length, put-ups and part told apart anew`
        : `Corrected${lotItself}: ${net} ${netStrandTenths < 0 ? 'less' : 'more'}`
    case 'transfer':
      return `Passed on${movement.isSplitOff ? ` ${amount}` : lotItself}: ${between(movement)}`
    case 'cut':
      return `Cut ${amount}${from}${to}${project}`
    case 'undo':
      if (movement.fromOwner || movement.toOwner) return `Undone${lotItself}: back ${between(movement)}`
      if (netStrandTenths === 0) return `Undone${lotItself}${to && `: it lives in ${movement.to} again`}`
      return `Undone${lotItself}: ${net} ${netStrandTenths < 0 ? 'taken off again' : 'back on record'}`
  }
}

const between = ({ fromOwner, toOwner }: MovementLine): string => `from ${fromOwner ?? 'nobody'} to ${toOwner ?? 'nobody'}`

/** How what was just done is made undone. */
export function describeWayBack(kind: MovementLine['kind']): string {
  switch (kind) {
    case 'take':
    case 'move':
      return 'To undo it, put it back or move it again.'
    case 'split':
      return 'To undo it, lay it together again.'
    case 'merge':
      return 'To undo it, part it again.'
    case 'return':
      return 'To undo it, take it again.'
    case 'transfer':
      return 'To undo it, pass it back.'
    case 'receive':
    case 'use':
    case 'correct':
    case 'cut':
    case 'undo':
      return 'If that was wrong, correct the figure: both stay in the history.'
  }
}
