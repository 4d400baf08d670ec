import type { CheckedRows, DraftRow } from './drafts'
import type { ImportKind } from './fields'
import { meantNow } from './former-names'
import type { ImportPlan } from './import-plan'
import { planCharts } from './plan-charts'
import { planCloth } from './plan-cloth'
import { planLists } from './plan-lists'
import { planNotions } from './plan-notions'
import { planPlaces } from './plan-places'
import { planProjects } from './plan-projects'
import { type OtherHome, planThreads } from './plan-threads'
import { PlanningDesk } from './planning-desk'
import type { ImportedNoun, Snapshot } from './snapshot'
import { finish, rowsAStep, type Steps } from './steps'
import type { UnknownRows } from './unknown-rows'

/**
 * Decide what bringing in a file's rows would do: what is new, what differs, what is the same, what cannot be; without writing.
 *
 * A row an import that stands brought in before is the same, whatever became of its goods since. Any other is held against what is there
 * by its natural key. Blank cells say nothing and take nothing away. Owners, places, makers, lines, threads, designers and themes that
 * rows name and nobody knows are made, each once. Apart from the order of a list's lines, the order of the rows makes no difference.
 *
 * @param newId  Gives ids for what is new.
 */
export const planImport = (read: CheckedRows, snapshot: Snapshot, options: PlanOptions): ImportPlan =>
  finish(planInSteps(read, snapshot, options))

/** `otherHome`: what a row means that says another home than the thread it speaks of has; told by the rest of the file where left out. */
type PlanOptions = { newId: () => string; otherHome?: OtherHome }

/** `planImport` in steps. */
export function* planInSteps(read: CheckedRows, snapshot: Snapshot, { newId, otherHome }: PlanOptions): Steps<ImportPlan> {
  const checked = meantNow(read, snapshot)
  const desk = new PlanningDesk(snapshot, newId, checked.columnOf)
  yield
  const toMend = yield* planKind(checked, desk, otherHome)
  yield

  const refused = new Set([...checked.refusedRows, ...desk.errors].map(({ rowNumber }) => rowNumber))
  const rows = desk.outcomes.sort((left, right) => left.rowNumber - right.rowNumber)
  yield
  const count = (outcome: string) => rows.filter((row) => row.outcome === outcome).length
  const operations = desk.listOperations()
  yield
  return {
    kind: checked.kind,
    counts: { added: count('added'), changed: count('changed'), same: count('same'), refused: refused.size },
    rows,
    errors: [...checked.errors, ...desk.errors].sort(byRowNumber),
    warnings: [...checked.warnings, ...desk.warnings].sort(byRowNumber),
    rowsToMend: [...new Set([...refused, ...toMend])].sort((left, right) => left - right),
    operations,
    movements: desk.movements,
  }
}

const byRowNumber = (left: { rowNumber: number }, right: { rowNumber: number }): number => left.rowNumber - right.rowNumber

/** @returns rows that are not refused but belong in the file for mending. */
function* planKind(checked: CheckedRows, desk: PlanningDesk, otherHome: OtherHome | undefined): Steps<number[]> {
  switch (checked.kind) {
    case 'places':
      planPlaces(desk, yield* partKnown(checked.rows, desk, 'place'))
      return []
    case 'threads':
      yield* planThreads(desk, yield* partKnown(checked.rows, desk, 'batch'), otherHome)
      return []
    case 'cloth':
      yield* planCloth(desk, yield* partKnown(checked.rows, desk, 'cloth'))
      return []
    case 'charts':
      yield* planCharts(desk, yield* partKnown(checked.rows, desk, 'design'))
      return []
    case 'projects':
      planProjects(desk, yield* partKnown(checked.rows, desk, 'project'))
      return []
    case 'notions':
      yield* planNotions(desk, yield* partKnown(checked.rows, desk, 'notion'))
      return []
    case 'lists':
      return yield* planLists(desk, yield* partKnown(checked.rows, desk, 'list'), checked.refusedRows)
  }
}

/** Rows brought in before are the same. Both parts go by row key, an order that has nothing to do with the order of the file. */
function* partKnown<K extends ImportKind>(
  rows: readonly DraftRow<K>[],
  desk: PlanningDesk,
  noun: ImportedNoun,
): Steps<UnknownRows<K>> {
  const parted: UnknownRows<K> = { rows: [], known: [] }
  const inOrder = [...rows].sort((left, right) => (left.rowKey < right.rowKey ? -1 : 1))
  yield
  let at = 0
  for (const row of inOrder) {
    if (++at % rowsAStep === 0) yield
    const nounId = desk.broughtInAs(row.rowKey)
    if (nounId === undefined) {
      parted.rows.push(row)
      continue
    }
    parted.known.push({ row, nounId })
    // A list's known rows may have to be set again with the others; planLists says what becomes of them.
    if (noun !== 'list') desk.finish(row, 'same', noun, nounId || null)
  }
  return parted
}
