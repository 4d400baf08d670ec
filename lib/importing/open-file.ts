import type { Result } from '#lib/result'
import { arrangeSheet } from './arrange'
import { type DecodeRefused, decodeText } from './decode'
import type { SheetLayout } from './layouts'
import type { Reading } from './mapping'
import { rowsOfText, type Table, type TableRefused } from './read-table'
import type { Sheet } from './sheet'
import { type Separator, sniffSeparator } from './sniff-separator'
import type { Steps } from './steps'
import { mayBeWorkbook } from './xlsx/looks-like-workbook'
import { readSheet } from './xlsx/read-sheet'
import { openWorkbook, type SheetListed } from './xlsx/workbook'
import type { WorkbookRefused } from './xlsx/workbook-refused'

/** A file opened as far as its cells, before anything is made of them. */
export type OpenedFile = {
  /** The encoding of a text; null for a workbook. */
  encoding: string | null
  encodingWarnings: string[]
  separator: Separator | null
  /** The sheets of a workbook, in the order of their tabs; null for a text. */
  sheets: SheetListed[] | null
  /** Which of them it is. */
  sheetName: string | null
  hasMacros: boolean
  sheet: Sheet
}

export type OpenRefused = DecodeRefused | TableRefused | WorkbookRefused

/** How steps are run: at once, or with others let in between. */
export type Run = <T>(steps: Steps<T>) => Promise<T>

/**
 * Open a file: a text of rows, or one sheet of a workbook, told apart by what is in them and not by their names.
 *
 * @param choose  Which sheet, by name; null: the first that is not hidden and not blank.
 */
export async function openFile(
  bytes: Uint8Array,
  {
    separator,
    choose,
    run,
  }: { separator?: Separator; choose: (sheets: SheetListed[]) => string | null | Promise<string | null>; run: Run },
): Promise<Result<OpenedFile, OpenRefused>> {
  const decoded = decodeText(bytes)
  if (!decoded.ok) {
    if (!mayBeWorkbook(decoded.error)) return decoded
    const opened = await openSheet(bytes, choose)
    // A zip with no workbook in it is a zip.
    const isNone = !opened.ok && opened.error.kind === 'workbook-broken' && decoded.error.kind === 'binary'
    return isNone ? decoded : opened
  }
  const { text, encoding, warnings } = decoded.value
  const mark = separator ?? sniffSeparator(text).separator
  const sheet = await run(rowsOfText(text, mark))
  if (!sheet.ok) return sheet
  const about = { encoding, encodingWarnings: warnings, separator: mark, sheets: null, sheetName: null, hasMacros: false }
  return { ok: true, value: { ...about, sheet: sheet.value } }
}

async function openSheet(
  bytes: Uint8Array,
  choose: (sheets: SheetListed[]) => string | null | Promise<string | null>,
): Promise<Result<OpenedFile, WorkbookRefused>> {
  const opened = await openWorkbook(bytes)
  if (!opened.ok) return opened
  const workbook = opened.value
  const sheets = workbook.sheets.map(({ name, isHidden }) => ({ name, isHidden }))
  const about = { encoding: null, encodingWarnings: [], separator: null, sheets, hasMacros: workbook.hasMacros }
  const chosen = await choose(sheets)
  if (chosen !== null) {
    const place = sheets.findIndex(({ name }) => name === chosen)
    if (place === -1)
      return { ok: false, error: { kind: 'no-such-sheet', sheet: chosen, sheets: sheets.map(({ name }) => name) } }
    const sheet = await readSheet(workbook, place)
    return sheet.ok ? { ok: true, value: { ...about, sheetName: chosen, sheet: sheet.value } } : sheet
  }
  // Hidden ones last: they are seldom what is meant.
  const places = [...sheets.keys()].sort((left, right) => Number(sheets[left]?.isHidden) - Number(sheets[right]?.isHidden))
  for (const place of places) {
    const sheet = await readSheet(workbook, place)
    if (!sheet.ok) return sheet
    if (sheet.value.rows.length > 0)
      return { ok: true, value: { ...about, sheetName: sheets[place]?.name ?? '', sheet: sheet.value } }
  }
  return { ok: false, error: { kind: 'workbook-blank' } }
}

/** Make a table of an opened file's rows. Joined cells are filled in the rows themselves, so that a sheet is arranged anew from a copy. */
export const arrangeFile = (
  { sheet }: OpenedFile,
  reading: Reading,
): Steps<Result<Table & { layout: SheetLayout }, TableRefused>> =>
  arrangeSheet(
    sheet.merges.length === 0 ? sheet : { ...sheet, rows: sheet.rows.map((row) => ({ ...row, cells: [...row.cells] })) },
    reading,
  )
