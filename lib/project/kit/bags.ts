import { ok, type Result, refused } from '#lib/result'
import type { BagStatus } from './bag-status'
import { faultsOf, type KitMark, uncheckedOf } from './check'

/** What is done to a bag, beside looking through it (kit-check.ts). */
export const bagSteps = ['pack', 'unpack', 'seal', 'unseal', 'sell', 'take back'] as const
export type BagStep = (typeof bagSteps)[number]

export type BagFacts = {
  number: number
  isSpare: boolean
  status: BagStatus
  marks: readonly KitMark[]
}

/** How a bag stands after a step. */
export type BagAfter = {
  status: BagStatus
  /** What was ticked is forgotten: it is to be looked through again. */
  forgetsMarks: boolean
  /** Copies of the chart that go into it (−1 of stock) or come out again (+1). */
  chartDelta: -1 | 0 | 1
}

export type BagRefused =
  | { kind: 'not-from-here'; bag: number; status: BagStatus; step: BagStep }
  | { kind: 'not-cut'; bag: number; keys: string[] }
  | { kind: 'not-checked'; bag: number; keys: string[] }
  | { kind: 'at-fault'; bag: number; faults: { key: string; status: 'short' | 'wrong' }[] }
  | { kind: 'no-reason'; bag: number; step: BagStep }

/** From where each step goes. */
const from: Record<BagStep, readonly BagStatus[]> = {
  pack: ['open'],
  unpack: ['packed', 'checked'],
  // One packed and not checked is told what is wanting, which helps more than where it stands.
  seal: ['packed', 'checked'],
  unseal: ['sealed'],
  sell: ['sealed'],
  'take back': ['sold'],
}

/**
 * One step of a bag. Nothing is packed that was not cut; nothing is closed that was not looked through and found right, line by line.
 * A bag that is opened again is looked through again. The chart is in the kit exactly while it is closed: in a spare's only once it is sold.
 *
 * @param given.keys     the lines of the master list this bag is packed by
 * @param given.uncut    those of them that are threads no cut is on record of
 * @param given.hasChart a bought copy of the chart goes into each kit
 * @param given.reason   why it is opened again or taken back
 */
export function planBagStep(
  bag: BagFacts,
  step: BagStep,
  given: { keys: readonly string[]; uncut: readonly string[]; hasChart: boolean; reason: string | null },
): Result<BagAfter, BagRefused> {
  const { number, isSpare, status, marks } = bag
  if (!from[step].includes(status)) return refused({ kind: 'not-from-here', bag: number, status, step })
  const chart = given.hasChart ? 1 : 0
  const stay = { forgetsMarks: false, chartDelta: 0 } as const
  const needsReason = step === 'unseal' || step === 'take back'
  if (needsReason && !given.reason?.trim()) return refused({ kind: 'no-reason', bag: number, step })
  switch (step) {
    case 'pack':
      if (given.uncut.length > 0) return refused({ kind: 'not-cut', bag: number, keys: [...given.uncut] })
      return ok({ status: 'packed', ...stay })
    case 'unpack':
      return ok({ status: 'open', ...stay, forgetsMarks: true })
    case 'seal': {
      const faults = faultsOf(given.keys, marks)
      if (faults.length > 0) return refused({ kind: 'at-fault', bag: number, faults })
      const keys = uncheckedOf(given.keys, marks)
      if (keys.length > 0) return refused({ kind: 'not-checked', bag: number, keys })
      return ok({ status: 'sealed', ...stay, chartDelta: isSpare ? 0 : (-chart as -1 | 0) })
    }
    case 'unseal':
      return ok({ status: 'packed', forgetsMarks: true, chartDelta: isSpare ? 0 : (chart as 0 | 1) })
    case 'sell':
      return ok({ status: 'sold', ...stay, chartDelta: isSpare ? (-chart as -1 | 0) : 0 })
    case 'take back':
      return ok({ status: 'sealed', ...stay, chartDelta: isSpare ? (chart as 0 | 1) : 0 })
  }
}

/** The bags of a batch of kits: the spares are the last of them. */
export const bagNumbers = ({ copies, spares }: { copies: number; spares: number }): { number: number; isSpare: boolean }[] =>
  Array.from({ length: copies }, (_, at) => ({ number: at + 1, isSpare: at + 1 > copies - spares }))
