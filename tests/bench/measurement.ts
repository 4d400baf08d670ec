/** The middle of some samples, and the least and the most of them. */
export type Spread = { median: number; least: number; most: number }

/**
 * One row of results.json: what was measured, in `unit`, and what was measured beside it in the same run.
 * `against` is null where nothing else does the same.
 */
export type Measurement = {
  name: string
  ours: number
  against: number | null
  /** How many times better ours is: against ÷ ours for times, ours ÷ against for rates. Below 1 the other is better. */
  ratio: number | null
  unit: 'ms' | '%' | 'bytes' | 'kB' | 'a second' | 'steps' | 'shift' | 'faults'
  /** How many samples each figure is taken from. */
  samples: number
  /** Least and most of the samples; null where the figure is one rate. */
  oursRange: [number, number] | null
  againstRange: [number, number] | null
  /** What was aimed for, and whether it was reached in this run. */
  goal: { words: string; isMet: boolean } | null
}

export type Result = Measurement & { group: string /** YYYY-MM-DD */; measuredOn: string; machine: string }

/** A group of measurements; its name is what `npm run bench` is asked for. */
export type Bench = {
  name: string
  /** What is measured and against what, in paragraphs; printed over the group's table. */
  about: string[]
  run: () => Promise<Measurement[]>
}
