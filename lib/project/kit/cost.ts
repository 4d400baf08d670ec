import type { KitNumbers } from './reckoning'
import { chartsWanted } from './reckoning'

/** What one line of a kit is reckoned by. Money in whole minor units; null where no price is known. */
export type CostedLine =
  | {
      kind: 'thread'
      key: string
      perKitStrandTenths: number
      /** Whole put-ups, bought new, for all kits. */
      putUpsForAll: number
      putUpStrandTenths: number
      putUpPriceMinor: number | null
    }
  /** No price of cloth is kept. */
  | { kind: 'cloth'; key: string }
  | { kind: 'chart'; key: string; priceMinor: number | null }
  | { kind: 'item'; key: string; perKit: number; priceMinor: number | null }

export type LineCost = {
  key: string
  /** What it is reckoned by. */
  from: CostedLine
  /** Of what goes into one kit, to the nearest minor unit; null where no price is known. */
  perKitMinor: number | null
  /** Of what goes into all of them. */
  forAllMinor: number | null
  /** What whole put-ups cost beyond that; 0 where nothing is bought beyond what is used. */
  leftOverMinor: number
}

export type KitCost = {
  lines: LineCost[]
  /** The lines' sums, those without a price left out: add what they cost. */
  perKitMinor: number
  forAllMinor: number
  leftOverMinor: number
  /** The lines without a price. */
  unknown: string[]
  /** What a kit is sold for. */
  priceMinor: number | null
  /** Of one kit: its price less what goes into it; at most that much while a price is unknown. */
  marginMinor: number | null
  /** The margin in thousandths of the price, to the nearest; null for a price of nought. */
  marginPerMille: number | null
}

/**
 * What a kit costs. Thread is reckoned by the length cut, at the price of a whole put-up; what of whole put-ups is left over is told
 * apart, for it stays on the shelf or is thrown away. A kit to be sold has a chart and so has the cost of one; of all kits, the spares
 * have none until they are sold. Each line is rounded once, and sums are sums of what is shown.
 */
export function costKits(input: KitNumbers & { lines: readonly CostedLine[]; kitPriceMinor: number | null }): KitCost {
  const { kitPriceMinor } = input
  const lines = input.lines.map((line) => costLine(line, input))
  const sumOf = (figure: (line: LineCost) => number | null) => lines.reduce((sum, line) => sum + (figure(line) ?? 0), 0)
  const perKitMinor = sumOf((line) => line.perKitMinor)
  const marginMinor = kitPriceMinor === null ? null : kitPriceMinor - perKitMinor
  return {
    lines,
    perKitMinor,
    forAllMinor: sumOf((line) => line.forAllMinor),
    leftOverMinor: sumOf((line) => line.leftOverMinor),
    unknown: lines.flatMap(({ key, perKitMinor }) => (perKitMinor === null ? [key] : [])),
    priceMinor: kitPriceMinor,
    marginMinor,
    marginPerMille: marginMinor === null || !kitPriceMinor ? null : Math.round((marginMinor * 1_000) / kitPriceMinor),
  }
}

function costLine(line: CostedLine, numbers: KitNumbers): LineCost {
  const by = { key: line.key, from: line }
  const unknown = { ...by, perKitMinor: null, forAllMinor: null, leftOverMinor: 0 }
  switch (line.kind) {
    case 'thread': {
      const { perKitStrandTenths, putUpsForAll, putUpStrandTenths, putUpPriceMinor } = line
      if (putUpPriceMinor === null) return unknown
      const costOf = (strandTenths: number) => Math.round((strandTenths * putUpPriceMinor) / putUpStrandTenths)
      const forAllMinor = costOf(perKitStrandTenths * numbers.copies)
      const leftOverMinor = putUpsForAll * putUpPriceMinor - forAllMinor
      return { ...by, perKitMinor: costOf(perKitStrandTenths), forAllMinor, leftOverMinor }
    }
    case 'cloth':
      return unknown
    case 'chart': {
      const { priceMinor } = line
      if (priceMinor === null) return unknown
      return { ...by, perKitMinor: priceMinor, forAllMinor: priceMinor * chartsWanted(numbers), leftOverMinor: 0 }
    }
    case 'item': {
      const { perKit, priceMinor } = line
      if (priceMinor === null) return unknown
      return { ...by, perKitMinor: perKit * priceMinor, forAllMinor: perKit * priceMinor * numbers.copies, leftOverMinor: 0 }
    }
  }
}
