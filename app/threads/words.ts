import type { CorrectRefused } from '#lib/db/stock/correct-batch'
import type { MoveRefused } from '#lib/db/stock/move-batch'
import type { ReceiveRefused } from '#lib/db/stock/receive-thread'
import type { UseRefused } from '#lib/db/stock/record-use'
import type { RelabelRefused } from '#lib/db/stock/relabel-batch'
import type { ReturnRefused } from '#lib/db/stock/return-batch'
import type { TakeRefused } from '#lib/db/stock/take-thread'
import type { TransferRefused } from '#lib/db/stock/transfer-batch'
import type { MovementLine } from '#lib/db/thread/find-thread'
import type { StockState } from '#lib/db/thread/summarise-stock'
import type { ThreadRefusal } from '#lib/db/thread/thread-refusal'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { counted, listed, threadLength } from '#words/amounts'
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
    case 'promised':
      return `It is promised to ${counted(refusal.projectIds.length, 'project')} of the present owner. Release the promise first.`
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

/** `isSplitOff`: what was taken is a part of what lay there. */
export type ToldMovement = MovementLine & { isSplitOff: boolean }

/** Movements without their doubles: what is split off is told by what was taken, what is laid together by what came back. */
export function movementsToTell(movements: readonly MovementLine[]): ToldMovement[] {
  const revisionsWith = (kind: MovementLine['kind']) =>
    new Set(movements.filter((movement) => movement.kind === kind).map((movement) => movement.revision))
  const [split, taken, returned] = [revisionsWith('split'), revisionsWith('take'), revisionsWith('return')]
  return movements
    .filter(({ kind, revision }) => !(kind === 'split' && taken.has(revision)) && !(kind === 'merge' && returned.has(revision)))
    .map((movement) => ({ ...movement, isSplitOff: movement.kind === 'take' && split.has(movement.revision) }))
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
      return `Parted: ${amount}${from}${to}${project}`
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
      return `Passed on${lotItself}: from ${movement.fromOwner ?? 'nobody'} to ${movement.toOwner ?? 'nobody'}`
    case 'cut':
      return `Cut ${amount}${from}${to}${project}`
    case 'undo':
      return `Undone${lotItself}: ${net} ${netStrandTenths < 0 ? 'taken off again' : 'back on record'}`
  }
}

/** How what was just done is made undone. */
export function describeWayBack(kind: MovementLine['kind']): string {
  switch (kind) {
    case 'take':
    case 'split':
    case 'move':
      return 'To undo it, put it back or move it again.'
    case 'return':
    case 'merge':
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
