import 'server-only'
import { checkRowsInSteps } from '#lib/importing/check-rows'
import type { CheckedRows } from '#lib/importing/drafts'
import { isFieldMissing, listFields } from '#lib/importing/fields'
import type { SheetLayout } from '#lib/importing/layouts'
import { bookKey, lookKey, type Mapping, mappingSchema, type Reading, readingSchema, shapeKey } from '#lib/importing/mapping'
import { arrangeFile, type OpenedFile, openFile } from '#lib/importing/open-file'
import type { Table } from '#lib/importing/read-table'
import { recogniseKind, suggestMapping } from '#lib/importing/recognise'
import type { Result } from '#lib/result'
import { requireWhole } from '../access/whole'
import { database } from '../client'
import { listOwners } from '../owner/owners'
import type { FirstRow, HowFound, ImportChoices, ImportRefused } from './import-service'
import { inTurns } from './in-turns'
import { readStagedFile } from './stage-file'

/** Rows looked at to tell what a file is: more would say no more. */
const rowsLookedAt = 200
export const sampleRowsShown = 5
const firstRowsShown = 12
const firstCellsShown = 6

export type ReadFile = {
  fileName: string
  bytes: Uint8Array
  found: HowFound
  table: Table & { layout: SheetLayout }
  mapping: Mapping
  isMappingRemembered: boolean
  /** Keys the way to the table is remembered by: of the workbook's sheets, and of the sheet as it looks by itself. */
  keys: { book: string | null; look: string }
  /** It is read as it looks by itself: there is nothing to remember. */
  isAsItLooks: boolean
  checked: CheckedRows
}

/**
 * Read a staged file as far as it goes without looking at what is there already.
 *
 * @param between  called now and then; what it throws ends the reading
 */
export async function readFileToBringIn(
  stagedId: string,
  choices: ImportChoices,
  between?: () => void,
): Promise<Result<ReadFile, ImportRefused>> {
  requireWhole()
  const staged = await readStagedFile(stagedId)
  if (!staged) return { ok: false, error: { kind: 'no-such-file', stagedId } }
  const { fileName } = staged
  const asked: Reading = { ...choices.mapping?.reading, ...choices.reading }
  const opened = await openFile(staged.bytes, {
    ...(choices.separator && { separator: choices.separator }),
    run: (steps) => inTurns(steps, between),
    choose: async (sheets) => asked.sheet ?? (await findRememberedReading(bookKey(sheets)))?.sheet ?? null,
  })
  if (!opened.ok) return opened
  const arranged = await arrange(opened.value, asked, between)
  if (!arranged.ok) return arranged
  const { table, look, isAsItLooks } = arranged.value
  const found = howFound(opened.value, table)

  const sample = table.rows.slice(0, rowsLookedAt).map(({ cells }) => cells)
  const kind =
    choices.mapping?.kind ?? choices.kind ?? (table.layout === 'rows' ? recogniseKind(table.headers, sample).kind : 'threads')
  if (kind === null) return { ok: false, error: { kind: 'unknown-kind', fileName, headers: table.headers, found } }

  const remembered = choices.mapping ? null : await findRememberedMapping(shapeKey(kind, table.headers, table.layout))
  const mapping = choices.mapping ?? remembered ?? suggestMapping(kind, table.headers, sample)
  const owned = { ...(await withOwner(mapping, choices.ownerName)), reading: readingOf(opened.value, table) }
  const missing = missingFields(owned, table.headers.length)
  if (missing.length > 0) {
    const sampleRows = sample.slice(0, sampleRowsShown)
    return {
      ok: false,
      error: { kind: 'mapping-incomplete', fileName, missing, headers: table.headers, sampleRows, mapping: owned, found },
    }
  }
  return {
    ok: true,
    value: {
      ...staged,
      found,
      table,
      mapping: owned,
      isMappingRemembered: remembered !== null,
      keys: { book: found.sheets && bookKey(found.sheets), look },
      isAsItLooks,
      checked: await inTurns(checkRowsInSteps(table, owned), between),
    },
  }
}

type Arranged = { table: Table & { layout: SheetLayout }; look: string; isAsItLooks: boolean }

/** As the person says; else as a sheet that looked the same was read before; else as it looks. */
async function arrange(file: OpenedFile, asked: Reading, between?: () => void): Promise<Result<Arranged, ImportRefused>> {
  const { layout, headerRowNumber, headerRows } = asked
  const isAsked = layout !== undefined || headerRowNumber !== undefined || headerRows !== undefined
  const looks = await inTurns(arrangeFile(file, {}), between)
  // What it looks like by itself may be no table at all: then there is nothing to remember it by but its name.
  const look = looks.ok ? lookKey(looks.value.headers, looks.value.layout) : lookKey([file.sheetName ?? ''], 'rows')
  const remembered = isAsked ? null : await findRememberedReading(look)
  const way = isAsked ? asked : remembered
  if (!looks.ok && way === null) return looks
  if (looks.ok && (way === null || isWay(looks.value, way)))
    return { ok: true, value: { table: looks.value, look, isAsItLooks: true } }
  const table = await inTurns(arrangeFile(file, way ?? {}), between)
  if (table.ok) return { ok: true, value: { table: table.value, look, isAsItLooks: false } }
  return isAsked || !looks.ok
    ? { ok: false, error: table.error }
    : { ok: true, value: { table: looks.value, look, isAsItLooks: true } }
}

const isWay = (table: Table & { layout: SheetLayout }, { layout, headerRowNumber, headerRows }: Reading): boolean =>
  (layout ?? table.layout) === table.layout &&
  (headerRowNumber ?? table.headerRowNumber) === table.headerRowNumber &&
  (headerRows ?? table.headerRows) === table.headerRows

function howFound(file: OpenedFile, table: Table & { layout: SheetLayout }): HowFound {
  const { encoding, encodingWarnings, separator, sheets, sheetName, hasMacros } = file
  return {
    ...{ encoding, encodingWarnings, separator, sheets, sheetName, hasMacros },
    ...{ layout: table.layout, headerRowNumber: table.headerRowNumber, headerRows: table.headerRows },
    firstRows: file.sheet.rows.slice(0, firstRowsShown).map(
      ({ rowNumber, cells }): FirstRow => ({
        rowNumber,
        cells: cells.filter((cell) => cell.trim() !== '').slice(0, firstCellsShown),
      }),
    ),
  }
}

const readingOf = (
  { sheetName }: OpenedFile,
  { layout, headerRowNumber, headerRows }: Table & { layout: SheetLayout },
): Reading => ({
  ...(sheetName !== null && { sheet: sheetName }),
  ...{ layout, headerRowNumber, headerRows },
})

async function findRememberedMapping(key: string): Promise<Mapping | null> {
  const mapping = mappingSchema.safeParse(await findRemembered(key))
  return mapping.success ? mapping.data : null
}

async function findRememberedReading(key: string): Promise<Reading | null> {
  const reading = readingSchema.safeParse(await findRemembered(key))
  return reading.success ? reading.data : null
}

async function findRemembered(key: string): Promise<unknown> {
  const row = await database().prisma.importMapping.findUnique({ where: { shapeKey: key } })
  return row === null ? null : JSON.parse(row.mappingJson)
}

/** Goods without an owner column are whose the person says, else the first owner's, else "Me". */
async function withOwner(mapping: Mapping, ownerName: string | undefined): Promise<Mapping> {
  const hasOwner = listFields(mapping.kind).some(({ name }) => name === 'owner')
  if (!hasOwner) return mapping
  const owner = ownerName?.trim() || mapping.defaults.owner || (await listOwners())[0]?.name || 'Me'
  return { ...mapping, defaults: { ...mapping.defaults, owner } }
}

function missingFields(mapping: Mapping, headerCount: number): string[] {
  const isGiven = (name: string) => {
    const column = mapping.columns[name]
    return (typeof column === 'number' && column < headerCount) || Boolean(mapping.defaults[name])
  }
  const required = listFields(mapping.kind).filter(
    ({ name, isRequired }) => isRequired && isFieldMissing(mapping.kind, name, isGiven),
  )
  const beyond = Object.entries(mapping.columns).filter(([, column]) => column !== null && column >= headerCount)
  return [...new Set([...required.map(({ label }) => label), ...beyond.map(([name]) => name)])]
}
