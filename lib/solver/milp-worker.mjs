// Runs in a worker thread, one model each: HiGHS is synchronous and would hold up every request on the main thread.
import { parentPort, workerData } from 'node:worker_threads'
import load from 'highs'

const tolerance = 1e-6

/** A run cut short may hand back figures that satisfy nothing: only a point within every bound is a solution. */
function isSolution({ Columns, Rows }) {
  const isWithin = ({ Primal, Lower, Upper }) =>
    Number.isFinite(Primal) && Primal >= (Lower ?? -Infinity) - tolerance && Primal <= (Upper ?? Infinity) + tolerance
  return (
    Rows.every(isWithin) &&
    Object.values(Columns).every(
      (column) =>
        isWithin(column) && (column.Type !== 'Integer' || Math.abs(column.Primal - Math.round(column.Primal)) <= tolerance),
    )
  )
}

const solver = await load()
const solved = solver.solve(workerData.lpText, {
  time_limit: workerData.timeLimitSeconds,
  mip_rel_gap: 0,
  mip_abs_gap: 1e-6,
  output_flag: false,
})
const isKnown = isSolution(solved)
parentPort.postMessage({
  status: solved.Status,
  isKnown,
  objective: solved.ObjectiveValue,
  columns: isKnown ? Object.entries(solved.Columns).map(([name, { Primal }]) => [name, Primal]) : [],
})
