import { formatDate } from '#language/day'
import type { PutUpMix } from '#lib/coverage/put-up-mix'
import type { BoughtThread } from '#lib/db/order/bought-threads'
import type { OrderRefused } from '#lib/db/order/order-refusal'
import type { BuyListRow } from '#lib/db/order/read-buy-list'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { counted, listed, threadLength } from '#words/amounts'
import { packedWords } from '#words/buying'
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

/** What the mix is: "1 pack of 12 skeins of 8 m and 1 skein of 8 m"; null where it is only what the line itself says it is sold as. */
export function mixWords(
  mix: PutUpMix,
  thread: BoughtThread,
  about: { unit: ThreadLengthUnit; withSuppliers: boolean },
): string | null {
  if (mix.parts.every(({ offer }) => offer.offerId === null)) return null
  const { strands, putUpWord } = thread.line
  return listed(
    mix.parts.map(({ offer, packs }) => {
      const { packPutUps, putUpStrandTenths, supplier } = offer
      const what = packedWords(
        { ...{ putUps: packs * packPutUps, packPutUps, putUpStrandTenths, strands }, putUpWord: offer.putUpWord ?? putUpWord },
        about.unit,
      )
      return supplier !== null && about.withSuppliers ? `${what} from ${supplier}` : what
    }),
  )
}

/** What else is to be known of a line of the list: its lot, and when it need not be bought. Sentences without their full stops. */
export function buyNotes({ line, thread, standIn, mix, listed: lists }: BuyListRow, about: { unit: ThreadLengthUnit }): string[] {
  const { sameLot } = line
  const one = thread.line.putUpWord
  const length = (strandTenths: number) => threadLength(strandTenths, thread.line.strands, about.unit)
  const notes: string[] = []
  if (line.standing === 'swap' && standIn) notes.push(`only if ${nameOf(standIn)}, which is held, is not to stand in`)
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
  if (mix && mixWords(mix, thread, { ...about, withSuppliers: false }) !== null) {
    if (mix.by === 'put-ups') notes.push('the fewest put-ups: not all it is sold as has a price')
    else notes.push('the cheapest way it is sold')
    if (sameLot && line.putUps > 1) notes.push('not a mix of lengths or shops, which are seldom of one lot')
  } else {
    for (const other of line.otherPutUps) notes.push(`or ${other.putUps} of ${length(other.putUpStrandTenths)}`)
  }
  if (line.cutStrandTenths !== null) notes.push(`cut for kits without a join, the longest ${length(line.cutStrandTenths)}`)
  if (mix && mix.tooShort.length > 0)
    notes.push(
      `not ${listed([...new Set(mix.tooShort.map((offer) => length(offer.putUpStrandTenths)))])}: no cut comes out of it whole`,
    )
  for (const { title, putUps } of lists) notes.push(`${putUps} already on the list ${title}`)
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
