import 'server-only'
import path from 'node:path'
import type { CutPlan, CutRequest } from '#lib/cloth/cut-plan'
import type { CutPosted, CutWork } from './cut-worker'

/** `searched`: the search came to its end; whether the plan is proved, it says itself. */
export type CutEnding = 'searched' | 'out-of-time' | 'stopped'

export type CutRun = { plan: CutPlan; ending: CutEnding }

type CutRunOptions = {
  timeLimitSeconds: number
  /** Ends the work at once, with the best plan so far. */
  signal?: AbortSignal
  /** Called with each better plan, and whenever its bound is. */
  onProgress?: (plan: CutPlan) => void
  /** Another worker, for tests. */
  workerFile?: string
}

/** The search looks at its clock every few milliseconds; a worker that is silent so long after its time is ended from outside. */
const graceMs = 5_000
/** More than any search of a person's pieces was seen to take; one that does ends with an error, not with the process. */
const mostMegabytes = 1_024

// Taken from Node past the screens' bundler: that would follow a worker's path, and where it cannot tell it, take in the whole project.
const threads = process.getBuiltinModule('node:worker_threads')

// The path is made at run time from the folder the project is started in.
const builtWorker = () => path.join(process.cwd(), 'lib', 'solver', 'built', 'cut-worker.mjs')

/**
 * Search for the best plan of cuts in a worker thread, until it is proved, the search ends, the time is up or `signal` says so. Equal
 * requests give equal plans where the search comes to its end.
 *
 * @throws {Error} when the worker breaks (a fault, or no memory left), or is stopped before its first plan (the signal's reason)
 */
export async function runCutPlan(request: CutRequest, options: CutRunOptions): Promise<CutRun> {
  const { timeLimitSeconds, signal, onProgress, workerFile = builtWorker() } = options
  signal?.throwIfAborted()
  const worker = new threads.Worker(workerFile, {
    workerData: { request, timeLimitSeconds } satisfies CutWork,
    resourceLimits: { maxOldGenerationSizeMb: mostMegabytes },
  })
  const ended = new AbortController()
  let best: CutPlan | null = null
  try {
    return await new Promise<CutRun>((resolve, reject) => {
      const endWith = (ending: CutEnding, otherwise: () => unknown) =>
        best ? resolve({ plan: best, ending }) : reject(otherwise())
      const overdue = setTimeout(
        () => endWith('out-of-time', () => new Error('runCutPlan: the worker made no plan in its time')),
        timeLimitSeconds * 1_000 + graceMs,
      )
      ended.signal.addEventListener('abort', () => clearTimeout(overdue))
      signal?.addEventListener('abort', () => endWith('stopped', () => signal.reason), { signal: ended.signal })
      worker.on('message', (posted: CutPosted) => {
        best = posted.plan
        if (posted.kind === 'better') onProgress?.(posted.plan)
        else resolve({ plan: posted.plan, ending: posted.isOutOfTime ? 'out-of-time' : 'searched' })
      })
      worker.once('error', (error) => reject(new Error(`runCutPlan: the worker broke: ${error.message}`, { cause: error })))
      worker.once('exit', (code) => reject(new Error(`runCutPlan: the worker ended with ${code}`)))
    })
  } finally {
    ended.abort()
    await worker.terminate()
  }
}
