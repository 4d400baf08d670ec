import 'server-only'
import { checkRows } from '#lib/importing/check-rows'
import { decodeText } from '#lib/importing/decode'
import type { CheckedRows } from '#lib/importing/drafts'
import { isFieldMissing, listFields } from '#lib/importing/fields'
import { type Mapping, mappingSchema, shapeKey } from '#lib/importing/mapping'
import { readTable, type Table } from '#lib/importing/read-table'
import { recogniseKind, suggestMapping } from '#lib/importing/recognise'
import { type Separator, sniffSeparator } from '#lib/importing/sniff-separator'
import type { Result } from '#lib/result'
import { database } from '../client'
import { listOwners } from '../owner/owners'
import type { ImportChoices, ImportRefused } from './import-service'
import { readStagedFile } from './stage-file'

/** Rows looked at to tell what a file is: more would say no more. */
const rowsLookedAt = 200
export const sampleRowsShown = 5

export type ReadFile = {
  fileName: string
  bytes: Uint8Array
  encoding: string
  encodingWarnings: string[]
  separator: Separator
  table: Table
  mapping: Mapping
  isMappingRemembered: boolean
  checked: CheckedRows
}

/** Read a staged file as far as it goes without looking at what is there already. */
export async function readFileToBringIn(stagedId: string, choices: ImportChoices): Promise<Result<ReadFile, ImportRefused>> {
  const staged = await readStagedFile(stagedId)
  if (!staged) return { ok: false, error: { kind: 'no-such-file', stagedId } }
  const { fileName } = staged
  const decoded = decodeText(staged.bytes)
  if (!decoded.ok) return decoded
  const { text, encoding, warnings: encodingWarnings } = decoded.value
  const separator = choices.separator ?? sniffSeparator(text).separator
  const read = readTable(text, { separator })
  if (!read.ok) return read
  const table = read.value
  const sample = table.rows.slice(0, rowsLookedAt).map(({ cells }) => cells)
  const kind = choices.mapping?.kind ?? choices.kind ?? recogniseKind(table.headers, sample).kind
  if (kind === null) return { ok: false, error: { kind: 'unknown-kind', fileName, headers: table.headers } }

  const remembered = choices.mapping ? null : await findRememberedMapping(shapeKey(kind, table.headers))
  const mapping = choices.mapping ?? remembered ?? suggestMapping(kind, table.headers, sample)
  const owned = await withOwner(mapping, choices.ownerName)
  const missing = missingFields(owned, table.headers.length)
  if (missing.length > 0) {
    const sampleRows = sample.slice(0, sampleRowsShown)
    return {
      ok: false,
      error: { kind: 'mapping-incomplete', fileName, missing, headers: table.headers, sampleRows, separator, mapping: owned },
    }
  }
  return {
    ok: true,
    value: {
      ...staged,
      encoding,
      encodingWarnings,
      separator,
      table,
      mapping: owned,
      isMappingRemembered: remembered !== null,
      checked: checkRows(table, owned),
    },
  }
}

async function findRememberedMapping(key: string): Promise<Mapping | null> {
  const row = await database().prisma.importMapping.findUnique({ where: { shapeKey: key } })
  const mapping = row && mappingSchema.safeParse(JSON.parse(row.mappingJson))
  return mapping?.success ? mapping.data : null
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
