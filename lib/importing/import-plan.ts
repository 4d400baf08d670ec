import type { ImportKind } from './fields'
import type { RowError, RowWarning } from './row-error'
import type { ImportedNoun, RowOf, Snapshot } from './snapshot'

/** One write. `rowNumber` is the lowest of the rows that ask for it. */
export type ImportOperation = {
  [N in ImportedNoun]:
    | { do: 'add'; noun: N; id: string; row: RowOf[N]; rowNumber: number }
    /** `before` and `after` hold the values that differ and no others. */
    | { do: 'change'; noun: N; id: string; before: Partial<RowOf[N]>; after: Partial<RowOf[N]>; rowNumber: number }
}[ImportedNoun]

/** A line for the journal; the sums of a batch's movements are its amounts. */
export type PlannedMovement = {
  kind: 'receive' | 'correct' | 'move'
  noun: 'batch' | 'cloth' | 'chart' | 'notion'
  nounId: string
  wholeDelta: number
  partDeltaStrandTenths: number
  fromPlaceId: string | null
  toPlaceId: string | null
  toOwnerId: string | null
  rowNumber: number
}

export type RowOutcome = {
  rowNumber: number
  rowKey: string
  outcome: 'added' | 'changed' | 'same'
  noun: ImportedNoun
  /** Null when the row adds nothing that could be pointed to. */
  nounId: string | null
}

export type ImportPlan = {
  kind: ImportKind
  counts: { added: number; changed: number; same: number; refused: number }
  /** What became of each row that was not refused, in the order of the file. */
  rows: RowOutcome[]
  errors: RowError[]
  warnings: RowWarning[]
  /** The rows to put in a file for mending: those refused, and the others of a thread list that lacks one, as lists are replaced whole. */
  rowsToMend: number[]
  /** In an order in which each finds what it speaks of. */
  operations: ImportOperation[]
  movements: PlannedMovement[]
}

/** The snapshot as it is after the plan was carried out. */
export function applyPlan(snapshot: Snapshot, plan: ImportPlan): Snapshot {
  const after = { ...snapshot } as unknown as Record<ImportedNoun, unknown[]> & Pick<Snapshot, 'broughtIn' | 'formerLabel'>
  const byId = new Map<string, Map<string, { id: string }>>()
  const rowsOf = (noun: ImportedNoun) => {
    const known = byId.get(noun) ?? new Map(snapshot[noun].map((row) => [row.id, row as { id: string }]))
    byId.set(noun, known)
    return known
  }
  for (const operation of plan.operations) {
    const rows = rowsOf(operation.noun)
    if (operation.do === 'add') rows.set(operation.id, operation.row)
    else rows.set(operation.id, { ...(rows.get(operation.id) as { id: string }), ...operation.after })
  }
  for (const [noun, rows] of byId) after[noun as ImportedNoun] = [...rows.values()]
  const broughtIn = new Map(snapshot.broughtIn)
  for (const row of plan.rows) if (row.nounId !== null || !broughtIn.has(row.rowKey)) broughtIn.set(row.rowKey, row.nounId ?? '')
  return { ...after, broughtIn } as unknown as Snapshot
}
