import { say } from '#language/say'
import type { BuyingRefused } from '#lib/db/buying/buying-refusal'
import type { NotSettled } from '#lib/db/buying/settle-stock'
import type { ShopProgress, ShopSums } from '#lib/planning/buying/shop-list'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { counted, plural, threadLength } from './amounts'
import { priceWords } from './price'

/** Why nothing was done to a list one shops by. */
export function describeBuyingRefusal(refusal: BuyingRefused): string {
  switch (refusal.kind) {
    case 'no-such-list':
      return say('This list is no longer on record.')
    case 'list-closed':
      return refusal.status === 'dropped'
        ? say('This list was dropped, so nothing is ticked on it any more.')
        : say('This list is done. Shop by it again before you change it.')
    case 'changed-meanwhile':
      return say('Somebody changed this while you were looking. Open the page again and look before you repeat it.')
    case 'no-such-owner':
      return say('Nobody of that name is on record. Choose an owner from the list.')
    case 'no-such-line':
      return say('That line is no longer on the list.')
    case 'no-such-thread':
      return say('One of these threads was removed meanwhile. Open the page again.')
    case 'no-such-design':
      return say('One of these designs was removed meanwhile. Open the page again.')
    case 'no-such-project':
      return say('One of these projects was removed meanwhile. Open the page again.')
    case 'line-bought':
      return say('It is bought and in stock. Untick it first, then take it off.')
    case 'too-many-lines':
      return say('A list holds {most, number} lines at most. Begin another.', { most: refusal.most })
  }
}

/** Why a line stays as it was, though somebody ticked it otherwise. */
export function heldBackWords(why: NotSettled): string {
  switch (why) {
    case 'used-since':
      return say('some of it was used already, so it stays bought')
    case 'promised-since':
      return say('it is promised to a project, so it stays bought')
    case 'gone':
      return say('it was laid with other thread or used up since, so it stays bought')
    case 'no-such-thread':
      return say('the thread was removed meanwhile')
  }
}

/** "5 of 9 bought, 1 not there". */
export const shopProgressWords = ({ lines, bought, notThere }: ShopProgress): string =>
  say('{bought} of {lines} bought{rest}', {
    bought,
    lines,
    rest: notThere > 0 ? say(', {notThere} not there', { notThere }) : '',
  })

type Packed = { putUps: number; packPutUps: number; putUpWord: string; putUpStrandTenths: number; strands: number }

/** "3 skeins of 8 m", "2 packs of 12 skeins of 8 m". */
export function packedWords(
  { putUps, packPutUps, putUpWord, putUpStrandTenths, strands }: Packed,
  unit: ThreadLengthUnit,
): string {
  const length = say('of {threadLength}', { threadLength: threadLength(putUpStrandTenths, strands, unit) })
  if (packPutUps === 1) return `${counted(putUps, putUpWord)} ${length}`
  return say('{ceil, plural, one {# pack} other {# packs}} of {packPutUps} {plural} {length}', {
    ceil: Math.ceil(putUps / packPutUps),
    packPutUps,
    plural: plural(putUpWord),
    length,
  })
}

/** What it was expected to cost: "EUR 22.50, and 1 line without a price". */
export function expectedWords({ expectedMinor, unpriced }: ShopSums, currency: string): string {
  const without = unpriced > 0 ? counted(unpriced, 'line') : null
  if (expectedMinor === 0) return without ? say('no price known') : say('nothing')
  return `${priceWords(expectedMinor, currency)}${without ? say(', and {without} without a price', { without }) : ''}`
}
