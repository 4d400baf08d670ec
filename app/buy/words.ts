import { formatDate } from '#language/day'
import { say, sayings } from '#language/say'
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
      return say('Somebody changed this while you were looking. Open the page again and look before you repeat it.')
    case 'no-such-order':
      return say('This order is no longer on record.')
    case 'no-such-thread':
      return say('One of these threads was removed meanwhile. Open the page again.')
    case 'no-such-owner':
      return say('Nobody of that name is on record. Choose an owner from the list.')
    case 'no-such-place':
      return say('That place was removed meanwhile. Choose another.')
    case 'nothing-ordered':
      return say('No number is filled in. Say how many of at least one thread were ordered.')
    case 'nothing-received':
      return say('Say how many came.')
    case 'not-equal':
      return say('It cannot be laid with what is there: lot, put-up or owner differ.')
    case 'order-closed':
      return say('This order is closed: all of it has come, or no more is waited for. Take more in on the thread’s own page.')
    case 'all-has-come':
      return say('All of it has come; there is nothing left to wait for.')
    case 'fewer-than-came':
      return say('{receivedPutUps} have come already, so no fewer can have been ordered.', {
        receivedPutUps: refusal.receivedPutUps,
      })
    case 'expected-before-ordered':
      return say('It is expected on {expectedOn}, before it was ordered on {orderedOn}. Change one of the two.', {
        expectedOn: formatDate(refusal.expectedOn),
        orderedOn: formatDate(refusal.orderedOn),
      })
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
      return supplier !== null && about.withSuppliers ? say('{what} from {supplier}', { what, supplier }) : what
    }),
  )
}

/** What else is to be known of a line of the list: its lot, and when it need not be bought. Sentences without their full stops. */
export function buyNotes({ line, thread, standIn, mix, listed: lists }: BuyListRow, about: { unit: ThreadLengthUnit }): string[] {
  const { sameLot } = line
  const one = thread.line.putUpWord
  const length = (strandTenths: number) => threadLength(strandTenths, thread.line.strands, about.unit)
  const notes: string[] = []
  if (line.standing === 'swap' && standIn)
    notes.push(say('only if {nameOf}, which is held, is not to stand in', { nameOf: nameOf(standIn) }))
  if (line.standing === 'out')
    notes.push(say('only if the {length} that are out cannot be brought back', { length: length(line.outStrandTenths) }))
  if (line.standing === 'lots') notes.push(say('only if the lots held do not match by eye'))
  if (line.standing === 'unknown') notes.push(say('measure the part that is there first; it may be enough'))
  if (sameLot) {
    notes.push(
      sameLot.lot === null
        ? line.putUps === 1
          ? say('of one lot; {counted} more is usual, to be safe', { counted: counted(sameLot.sparePutUps, one) })
          : say('all of one lot, so buy them at once; {counted} more to be safe is usual', {
              counted: counted(sameLot.sparePutUps, one),
            })
        : say('of lot {lot}; where that is not to be had, {counted} of one new lot', {
            lot: sameLot.lot,
            counted: counted(sameLot.newLotPutUps, one),
          }),
    )
  }
  if (mix && mixWords(mix, thread, { ...about, withSuppliers: false }) !== null) {
    if (mix.by === 'put-ups') notes.push(say('the fewest put-ups: not all it is sold as has a price'))
    else notes.push(say('the cheapest way it is sold'))
    if (sameLot && line.putUps > 1) notes.push(say('not a mix of lengths or shops, which are seldom of one lot'))
  } else {
    for (const other of line.otherPutUps)
      notes.push(say('or {putUps} of {length}', { putUps: other.putUps, length: length(other.putUpStrandTenths) }))
  }
  if (line.cutStrandTenths !== null)
    notes.push(say('cut for kits without a join, the longest {length}', { length: length(line.cutStrandTenths) }))
  if (mix && mix.tooShort.length > 0)
    notes.push(
      say('not {listed}: no cut comes out of it whole', {
        listed: listed([...new Set(mix.tooShort.map((offer) => length(offer.putUpStrandTenths)))]),
      }),
    )
  for (const { title, putUps } of lists) notes.push(say('{putUps} already on the list {title}', { putUps, title }))
  if (line.certainty === 'assumed' || line.certainty === 'estimated' || line.certainty === 'guess') {
    notes.push(certaintyNotes[line.certainty])
  }
  return notes
}

const certaintyNotes = sayings({
  guess: 'by a guess of what is held',
  estimated: 'estimated: the key gives no amounts',
  assumed: 'assumed: nothing says how much, so one is planned for each design',
})
