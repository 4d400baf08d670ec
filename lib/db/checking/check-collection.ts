import 'server-only'
import type { Fault, FaultKind } from '#lib/checking/fault'
import { weightOf } from '#lib/checking/fault'
import { number } from '../cells'
import type { Database } from '../client'
import { each, type ReadRows, readSnapshot } from '../read-snapshot'
import { type Compared, findAnswerFaults, findSnapshotFaults } from './find-answer-faults'
import { findDamage } from './find-damage'
import { findFileFaults } from './find-file-faults'
import { findLoanFaults, findLookedForFaults } from './find-loan-faults'
import { findPlaceFaults } from './find-place-faults'
import { findPromiseFaults } from './find-promise-faults'
import { findBrokenLinks, findReferenceFaults } from './find-reference-faults'
import { findStockFaults, findWhereaboutsFaults } from './find-stock-faults'
import { findKitFaults, findWorkFaults } from './find-work-faults'

export const checkSteps = [
  'damage',
  'links',
  'stock',
  'places',
  'promises',
  'loans',
  'work',
  'references',
  'files',
  'snapshot',
  'answers',
] as const
export type CheckStep = (typeof checkSteps)[number]
export type CheckProgress = { step: CheckStep; done: number; of: number; found: number }

/** What was looked at, by number. */
export type LookedAt = {
  movements: number
  things: number
  places: number
  promises: number
  files: number
  /** Designs whose needs, kept for the next start, were held against the database; null where none are kept. */
  snapshot: Compared | null
  /** Designs whose answers in memory were; null where this process holds none. */
  answers: Compared | null
}

export type CheckResult = {
  at: string
  seconds: number
  engine: Database['engine']
  looked: LookedAt
  /** Of each kind the first so many. */
  faults: Fault[]
  /** How many there are of each kind. */
  counts: Partial<Record<FaultKind, number>>
  /** False where it was stopped: what comes after that step was not looked at. */
  isWhole: boolean
}

/** Nothing that must not be was found: what only wants a look does not count. */
export const isSound = ({ counts }: Pick<CheckResult, 'counts'>): boolean =>
  (Object.keys(counts) as FaultKind[]).every((kind) => weightOf(kind) === 'mind')

/** Faults of a kind beyond so many are counted and not kept: mend these, and look again. */
export const mostOfAKind = 500

class CheckStopped extends Error {
  constructor() {
    super('the check was stopped')
  }
}

/**
 * Look through the whole collection, as it stands at one moment, for what must not be. It reads in stretches, so that others are served in
 * between, keeps no more than it has to at a time, and changes nothing.
 *
 * @param controls.leaveOut  steps that are passed over
 */
export async function checkCollection(
  database: Database,
  controls: { signal?: AbortSignal; report?: (progress: CheckProgress) => void; leaveOut?: readonly CheckStep[] } = {},
): Promise<CheckResult> {
  const { signal, report = () => {}, leaveOut = [] } = controls
  const began = Date.now()
  const at = new Date(began)
  const files = { files: 0 }
  const result: CheckResult = {
    ...{ at: at.toISOString(), seconds: 0, engine: database.engine, faults: [], counts: {}, isWhole: true },
    looked: { movements: 0, things: 0, places: 0, promises: 0, files: 0, snapshot: null, answers: null },
  }
  let found = 0
  const take = (fault: Fault) => {
    found += 1
    const count = (result.counts[fault.kind] ?? 0) + 1
    result.counts[fault.kind] = count
    if (count <= mostOfAKind) result.faults.push(fault)
  }
  const begin = async (step: CheckStep) => {
    report({ step, done: checkSteps.indexOf(step), of: checkSteps.length, found })
    await new Promise((resolve) => setImmediate(resolve))
    if (signal?.aborted) throw new CheckStopped()
  }
  try {
    await readSnapshot(database, async (reading) => {
      const rows = stoppable(reading, signal)
      const steps: Finders = [
        ['damage', [findDamage(database, signal)]],
        ...findersOfRows(rows, database.engine),
        ['files', [findFileFaults(rows, at, files)]],
      ]
      await countRows(rows, result.looked)
      for (const [step, finders] of steps.filter(([step]) => !leaveOut.includes(step))) {
        await begin(step)
        for (const faults of finders) for await (const fault of faults) take(fault)
        // What a damaged file says further cannot be relied on.
        if (step === 'damage' && result.counts['database-damaged']) throw new CheckStopped()
      }
      await begin('snapshot')
      const snapshot = await findSnapshotFaults(rows, database.url)
      result.looked.snapshot = snapshot.compared
      for (const fault of snapshot.faults) take(fault)
    })
    await begin('answers')
    const answers = await findAnswerFaults(database)
    result.looked.answers = answers.compared
    for (const fault of answers.faults) take(fault)
  } catch (error) {
    if (!(error instanceof CheckStopped)) throw error
    result.isWhole = false
  }
  result.looked.files = files.files
  result.seconds = (Date.now() - began) / 1_000
  return result
}

type Finders = [CheckStep, readonly AsyncGenerator<Fault, void, void>[]][]

/** The steps that look at rows and at nothing else. */
const findersOfRows = (rows: ReadRows, engine: Database['engine']): Finders => [
  ['links', [findBrokenLinks(rows, engine)]],
  ['stock', [findStockFaults(rows, null), findWhereaboutsFaults(rows, null)]],
  ['places', [findPlaceFaults(rows)]],
  ['promises', [findPromiseFaults(rows, null)]],
  ['loans', [findLoanFaults(rows), findLookedForFaults(rows)]],
  ['work', [findKitFaults(rows), findWorkFaults(rows)]],
  ['references', [findReferenceFaults(rows)]],
]

/** How many faults there are that must not be, among rows that may not even be committed yet. */
export async function countWrong(rows: ReadRows, engine: Database['engine']): Promise<number> {
  let count = 0
  for (const [, finders] of findersOfRows(rows, engine))
    for (const faults of finders) for await (const { kind } of faults) if (weightOf(kind) === 'wrong') count += 1
  return count
}

/** The same rows, until somebody stops it. */
const stoppable = (rows: ReadRows, signal: AbortSignal | undefined): ReadRows =>
  async function* (sql, values) {
    for await (const some of rows(sql, values)) {
      if (signal?.aborted) throw new CheckStopped()
      yield some
    }
  }

async function countRows(rows: ReadRows, looked: LookedAt): Promise<void> {
  const sql = `SELECT (SELECT count(*) FROM "Movement") AS "movements",
    (SELECT count(*) FROM "Batch") + (SELECT count(*) FROM "ClothPiece") + (SELECT count(*) FROM "Chart") + (SELECT count(*) FROM "Notion") AS "things",
    (SELECT count(*) FROM "Place") AS "places", (SELECT count(*) FROM "StockPromise") AS "promises"`
  for await (const row of each(rows, sql)) {
    const [movements, things, places, promises] = row.map(number)
    Object.assign(looked, { movements, things, places, promises })
  }
}
