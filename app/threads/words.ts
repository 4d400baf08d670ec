import { say, sayings } from '#language/say'
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
import { listed, threadLength } from '#words/amounts'
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

const changedMeanwhile = () =>
  say('Somebody changed this while you were looking. Open the page again and look before you repeat it.')

/** Why stock was left as it was, and what would be accepted. */
export function describeStockRefusal(refusal: StockRefusal, { strands, unit }: Figures): string {
  const length = (strandTenths: number) => threadLength(strandTenths, strands, unit)
  switch (refusal.kind) {
    case 'changed-meanwhile':
      return changedMeanwhile()
    case 'no-such-batch':
      return say('This stock is no longer there: it was laid together with another or removed.')
    case 'no-such-thread':
      return say('This thread was removed meanwhile.')
    case 'no-such-place':
      return say('That place was removed meanwhile. Choose another.')
    case 'no-such-project':
      return say('That project was removed meanwhile. Choose another, or none.')
    case 'no-such-owner':
      return say('Nobody of that name is on record. Choose an owner from the list.')
    case 'nothing-received':
      return say('Say how much came in: whole put-ups, a part, or tick that some of unknown length is there.')
    case 'not-equal':
      return say('It cannot be laid with what is there: lot, put-up or owner differ.')
    case 'not-enough':
      return say('Only {length} is there; {length2} is asked for.', {
        length: length(refusal.heldStrandTenths),
        length2: length(refusal.requestedStrandTenths),
      })
    case 'not-enough-free':
      return say('Only {length} of it is free, the rest is promised to other projects; {length2} is asked for.', {
        length: length(refusal.freeStrandTenths),
        length2: length(refusal.requestedStrandTenths),
      })
    case 'already-there':
      return say('It is there already.')
    case 'not-out':
      return say('It is at its home already.')
    case 'no-reason':
      return say('Say why the record changes: counted, found, lost, misread.')
    case 'no-change':
      return say('The record says so already; nothing needed changing.')
    case 'already-theirs':
      return say('It is theirs already.')
    case 'nothing-parted':
      return say('Say how many are parted off, or tick the part.')
    case 'nothing-left':
      return say('That is all there is: move it instead, then nothing has to be parted.')
    case 'same-batch':
      return say('That is the same stock. Choose another to lay it with.')
    case 'marks-differ':
      return say('They cannot be laid together: {differs} {differs2, plural, one {is} other {are}} not the same.', {
        differs: listed(refusal.differs.map((mark) => markWords[mark])),
        differs2: refusal.differs.length,
      })
    case 'lot-unmarked':
      return say(
        'They have no lot mark, and lots of this line are kept apart: nobody can say that the two match. Mark the lot on both first.',
      )
    case 'not-open':
      return say('That project is not planned or under way, so nothing can be promised to it.')
    case 'other-owner':
      return say('The project is stitched from another owner’s goods. Pass this stock on first.')
    case 'promised':
      return say(
        'It is promised to {projectIds, plural, one {# project} other {# projects}} of the present owner. Release the promise first.',
        { projectIds: refusal.projectIds.length },
      )
  }
}

const markWords: Record<BatchMark | 'place', string> = sayings({
  threadId: 'the thread',
  ownerId: 'the owner',
  lot: 'the lot',
  putUpWord: 'what one is called',
  putUpStrandTenths: 'the length of one',
  homePlaceId: 'the home',
  place: 'the place they lie in',
})

/** Why a part was not understood, and what would be. */
export function describePartRefusal(refusal: PartRefused, { strands, unit }: Figures): string {
  switch (refusal.kind) {
    case 'not-a-part':
      return say('A part is a length (2.5 m, 60 cm), a fraction of a full one (1/2), a weight (3.1 g), or “some”.')
    case 'not-a-fraction':
      return say('A fraction of a full one is below one: 1/4, 1/2, 3/4. Whole ones are counted beside it.')
    case 'no-full-weight':
      return say(
        'What a full one weighs is not set down for its line, so a weight says nothing yet. Give a length or a fraction.',
      )
    case 'too-long':
      return say('A part is up to {threadLength}.', { threadLength: threadLength(refusal.mostStrandTenths, strands, unit) })
  }
}

/** Why a thread, a line or a stand-in was left as it was. */
export function describeThreadRefusal(refusal: ThreadRefusal): string {
  switch (refusal.kind) {
    case 'changed-meanwhile':
      return changedMeanwhile()
    case 'no-such-thread':
      return say('This thread was removed meanwhile.')
    case 'no-such-line':
      return say('That line is not on record. Choose one from the list.')
    case 'code-taken':
      return say('The line has a thread {code} already. Codes are exact: 0017 and 17 are two.', { code: refusal.code })
    case 'line-taken':
      return say('{what} is here already. Choose it from the list of lines.', {
        what: [refusal.makerName, refusal.lineName].filter(Boolean).join(' '),
      })
    case 'strands-in-use':
      return say('The number of strands is fixed: {describeStrandsUse} measured in it.', {
        describeStrandsUse: describeStrandsUse(refusal.batchCount, refusal.statedCount),
      })
    case 'thread-in-use':
      return say('It stays: {describeUse}.', { describeUse: describeUse(refusal.heldBatchCount, refusal.designCount) })
    case 'stands-for-itself':
      return say('A thread cannot stand in for itself. Name another.')
    case 'stand-in-known':
      return say('That stand-in is on record already.')
    case 'no-such-stand-in':
      return say('That stand-in was removed meanwhile.')
  }
}

const describeStrandsUse = (batchCount: number, statedCount: number): string => {
  const parts = [
    batchCount > 0 && say('{batchCount, plural, one {# batch} other {# batches}} of stock', { batchCount }),
    statedCount > 0 && say('{statedCount, plural, one {# stated amount} other {# stated amounts}} in keys', { statedCount }),
  ].filter((part) => part !== false)
  return say('{parts} {batchCount, plural, one {is} other {are}}', { parts: listed(parts), batchCount: batchCount + statedCount })
}

const describeUse = (heldBatchCount: number, designCount: number): string =>
  listed(
    [
      heldBatchCount > 0 &&
        say('stock of it is on record ({heldBatchCount, plural, one {# batch} other {# batches}})', { heldBatchCount }),
      designCount > 0 &&
        say('{designCount} {designCount, plural, one {design names} other {designs name}} it in a key', { designCount }),
    ].filter((part) => part !== false),
  )

export const stateWords: Record<StockState, string> = sayings({
  held: 'held',
  none: 'none held',
  low: 'low: fewer free than to keep',
  out: 'out of its place',
})

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
  const all = movement.isSplitOff ? say('the part, length unknown') : movement.lot ? say('all') : say('all of it')
  const netStrandTenths = movement.wholeDelta * movement.putUpStrandTenths + movement.partDeltaStrandTenths
  const net = threadLength(Math.abs(netStrandTenths), thread.strands, thread.unit)
  const lot = movement.lot ? say(' of lot {lot}', { lot: movement.lot }) : ''
  const lotItself = movement.lot ? say(' lot {lot}', { lot: movement.lot }) : ''
  const amount = `${delta || all}${lot}`
  const from = movement.from ? say(' from {from}', { from: movement.from }) : ''
  const to = movement.to ? say(' to {to}', { to: movement.to }) : ''
  const project = movement.projectTitle ? say(' for {projectTitle}', { projectTitle: movement.projectTitle }) : ''
  switch (movement.kind) {
    case 'receive':
      return say('Came in: {delta}{lot}{rest}', {
        delta: delta || say('some, length unknown'),
        lot,
        rest: movement.to ? say(', into {to}', { to: movement.to }) : '',
      })
    case 'use':
      return say('Used {net}{lot}{from}{project}', { net, lot, from, project })
    case 'move':
      return say('Moved {amount}{from}{to}', { amount, from, to })
    case 'take':
      return say('Taken: {amount}{from}{to}{project}', { amount, from, to, project })
    case 'split':
      return movement.from === movement.to
        ? say('Parted: {amount}', { amount })
        : say('Parted: {amount}{from}{to}{project}', { amount, from, to, project })
    case 'return':
      return say('Put back: {amount}{from}{to}', { amount, from, to })
    case 'merge':
      return say('Laid together: {amount}{to}', { amount, to })
    case 'correct':
      if (delta === '') return say('Corrected{lotItself}, the amount as it was', { lotItself })
      return netStrandTenths === 0
        ? say('Corrected{lotItself}: the same length, put-ups and part told apart anew', { lotItself })
        : say('Corrected{lotItself}: {net} {netStrandTenthsCase, select, yes {less} other {more}}', {
            lotItself,
            net,
            netStrandTenthsCase: netStrandTenths < 0,
          })
    case 'transfer':
      return say('Passed on{isSplitOff}: {between}', {
        isSplitOff: movement.isSplitOff ? ` ${amount}` : lotItself,
        between: between(movement),
      })
    case 'cut':
      return say('Cut {amount}{from}{to}{project}', { amount, from, to, project })
    case 'undo':
      if (movement.fromOwner || movement.toOwner)
        return say('Undone{lotItself}: back {between}', { lotItself, between: between(movement) })
      if (netStrandTenths === 0)
        return say('Undone{lotItself}{rest}', { lotItself, rest: to && say(': it lives in {to} again', { to: movement.to }) })
      return say('Undone{lotItself}: {net} {netStrandTenthsCase, select, yes {taken off again} other {back on record}}', {
        lotItself,
        net,
        netStrandTenthsCase: netStrandTenths < 0,
      })
  }
}

const between = ({ fromOwner, toOwner }: MovementLine): string =>
  say('from {fromOwner} to {toOwner}', { fromOwner: fromOwner ?? say('nobody'), toOwner: toOwner ?? say('nobody') })

/** How what was just done is made undone. */
export function describeWayBack(kind: MovementLine['kind']): string {
  switch (kind) {
    case 'take':
    case 'move':
      return say('To undo it, put it back or move it again.')
    case 'split':
      return say('To undo it, lay it together again.')
    case 'merge':
      return say('To undo it, part it again.')
    case 'return':
      return say('To undo it, take it again.')
    case 'transfer':
      return say('To undo it, pass it back.')
    case 'receive':
    case 'use':
    case 'correct':
    case 'cut':
    case 'undo':
      return say('If that was wrong, correct the figure: both stay in the history.')
  }
}
