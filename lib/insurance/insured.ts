/** The classes of an insurance list, in its order. */
export const insuredClasses = ['solid', 'hand-dyed', 'cloth', 'charts', 'notions', 'finished'] as const
export type InsuredClass = (typeof insuredClasses)[number]

/** What one of a class costs to replace, where the thing itself has no price; null where nobody said. Whole minor units. */
export type Replacement = Record<InsuredClass, number | null>

export const noReplacement: Replacement = {
  solid: null,
  'hand-dyed': null,
  cloth: null,
  charts: null,
  notions: null,
  finished: null,
}

/** Where the value of a thing is from: its own price, its class's, or nowhere. */
export type ValuedBy = 'own' | 'class' | 'nothing'

/** A thing as an insurer asks after it: what, how many, whose, where, since when. */
export type Insured = {
  key: string
  noun: 'thread' | 'cloth' | 'chart' | 'notion' | 'project'
  id: string
  class: InsuredClass
  /** What it is, in words for a list. */
  title: string
  description: string
  /** Code or label, where it has one. */
  number: string | null
  /** Whole put-ups, pieces, copies. */
  count: number
  /** Part of a put-up besides, in ten-thousandths of one: known lengths only. */
  partTenThousandths: number
  /** What one costs, as far as the record says. For a finished piece what was paid for its finishing. */
  priceMinor: number | null
  /** How many there are in what the price is of: a pack. */
  pricedPer: number
  ownerName: string
  placeLabel: string | null
  /** yyyy-mm-dd */
  boughtOn: string | null
  /** When it was put on record, and by whom. */
  recordedOn: string | null
  recordedBy: string | null
  photoFile: string | null
  receiptCount: number
  /** Why it cannot be bought again: out of print, no longer made, or worked by hand. */
  irreplaceable: 'out-of-print' | 'no-longer-made' | 'own-work' | null
}

export type Valued = Insured & {
  oneMinor: number | null
  /** All of it; 0 where nothing is known. */
  valueMinor: number
  valuedBy: ValuedBy
}

/**
 * What a thing costs to replace. Its own price goes before its class's. A pack's price is shared out over what it holds; a part of a put-up
 * counts by its known length; both are rounded down once, over all there is of it, so that nothing is claimed that is not there.
 */
export function valueInsured(thing: Insured, replacement: Replacement): Valued {
  const own = thing.priceMinor
  const oneMinor = own ?? replacement[thing.class]
  const valuedBy: ValuedBy = own !== null ? 'own' : oneMinor !== null ? 'class' : 'nothing'
  if (oneMinor === null) return { ...thing, oneMinor, valueMinor: 0, valuedBy }
  const per = own === null ? 1 : thing.pricedPer
  const held = thing.count * 10_000 + thing.partTenThousandths
  return { ...thing, oneMinor, valueMinor: Math.floor((oneMinor * held) / (10_000 * per)), valuedBy }
}
