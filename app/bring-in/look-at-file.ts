import { inTurns } from '#lib/db/importing/in-turns'
import type { ImportKind } from '#lib/importing/fields'
import { arrangeFile, type OpenRefused, openFile } from '#lib/importing/open-file'
import { recogniseKind } from '#lib/importing/recognise'
import { ok, type Result } from '#lib/result'

const rowsLookedAt = 200
/** Of a workbook with more sheets than this the others wait to be chosen. */
const sheetsLookedAt = 20

/** A table found in a file: the sheet it is on, null for a text, and what its rows seem to be, null when nothing says so. */
export type TableSeen = { sheet: string | null; kind: ImportKind | null }

/** The tables of a file: one of a text, one for each sheet of a workbook that holds any and is not hidden; refused when there is none at all. */
export async function lookAtFile(bytes: Uint8Array): Promise<Result<TableSeen[], OpenRefused>> {
  const first = await lookAt(bytes, null)
  if (!first.ok) return first
  const { sheets, seen } = first.value
  const others = sheets.filter(({ name, isHidden }) => !isHidden && name !== seen.sheet).slice(0, sheetsLookedAt - 1)
  const tables = [seen]
  for (const { name } of others) {
    const look = await lookAt(bytes, name)
    // A blank sheet, or one with no table on it, is nothing to bring in.
    if (look.ok) tables.push(look.value.seen)
  }
  const inOrder = sheets.map(({ name }) => name)
  return ok(tables.sort((left, right) => inOrder.indexOf(left.sheet ?? '') - inOrder.indexOf(right.sheet ?? '')))
}

async function lookAt(bytes: Uint8Array, sheet: string | null) {
  const opened = await openFile(bytes, { choose: () => sheet, run: inTurns })
  if (!opened.ok) return opened
  const table = await inTurns(arrangeFile(opened.value, {}))
  if (!table.ok) return table
  const { headers, rows, layout } = table.value
  const sampleRows = rows.slice(0, rowsLookedAt).map((row) => row.cells)
  const kind = layout === 'rows' ? recogniseKind(headers, sampleRows).kind : 'threads'
  return ok({ sheets: opened.value.sheets ?? [], seen: { sheet: opened.value.sheetName, kind } satisfies TableSeen })
}
