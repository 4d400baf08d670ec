import { type Insured, type InsuredClass, insuredClasses, type Replacement, type Valued, valueInsured } from './insured'

export type ClassTotal = {
  class: InsuredClass
  /** Put-ups, pieces, copies; parts of put-ups besides. */
  count: number
  partCount: number
  valueMinor: number
  /** Things in it whose value nobody knows: the total lacks them. */
  unvalued: number
}

export type InsuranceList = {
  totals: ClassTotal[]
  /** All classes but finished pieces, and with them. */
  goodsMinor: number
  totalMinor: number
  things: Valued[]
  /** Charts out of print: not in any total, since they cannot be bought; with what they were last known to cost. */
  apart: Valued[]
  apartMinor: number
  /** What cannot be replaced: charts out of print, thread no longer made, and one's own work. */
  irreplaceable: Valued[]
  /** What asks for a photograph and a receipt: dear, or not to be replaced. */
  dear: Valued[]
  unvalued: number
}

const byWorth = (a: Valued, b: Valued): number =>
  insuredClasses.indexOf(a.class) - insuredClasses.indexOf(b.class) ||
  b.valueMinor - a.valueMinor ||
  (a.title < b.title ? -1 : a.title > b.title ? 1 : 0) ||
  (a.key < b.key ? -1 : 1)

/**
 * The list an insurer asks for: totals by class, what cannot be replaced apart, and what is dear enough to ask for a photograph and a receipt.
 *
 * Charts out of print are listed apart with the last known price and are in no total (trade notes, A17). Finished pieces are at what their
 * finishing cost: the hours in them no insurer pays for, and no price says.
 *
 * @param dearMinor  one that costs as much or more is dear
 */
export function insuranceList(
  things: readonly Insured[],
  { replacement, dearMinor }: { replacement: Replacement; dearMinor: number },
): InsuranceList {
  const all = things.map((thing) => valueInsured(thing, replacement)).sort(byWorth)
  const isApart = (thing: Valued) => thing.irreplaceable === 'out-of-print'
  const [valued, apart] = [all.filter((thing) => !isApart(thing)), all.filter(isApart)]
  const totals = insuredClasses.map((name): ClassTotal => {
    const own = valued.filter((thing) => thing.class === name)
    return {
      class: name,
      count: own.reduce((sum, { count }) => sum + count, 0),
      partCount: own.filter(({ partTenThousandths }) => partTenThousandths > 0).length,
      valueMinor: sumOf(own),
      unvalued: own.filter(({ valuedBy }) => valuedBy === 'nothing').length,
    }
  })
  const totalMinor = sumOf(valued)
  return {
    totals,
    goodsMinor: totalMinor - sumOf(valued.filter((thing) => thing.class === 'finished')),
    totalMinor,
    things: valued,
    apart,
    apartMinor: sumOf(apart),
    irreplaceable: all.filter(({ irreplaceable }) => irreplaceable !== null),
    dear: all.filter(
      ({ irreplaceable, oneMinor, noun }) =>
        (oneMinor !== null && oneMinor >= dearMinor) || irreplaceable === 'out-of-print' || noun === 'project',
    ),
    unvalued: all.filter(({ valuedBy }) => valuedBy === 'nothing').length,
  }
}

const sumOf = (things: readonly Valued[]): number => things.reduce((sum, { valueMinor }) => sum + valueMinor, 0)
