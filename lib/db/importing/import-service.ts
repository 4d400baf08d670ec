import 'server-only'
import type { DecodeRefused } from '#lib/importing/decode'
import type { ImportKind } from '#lib/importing/fields'
import type { ImportPlan } from '#lib/importing/import-plan'
import type { Mapping } from '#lib/importing/mapping'
import type { TableRefused } from '#lib/importing/read-table'
import type { Separator } from '#lib/importing/sniff-separator'

/** How a person wants a file read; what is left out is recognised. */
export type ImportChoices = {
  kind?: ImportKind
  separator?: Separator
  mapping?: Mapping
  /** Whose goods, where the file has no owner column. */
  ownerName?: string
}

export type ImportRefused =
  | DecodeRefused
  | TableRefused
  /** Nothing in the headers says what the rows are; the person has to choose, from these headers. */
  | { kind: 'unknown-kind'; fileName: string; headers: string[] }
  /** The mapping names a column the file has not, or leaves a required field without one. */
  | {
      kind: 'mapping-incomplete'
      fileName: string
      missing: string[]
      headers: string[]
      sampleRows: string[][]
      separator: Separator
      mapping: Mapping
    }
  /** The uploaded file is no longer kept (they are for a day). */
  | { kind: 'no-such-file'; stagedId: string }
  | { kind: 'no-such-import'; importId: string }
  | { kind: 'already-undone'; importId: string }
  | { kind: 'too-big-a-change'; rows: number }

/** What bringing a file in would do. */
export type ImportPreview = {
  stagedId: string
  fileName: string
  encoding: string
  encodingWarnings: string[]
  separator: Separator
  headers: string[]
  headerRowNumber: number
  /** The first rows as read, for the mapping form. */
  sampleRows: string[][]
  rowCount: number
  kind: ImportKind
  mapping: Mapping
  /** A file of this shape was brought in before, and its mapping remembered. */
  isMappingRemembered: boolean
  counts: ImportPlan['counts']
  /** By row; the first few hundred. */
  errors: ImportPlan['errors']
  errorCount: number
  warnings: ImportPlan['warnings']
  warningCount: number
  /** New places, owners, makers, threads … the rows would make beside themselves, and how many. */
  alsoMade: { noun: string; count: number; names: string[] }[]
}

export type ImportProgress =
  | { state: 'running'; step: 'reading' | 'deciding' | 'writing'; done: number; of: number }
  | { state: 'done'; importId: string; counts: ImportPlan['counts'] }
  | { state: 'refused'; refusal: ImportRefused }
  | { state: 'stopped' }
  | { state: 'failed'; errorId: string }

export type ImportListed = {
  id: string
  kind: ImportKind
  fileName: string
  at: Date
  status: 'done' | 'undone'
  addedCount: number
  changedCount: number
  sameCount: number
  refusedCount: number
}

/** What an undo took back, and what it left because it was changed or used since. */
export type UndoDone = { takenBack: number; left: { noun: string; nounId: string; why: 'changed-since' | 'in-use' }[] }
