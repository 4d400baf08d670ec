import { type DecodeRefused, decodeText } from '#lib/importing/decode'
import type { ImportKind } from '#lib/importing/fields'
import { readTable, type TableRefused } from '#lib/importing/read-table'
import { recogniseKind } from '#lib/importing/recognise'
import { sniffSeparator } from '#lib/importing/sniff-separator'
import { ok, type Result } from '#lib/result'

const rowsLookedAt = 200

/** What the rows of a file seem to be, null when nothing says so; refused when it is no table at all. */
export function lookAtFile(bytes: Uint8Array): Result<ImportKind | null, DecodeRefused | TableRefused> {
  const decoded = decodeText(bytes)
  if (!decoded.ok) return decoded
  const { text } = decoded.value
  const table = readTable(text, { separator: sniffSeparator(text).separator })
  if (!table.ok) return table
  const { headers, rows } = table.value
  const sampleRows = rows.slice(0, rowsLookedAt).map((row) => row.cells)
  return ok(recogniseKind(headers, sampleRows).kind)
}
