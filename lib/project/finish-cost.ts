/** One thing that went into a finished piece, with what its price is for. Prices are whole minor units; null where nobody said. */
export type CostItem =
  | { kind: 'thread'; threadId: string; strandTenths: number; putUpStrandTenths: number; putUpPriceMinor: number | null }
  /** A piece of cloth, and how much of it was used; `isShare`: its price is its share of the piece it was cut from. */
  | { kind: 'cloth'; pieceId: string; usedUm2: number; ofUm2: number; priceMinor: number | null; isShare: boolean }
  /** A chart of several designs costs each its part; of one worked several times over, each kit has its copy. */
  | { kind: 'chart'; chartId: string; copies: number; designs: number; priceMinor: number | null }
  /** What a framer, finisher or model stitcher was to be paid. */
  | { kind: 'sent'; loanId: string; priceMinor: number | null }
  | { kind: 'other'; priceMinor: number }

export type CostLine = CostItem & {
  /** To the nearest minor unit; null where a price is not known. */
  costMinor: number | null
}

export type FinishCost = {
  lines: CostLine[]
  /** Of what is known. */
  totalMinor: number
  /** Lines whose price nobody said. */
  unknown: number
}

function costOf(item: CostItem): number | null {
  switch (item.kind) {
    case 'thread':
      return item.putUpPriceMinor === null ? null : (item.putUpPriceMinor * item.strandTenths) / item.putUpStrandTenths
    case 'cloth':
      return item.priceMinor === null ? null : item.ofUm2 === 0 ? 0 : (item.priceMinor * item.usedUm2) / item.ofUm2
    case 'chart':
      return item.priceMinor === null ? null : item.copies > 1 ? item.priceMinor * item.copies : item.priceMinor / item.designs
    case 'sent':
    case 'other':
      return item.priceMinor
  }
}

/**
 * What a finished piece cost: thread used at the price of its line's put-up, cloth by the part that was used, the chart, what others were
 * paid for it, and the rest. Every line is rounded by itself, and the sum is that of the lines. What nobody priced is in no sum.
 */
export function reckonCost(items: readonly CostItem[]): FinishCost {
  const lines = items.map((item): CostLine => {
    const cost = costOf(item)
    return { ...item, costMinor: cost === null ? null : Math.round(cost) }
  })
  return {
    lines,
    totalMinor: lines.reduce((sum, { costMinor }) => sum + (costMinor ?? 0), 0),
    unknown: lines.filter(({ costMinor }) => costMinor === null).length,
  }
}
