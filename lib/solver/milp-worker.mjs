// Runs in a worker thread, one model each: HiGHS is synchronous and would hold up every request on the main thread.
import { parentPort, workerData } from 'node:worker_threads'
import load from 'highs'

const tolerance = 1e-6
/** Bounds that move by less are not worth a message; nor are those that come so soon after another. */
const leastNews = 0.01
const quietMs = 200

const highs = await load()
const { callbackType, modelStatus } = highs.constants
const { lpText, timeLimitSeconds, start, absoluteGap = 1e-6 } = workerData
const model = highs.createModel({ format: 'lp', data: lpText })
for (const [name, value] of Object.entries({
  output_flag: false,
  time_limit: timeLimitSeconds,
  mip_rel_gap: 0,
  mip_abs_gap: absoluteGap,
}))
  model.options.set(name, value)

const { numCols, numRows } = model.getDimensions()
if (numCols === 0) throw new Error('solveMilp: the text is no model')
const names = Array.from({ length: numCols }, (_, at) => model.getColName(at))
const wholeColumns = names.flatMap((_, at) => (model.getColIntegrality(at) === highs.constants.variableType.integer ? [at] : []))
if (start) {
  const values = new Float64Array(numCols)
  for (const [name, value] of start) values[model.getColByName(name)] = value
  model.setSolution({ colValue: values })
}

/** A run cut short may hand back figures that satisfy nothing: only a point within every bound is a solution. */
function isSolution({ colValue, rowValue }) {
  const { colLower, colUpper, rowLower, rowUpper } = model.getLp()
  const isWithin = (value, lower, upper) => Number.isFinite(value) && value >= lower - tolerance && value <= upper + tolerance
  return (
    colValue.length === numCols &&
    rowValue.length === numRows &&
    colValue.every((value, at) => isWithin(value, colLower[at], colUpper[at])) &&
    rowValue.every((value, at) => isWithin(value, rowLower[at], rowUpper[at])) &&
    wholeColumns.every((at) => Math.abs(colValue[at] - Math.round(colValue[at])) <= tolerance)
  )
}

const columnsOf = (values) => names.map((name, at) => [name, values[at]])

let told = Number.POSITIVE_INFINITY
let toldAt = 0
const tellBound = ({ mip_dual_bound: bound }) => {
  if (!Number.isFinite(bound) || Math.abs(told - bound) < leastNews || performance.now() - toldAt < quietMs) return
  told = bound
  toldAt = performance.now()
  parentPort.postMessage({ kind: 'bound', bound })
}
const ran = model.run({
  [callbackType.mipImprovingSolution]: ({ data }) => {
    parentPort.postMessage({
      kind: 'better',
      objective: data.objective_function_value,
      columns: columnsOf(data.mip_solution),
    })
  },
  [callbackType.mipInterrupt]: ({ data }) => tellBound(data),
})
const status = model.getModelStatus()
const solution = model.getSolution()
const isKnown = isSolution(solution)
const isMixed = wholeColumns.length > 0
const bound = isMixed && ran ? model.info.get('mip_dual_bound') : model.getObjectiveValue()
parentPort.postMessage({
  kind: 'ended',
  status: Object.entries(modelStatus).find(([, code]) => code === status)?.[0] ?? String(status),
  isKnown,
  objective: model.getObjectiveValue(),
  bound: Number.isFinite(bound) && Math.abs(bound) < 1e20 ? bound : null,
  columns: isKnown ? columnsOf(solution.colValue) : [],
})
