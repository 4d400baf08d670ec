// Runs in a worker thread, one search each: it holds its thread until it is ended. Bundled by prisma/bundle-workers.mjs.
import { parentPort, workerData } from 'node:worker_threads'
import type { ChoiceWorld, Placed } from '#lib/planning/together/choice-world'
import { randomFrom, searchChoice } from '#lib/planning/together/search-choice'

export type ChoiceWork = { world: ChoiceWorld; start: readonly Placed[]; timeLimitMs: number; seed: number }
/** The greedy choice comes first, and after it each that is worth more; `ended` when the time is up. */
export type ChoicePosted = { kind: 'better'; placed: Placed[]; value: number } | { kind: 'ended' }

/** The clock is looked at after so many steps. */
const stepsALook = 16

const { world, start, timeLimitMs, seed } = workerData as ChoiceWork
const post = (posted: ChoicePosted) => parentPort?.postMessage(posted)

const until = performance.now() + timeLimitMs
const search = searchChoice(world, randomFrom(seed), start)
let value = -1
do {
  for (let step = 0; step < stepsALook; step++) {
    const found = search.next().value
    if (found && found.value > value) {
      value = found.value
      post({ kind: 'better', ...found })
    }
  }
} while (performance.now() < until)
post({ kind: 'ended' })
