import 'server-only'
import path from 'node:path'
import type { ChoiceWorld, Placed } from '#lib/planning/together/choice-world'
import type { ChoicePosted, ChoiceWork } from './choice-worker'

/** A choice by hand, and what it is worth. */
export type HandChoice = { placed: Placed[]; value: number }

type SearchOptions = {
  timeLimitMs: number
  /** Ends the search; what was found by then stays found. */
  signal: AbortSignal
  /** Called with the greedy choice, then with each that is worth more. */
  onBetter: (found: HandChoice) => void
  /** A choice to better beside the greedy one. */
  start?: readonly Placed[]
}

// Taken from Node past the screens' bundler: that would follow a worker's path, and where it cannot tell it, take in the whole project.
const threads = process.getBuiltinModule('node:worker_threads')

// The path is made at run time from the folder the project is started in.
const builtWorker = () => path.join(process.cwd(), 'lib', 'solver', 'built', 'choice-worker.mjs')

const seed = 1

/**
 * Choose by greed and small steps in a worker thread until the time is up or `signal` says so. Cloth is left aside.
 *
 * @throws {Error} when the worker breaks
 */
export async function runChoiceSearch(world: ChoiceWorld, options: SearchOptions): Promise<void> {
  const { timeLimitMs, signal, onBetter, start = [] } = options
  if (signal.aborted) return
  const worker = new threads.Worker(builtWorker(), {
    workerData: { world, start, timeLimitMs, seed } satisfies ChoiceWork,
  })
  const ended = new AbortController()
  try {
    await new Promise<void>((resolve, reject) => {
      signal.addEventListener('abort', () => resolve(), { signal: ended.signal })
      worker.on('message', (posted: ChoicePosted) => {
        if (ended.signal.aborted) return
        if (posted.kind === 'ended') resolve()
        else onBetter({ placed: posted.placed, value: posted.value })
      })
      worker.once('error', (error) => reject(new Error(`runChoiceSearch: the worker broke: ${error.message}`, { cause: error })))
      worker.once('exit', (code) => reject(new Error(`runChoiceSearch: the worker ended with ${code}`)))
    })
  } finally {
    ended.abort()
    await worker.terminate()
  }
}
