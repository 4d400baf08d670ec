/** Why a workbook is not read. */
export type WorkbookRefused =
  /** A zip, or a part of it, that is damaged or not what it says it is. */
  | { kind: 'workbook-broken' }
  /** XML that declares entities of its own, as no spreadsheet program writes. */
  | { kind: 'workbook-declares-entities' }
  /** It would take up more than `mostMegabytes` unpacked. */
  | { kind: 'workbook-swells'; mostMegabytes: number }
  | { kind: 'workbook-too-many'; what: 'parts' | 'sheets' | 'cells' | 'rows' | 'columns'; most: number }
  /** No sheet of the workbook is called so; `sheets` are there. */
  | { kind: 'no-such-sheet'; sheet: string; sheets: string[] }
  /** Every sheet is blank. */
  | { kind: 'workbook-blank' }

/** Thrown while a workbook is read; `readWorkbook` and `readSheet` turn it into a refusal. */
export class WorkbookFault extends Error {
  constructor(readonly refusal: WorkbookRefused) {
    super(refusal.kind)
  }
}
