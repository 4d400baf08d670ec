import { checkRows } from '#lib/importing/check-rows'
import { decodeText } from '#lib/importing/decode'
import type { CheckedRows } from '#lib/importing/drafts'
import type { ImportKind } from '#lib/importing/fields'
import { applyPlan, type ImportPlan } from '#lib/importing/import-plan'
import type { Mapping } from '#lib/importing/mapping'
import { planImport } from '#lib/importing/plan-import'
import { readTable, type Table } from '#lib/importing/read-table'
import { recogniseKind, suggestMapping } from '#lib/importing/recognise'
import { emptySnapshot, type Snapshot } from '#lib/importing/snapshot'
import { sniffSeparator } from '#lib/importing/sniff-separator'

export const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text)

export function tableOf(text: string): Table {
  const decoded = decodeText(bytesOf(text))
  if (!decoded.ok) throw new Error(decoded.error.kind)
  const table = readTable(decoded.value.text, { separator: sniffSeparator(decoded.value.text).separator })
  if (!table.ok) throw new Error(table.error.kind)
  return table.value
}

export type Reading = { kind?: ImportKind; mapping?: Partial<Mapping>; owner?: string }

/** Read a file as a person who accepts every suggestion would. */
export function check(text: string, { kind, mapping, owner = 'Hanne Drewitt' }: Reading = {}): CheckedRows {
  const table = tableOf(text)
  const sample = table.rows.slice(0, 200).map((row) => row.cells)
  const taken = kind ?? recogniseKind(table.headers, sample).kind
  if (taken === null) throw new Error('no kind recognised')
  const suggested = suggestMapping(taken, table.headers, sample)
  const defaults = 'owner' in suggested.columns ? { owner, ...mapping?.defaults } : { ...mapping?.defaults }
  return checkRows(table, { ...suggested, ...mapping, defaults })
}

export function ids(prefix = 'id'): () => string {
  let next = 0
  return () => `${prefix}${String(++next).padStart(6, '0')}`
}

export const plan = (
  text: string,
  snapshot: Snapshot = emptySnapshot,
  reading: Reading & { newId?: () => string } = {},
): ImportPlan => planImport(check(text, reading), snapshot, { newId: reading.newId ?? ids(`n${snapshot.broughtIn.size}-`) })

/** Bring in files one after another, each its own import. */
export function having(...files: (string | [string, Reading])[]): Snapshot {
  return files.reduce<Snapshot>((snapshot, file, index) => {
    const [text, reading] = typeof file === 'string' ? [file, {}] : file
    let next = 0
    return applyPlan(snapshot, plan(text, snapshot, { ...reading, newId: () => `f${index}-${String(++next).padStart(4, '0')}` }))
  }, emptySnapshot)
}
/** The same stock, as if it had been entered by hand: no row is known again by its key. */
export const byHand = (snapshot: Snapshot): Snapshot => ({ ...snapshot, broughtIn: new Map() })
export const counts = (planned: ImportPlan) => Object.values(planned.counts)
export const wrong = (planned: ImportPlan) =>
  planned.errors.map(({ rowNumber, column, kind, raw, accepted }) => [rowNumber, column, kind, raw, accepted])

export const threads = 'Maker,Line,Code,Name,Put-up,Dyed,Lot,Skeins,Part,Place\n'
export const charts = 'Chart,Design,Designer,Kind,Place,Width,Height,Count\n'
export const lists = 'Chart,Design,Designer,List,Symbol,Maker,Line,Code,Strands,Full\n'
