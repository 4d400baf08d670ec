import 'server-only'
import path from 'node:path'
import { Worker } from 'node:worker_threads'

/** Values by the names of columns; those left out are nought. */
export type MilpColumns = ReadonlyMap<string, number>

/** `optimal` is proved; `best-found` is a solution, but time ran out before it was proved the best. `bound`: none is better than that. */
export type MilpAnswer =
  | { status: 'optimal' | 'best-found'; objective: number; bound: number | null; columns: MilpColumns }
  | { status: 'infeasible' | 'unbounded' }
  | { status: 'out-of-time'; bound: number | null }

/** What a solver tells on the way. */
export type MilpNews = { kind: 'bound'; bound: number } | { kind: 'better'; objective: number; columns: MilpColumns }

type Columns = [string, number][]
type Ended = { kind: 'ended'; status: string; isKnown: boolean; objective: number; bound: number | null; columns: Columns }
type Posted = Ended | { kind: 'bound'; bound: number } | { kind: 'better'; objective: number; columns: Columns }

type SolveOptions = {
  timeLimitSeconds: number
  signal?: AbortSignal
  /** A solution to begin from; columns left out are nought. One that breaks a rule is passed over. */
  start?: MilpColumns
  /** Proved as soon as none can be better by more than this; nought as good as when left out. Below 1 where objectives are whole. */
  absoluteGap?: number
  onNews?: (news: MilpNews) => void
}

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
 * @param options.timeLimitSeconds  What the solver may take, without the start of its thread (about 0.1 s) and the wait for others.
 * @param options.signal  Ends the work at once, or the wait for it; the promise is then rejected with the signal's reason.
 * @throws {Error} when the text is no model.
 */
export function solveMilp(lpText: string, options: SolveOptions): Promise<MilpAnswer> {
  const mine = last.then(() => solveNow(lpText, options))
  last = mine.catch(() => {})
  return mine
}

async function solveNow(lpText: string, options: SolveOptions): Promise<MilpAnswer> {
  const { timeLimitSeconds, signal, start, onNews, absoluteGap } = options
  signal?.throwIfAborted()
  const worker = new Worker(workerFile(), { workerData: { lpText, timeLimitSeconds, absoluteGap, start: start && [...start] } })
  const ended = new AbortController()
  try {
    return await new Promise<MilpAnswer>((resolve, reject) => {
      const overdue = setTimeout(() => resolve({ status: 'out-of-time', bound: null }), timeLimitSeconds * 1_000 + graceMs)
      ended.signal.addEventListener('abort', () => clearTimeout(overdue))
      signal?.addEventListener('abort', () => reject(signal.reason), { signal: ended.signal })
      worker.on('message', (posted: Posted) => {
        if (ended.signal.aborted) return
        if (posted.kind === 'bound') return onNews?.(posted)
        if (posted.kind === 'better') return onNews?.({ ...posted, columns: new Map(posted.columns) })
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

function answerOf({ status, isKnown, objective, bound, columns }: Ended): MilpAnswer | null {
  if (status === 'optimal') return { status: 'optimal', objective, bound: objective, columns: new Map(columns) }
  if (status === 'infeasible') return { status: 'infeasible' }
  if (status === 'unbounded' || status === 'unboundedOrInfeasible') return { status: 'unbounded' }
  if (status !== 'timeLimit') return null
  return isKnown ? { status: 'best-found', objective, bound, columns: new Map(columns) } : { status: 'out-of-time', bound }
}
