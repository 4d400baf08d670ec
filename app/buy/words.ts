import type { BuyLine } from '#lib/coverage/buy-list'
import type { BoughtThread } from '#lib/db/order/bought-threads'
import type { OrderRefused } from '#lib/db/order/order-refusal'
import { formatDate } from '#lib/quantity/date'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { counted, threadLength } from '#words/amounts'
import { threadName } from '#words/thread'

/** Why an order, or what came of it, was left as it was. */
export function describeOrderRefusal(refusal: OrderRefused): string {
  switch (refusal.kind) {
    case 'changed-meanwhile':
      return 'Somebody changed this while you were looking. Open the page again and look before you repeat it.'
    case 'no-such-order':
      return 'This order is no longer on record.'
    case 'no-such-thread':
      return 'One of these threads was removed meanwhile. Open the page again.'
    case 'no-such-owner':
      return 'Nobody of that name is on record. Choose an owner from the list.'
    case 'no-such-place':
      return 'That place was removed meanwhile. Choose another.'
    case 'nothing-ordered':
      return 'No number is filled in. Say how many of at least one thread were ordered.'
    case 'nothing-received':
      return 'Say how many came.'
    case 'not-equal':
      return 'It cannot be laid with what is there: lot, put-up or owner differ.'
    case 'order-closed':
      return 'This order is closed: all of it has come, or no more is waited for. Take more in on the thread’s own page.'
    case 'all-has-come':
      return 'All of it has come; there is nothing left to wait for.'
    case 'fewer-than-came':
      return `${refusal.receivedPutUps} have come already, so no fewer can have been ordered.`
    case 'expected-before-ordered':
      return `It is expected on ${formatDate(refusal.expectedOn)}, before it was ordered on ${formatDate(refusal.orderedOn)}. Change one of the two.`
  }
}

export const nameOf = ({ line, code, name }: BoughtThread): string => threadName({ makerName: line.makerName, code, name })

/** "3 skeins". */
export const putUpWords = (putUps: number, { line }: BoughtThread): string => counted(putUps, line.putUpWord)

/** What else is to be known of a line of the list: its lot, and when it need not be bought. Sentences without their full stops. */
export function buyNotes(
  line: BuyLine,
  thread: BoughtThread,
  about: { unit: ThreadLengthUnit; standIn: BoughtThread | null },
): string[] {
  const { sameLot } = line
  const one = thread.line.putUpWord
  const length = (strandTenths: number) => threadLength(strandTenths, thread.line.strands, about.unit)
  const notes: string[] = []
  if (line.standing === 'swap' && about.standIn) notes.push(`only if ${nameOf(about.standIn)}, which is held, is not to stand in`)
  if (line.standing === 'out') notes.push(`only if the ${length(line.outStrandTenths)} that are out cannot be brought back`)
  if (line.standing === 'lots') notes.push('only if the lots held do not match by eye')
  if (line.standing === 'unknown') notes.push('measure the part that is there first; it may be enough')
  if (sameLot) {
    notes.push(
      sameLot.lot === null
        ? line.putUps === 1
          ? `of one lot; ${counted(sameLot.sparePutUps, one)} more is usual, to be safe`
          : `all of one lot, so buy them at once; ${counted(sameLot.sparePutUps, one)} more to be safe is usual`
        : `of lot ${sameLot.lot}; where that is not to be had, ${counted(sameLot.newLotPutUps, one)} of one new lot`,
    )
  }
  for (const other of line.otherPutUps) {
    notes.push(`or ${other.putUps} of ${length(other.putUpStrandTenths)}`)
  }
  if (line.certainty === 'assumed' || line.certainty === 'estimated' || line.certainty === 'guess') {
    notes.push(certaintyNotes[line.certainty])
  }
  return notes
}

const certaintyNotes = {
  guess: 'by a guess of what is held',
  estimated: 'estimated: the key gives no amounts',
  assumed: 'assumed: nothing says how much, so one is planned for each design',
} as const
