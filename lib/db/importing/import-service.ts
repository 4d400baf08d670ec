import 'server-only'
import type { ImportKind } from '#lib/importing/fields'
import type { ImportPlan } from '#lib/importing/import-plan'
import type { SheetLayout } from '#lib/importing/layouts'
import type { Mapping, Reading } from '#lib/importing/mapping'
import type { OpenRefused } from '#lib/importing/open-file'
import type { Separator } from '#lib/importing/sniff-separator'

/** How a person wants a file read; what is left out is recognised. */
export type ImportChoices = {
  kind?: ImportKind
  separator?: Separator
  /** Which sheet, how it is laid out, where its headers stand. */
  reading?: Reading
  mapping?: Mapping
  /** Whose goods, where the file has no owner column. */
  ownerName?: string
}

/** A row at the top of a file: its number, and the first of its cells that are not blank. */
export type FirstRow = { rowNumber: number; cells: string[] }

/** How the table was found in a file, and what else could be chosen. */
export type HowFound = {
  /** Of a text; null for a workbook. */
  encoding: string | null
  encodingWarnings: string[]
  separator: Separator | null
  /** Of a workbook; null for a text. */
  sheets: { name: string; isHidden: boolean }[] | null
  sheetName: string | null
  hasMacros: boolean
  layout: SheetLayout
  headerRowNumber: number
  headerRows: 1 | 2
  /** Of the whole sheet, for choosing the row of the headers. */
  firstRows: FirstRow[]
}

export type ImportRefused =
  | OpenRefused
  /** Nothing in the headers says what the rows are; the person has to choose, from these headers. */
  | { kind: 'unknown-kind'; fileName: string; headers: string[]; found: HowFound }
  /** The mapping names a column the file has not, or leaves a required field without one. */
  | {
      kind: 'mapping-incomplete'
      fileName: string
      missing: string[]
      headers: string[]
      sampleRows: string[][]
      mapping: Mapping
      found: HowFound
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
  found: HowFound
  headers: string[]
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
