import 'server-only'
import path from 'node:path'
import { Worker } from 'node:worker_threads'

/** `optimal` is proved; `best-found` is a solution, but time ran out before it was proved the best. */
export type MilpAnswer =
  | { status: 'optimal' | 'best-found'; objective: number; columns: ReadonlyMap<string, number> }
  | { status: 'infeasible' | 'unbounded' | 'out-of-time' }

type Posted = { status: string; isKnown: boolean; objective: number; columns: [string, number][] }

/** Beyond its own time limit the solver may be a while in one step; after so long it is ended from outside. */
const graceMs = 5_000

// Read by Node itself, never bundled: the path is made at run time from the folder the project is started in.
const workerFile = () => path.join(process.cwd(), 'lib', 'solver', 'milp-worker.mjs')

// One model at a time: a solver holds about 130 MB after a model of 40,000 figures (measured on Node 20).
let last: Promise<unknown> = Promise.resolve()

/**
 * Solve a mixed-integer linear program in a worker thread with HiGHS (Huangfu and Hall, "Parallelizing the dual revised simplex method",
 * Mathematical Programming Computation 10, 2018), to a proved optimum where time allows. Models wait for one another.
 *
 * @param lpText  The model in CPLEX LP format. Equal texts give equal answers unless time runs out.
 * @param timeLimitSeconds  What the solver may take, without the start of its thread (about 0.1 s) and the wait for others.
 * @param signal  Ends the work at once, or the wait for it; the promise is then rejected with the signal's reason.
 * @throws {Error} when the text is no model.
 */
export function solveMilp(lpText: string, options: { timeLimitSeconds: number; signal?: AbortSignal }): Promise<MilpAnswer> {
  const mine = last.then(() => solveNow(lpText, options))
  last = mine.catch(() => {})
  return mine
}

async function solveNow(
  lpText: string,
  { timeLimitSeconds, signal }: { timeLimitSeconds: number; signal?: AbortSignal },
): Promise<MilpAnswer> {
  signal?.throwIfAborted()
  const worker = new Worker(workerFile(), { workerData: { lpText, timeLimitSeconds } })
  const ended = new AbortController()
  try {
    return await new Promise<MilpAnswer>((resolve, reject) => {
      const overdue = setTimeout(() => resolve({ status: 'out-of-time' }), timeLimitSeconds * 1_000 + graceMs)
      ended.signal.addEventListener('abort', () => clearTimeout(overdue))
      signal?.addEventListener('abort', () => reject(signal.reason), { signal: ended.signal })
      worker.once('message', (posted: Posted) => {
        const answer = answerOf(posted)
        if (answer) resolve(answer)
        else reject(new Error(`solveMilp: the solver says ${posted.status}`))
      })
      worker.once('error', reject)
      worker.once('exit', (code) => reject(new Error(`solveMilp: the worker ended with ${code}`)))
    })
  } finally {
    ended.abort()
    await worker.terminate()
  }
}

function answerOf({ status, isKnown, objective, columns }: Posted): MilpAnswer | null {
  if (status === 'Optimal') return { status: 'optimal', objective, columns: new Map(columns) }
  if (status === 'Infeasible') return { status: 'infeasible' }
  if (status === 'Unbounded' || status === 'Primal infeasible or unbounded') return { status: 'unbounded' }
  if (status !== 'Time limit reached') return null
  return isKnown ? { status: 'best-found', objective, columns: new Map(columns) } : { status: 'out-of-time' }
}
