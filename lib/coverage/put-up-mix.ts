import { type CoverItem, cheapestCover, mostCostMinor, mostHeld } from '#lib/stock/cheapest-cover'
import { putUpsFor } from '#lib/thread/put-ups'
import { cutOf } from './kit-cuts'

/** One way a thread is sold. */
export type Offer = {
  /** Null: as its line says it is sold. */
  offerId: string | null
  supplier: string | null
  /** Null: as the line calls it. */
  putUpWord: string | null
  putUpStrandTenths: number
  /** Put-ups in one pack; only whole packs are sold. */
  packPutUps: number
  /** Of one pack; null when nobody knows. */
  priceMinor: number | null
}

/** What to buy of a thread, and of which offer. */
export type PutUpMix = {
  parts: { offer: Offer; packs: number }[]
  putUps: number
  strandTenths: number
  /** Of all of it; null where some of it has no price. */
  priceMinor: number | null
  /** `put-ups`: not every way it is sold has a price, so it is the fewest put-ups. */
  by: 'price' | 'put-ups'
  /** Ways without a price, on whose account it is not chosen by price. */
  unpriced: Offer[]
  /** Ways that were left aside: shorter than one cut of a kit, or cut otherwise. */
  tooShort: Offer[]
}

type Item = { offer: Offer; item: CoverItem }

/**
 * What each offer holds and how much of that is wanted. For kits both are counted in cuts without a join, so that the remnant of a put-up
 * counts for nothing; a cut longer than the line's put-up is counted in its put-ups.
 */
function counted(input: MixInput): { need: number; items: Item[]; tooShort: Offer[] } {
  const { shortStrandTenths, cutStrandTenths, ownPutUpStrandTenths, offers } = input
  const itemsBy = (holds: (offer: Offer) => number) => {
    const all = offers.map((offer) => ({
      offer,
      item: {
        holds: Math.min(mostHeld, holds(offer) * offer.packPutUps),
        costMinor: offer.priceMinor ?? 0,
        putUps: offer.packPutUps,
      },
    }))
    return {
      items: all.filter(({ item }) => item.holds > 0),
      tooShort: all.filter(({ item }) => item.holds === 0).map(({ offer }) => offer),
    }
  }
  if (cutStrandTenths === null) return { need: shortStrandTenths, ...itemsBy(({ putUpStrandTenths }) => putUpStrandTenths) }
  const { whole, rest, perPutUp } = cutOf(cutStrandTenths, ownPutUpStrandTenths)
  if (whole > 0) {
    const need = putUpsFor(shortStrandTenths, ownPutUpStrandTenths)
    return { need, ...itemsBy(({ putUpStrandTenths }) => (putUpStrandTenths === ownPutUpStrandTenths ? 1 : 0)) }
  }
  const putUps = Math.floor(shortStrandTenths / ownPutUpStrandTenths)
  const ofLast = Math.min(perPutUp, Math.ceil((shortStrandTenths - putUps * ownPutUpStrandTenths) / rest))
  return {
    need: putUps * perPutUp + ofLast,
    ...itemsBy(({ putUpStrandTenths }) => Math.floor(putUpStrandTenths / rest)),
  }
}

/** Whether one can be had as the other: as long, and in no larger pack. */
const isLike = (one: Offer, other: Offer): boolean =>
  one.putUpStrandTenths === other.putUpStrandTenths && one.packPutUps <= other.packPutUps

type MixInput = {
  /** As a buy list reckons it: with the remnants of the line's own put-ups where kits are cut. */
  shortStrandTenths: number
  /** All of one lot: one offer alone, since two put-ups of two kinds or from two shops are seldom of one dye bath. */
  isOneLot: boolean
  /** The longest cut of a kit, which has no join; null when nothing is cut for kits. */
  cutStrandTenths: number | null
  /** What the line says one holds. */
  ownPutUpStrandTenths: number
  offers: readonly Offer[]
}

/**
 * The cheapest put-ups and packs that hold what is short. Where something has no price that is sold in no like way with one, nobody can
 * tell what is cheapest, and it is the fewest put-ups, and of those the least over.
 *
 * @returns null when no offer serves, or the figures are beyond what can be reckoned exactly: 100 km of strand, or a pack at 10,000.00.
 * @throws {RangeError} if nothing is short, or as `cheapestCover`.
 */
export function planMix(input: MixInput): PutUpMix | null {
  const { shortStrandTenths, isOneLot } = input
  if (!(shortStrandTenths > 0)) throw new RangeError(`planMix: short ${shortStrandTenths}`)
  const { need, items: all, tooShort } = counted({ ...input, shortStrandTenths: Math.ceil(shortStrandTenths) })
  if (all.length === 0 || need > mostHeld || all.some(({ item }) => item.costMinor > mostCostMinor)) return null
  const priced = all.filter(({ offer }) => offer.priceMinor !== null)
  const unpriced = all.flatMap(({ offer }) =>
    offer.priceMinor === null && !priced.some((other) => isLike(other.offer, offer)) ? [offer] : [],
  )
  const by = unpriced.length === 0 ? 'price' : 'put-ups'
  const items = by === 'price' ? priced : all.map(({ offer, item }): Item => ({ offer, item: { ...item, costMinor: 0 } }))
  const cover = isOneLot
    ? items
        .map(({ item }, at) => {
          const one = cheapestCover(need, [item])
          return { ...one, counts: items.map((_item, other) => (other === at ? (one.counts[0] as number) : 0)) }
        })
        .sort((a, b) => a.costMinor - b.costMinor || a.putUps - b.putUps || a.holds - b.holds)[0]
    : cheapestCover(
        need,
        items.map(({ item }) => item),
      )
  if (!cover) return null
  const parts = items.flatMap(({ offer }, at) => {
    const packs = cover.counts[at] as number
    return packs > 0 ? [{ offer, packs }] : []
  })
  return {
    parts,
    putUps: cover.putUps,
    strandTenths: parts.reduce((sum, { offer, packs }) => sum + packs * offer.packPutUps * offer.putUpStrandTenths, 0),
    priceMinor: parts.reduce<number | null>(
      (sum, { offer, packs }) => (sum === null || offer.priceMinor === null ? null : sum + packs * offer.priceMinor),
      0,
    ),
    ...{ by, unpriced, tooShort },
  }
}
