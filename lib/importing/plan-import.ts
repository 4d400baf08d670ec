import type { CheckedRows, DraftRow } from './drafts'
import type { ImportKind } from './fields'
import type { ImportPlan } from './import-plan'
import { planCharts } from './plan-charts'
import { planCloth } from './plan-cloth'
import { planLists } from './plan-lists'
import { planPlaces } from './plan-places'
import { planProjects } from './plan-projects'
import { planThreads } from './plan-threads'
import { PlanningDesk } from './planning-desk'
import type { ImportedNoun, Snapshot } from './snapshot'
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
export function planImport(checked: CheckedRows, snapshot: Snapshot, { newId }: { newId: () => string }): ImportPlan {
  const desk = new PlanningDesk(snapshot, newId, checked.columnOf)
  const toMend = planKind(checked, desk)

  const refused = new Set([...checked.refusedRows, ...desk.errors].map(({ rowNumber }) => rowNumber))
  const rows = desk.outcomes.sort((left, right) => left.rowNumber - right.rowNumber)
  const count = (outcome: string) => rows.filter((row) => row.outcome === outcome).length
  return {
    kind: checked.kind,
    counts: { added: count('added'), changed: count('changed'), same: count('same'), refused: refused.size },
    rows,
    errors: [...checked.errors, ...desk.errors].sort(byRowNumber),
    warnings: [...checked.warnings, ...desk.warnings].sort(byRowNumber),
    rowsToMend: [...new Set([...refused, ...toMend])].sort((left, right) => left - right),
    operations: desk.listOperations(),
    movements: desk.movements,
  }
}

const byRowNumber = (left: { rowNumber: number }, right: { rowNumber: number }): number => left.rowNumber - right.rowNumber

/** @returns rows that are not refused but belong in the file for mending. */
function planKind(checked: CheckedRows, desk: PlanningDesk): number[] {
  switch (checked.kind) {
    case 'places':
      planPlaces(desk, partKnown(checked.rows, desk, 'place'))
      return []
    case 'threads':
      planThreads(desk, partKnown(checked.rows, desk, 'batch'))
      return []
    case 'cloth':
      planCloth(desk, partKnown(checked.rows, desk, 'cloth'))
      return []
    case 'charts':
      planCharts(desk, partKnown(checked.rows, desk, 'design'))
      return []
    case 'projects':
      planProjects(desk, partKnown(checked.rows, desk, 'project'))
      return []
    case 'lists':
      return planLists(desk, partKnown(checked.rows, desk, 'list'), checked.refusedRows)
  }
}

/** Rows brought in before are the same. Both parts go by row key, an order that has nothing to do with the order of the file. */
function partKnown<K extends ImportKind>(rows: readonly DraftRow<K>[], desk: PlanningDesk, noun: ImportedNoun): UnknownRows<K> {
  const parted: UnknownRows<K> = { rows: [], known: [] }
  for (const row of [...rows].sort((left, right) => (left.rowKey < right.rowKey ? -1 : 1))) {
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
