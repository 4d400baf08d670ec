import { z } from 'zod'
import type { ImportChoices } from '#lib/db/importing/import-service'
import { type ColumnUnit, importKinds, isFieldMissing, listFields } from '#lib/importing/fields'
import { type Mapping, mappingSchema } from '#lib/importing/mapping'
import { separators } from '#lib/importing/sniff-separator'
import { fieldLabel } from './words'

const idText = z.string().min(1).max(64)

export const stagedIdSchema = idText
export const jobIdSchema = z.object({ jobId: idText })
export const undoSchema = z.object({ importId: idText })

export const readAsSchema = z.object({
  stagedId: idText,
  kind: z.enum(importKinds, 'Say what the rows of the file are.'),
  /** Blank: what the file itself suggests. */
  separator: z.preprocess(
    (mark) => (mark === '' ? undefined : mark),
    z.enum(separators, 'Say what stands between the cells.').optional(),
  ),
})

/** Fields whose value can be given once for all rows that say nothing. */
export const fillableFields = ['owner', 'maker', 'line', 'place'] as const

/** Names of the boxes of the mapping form. */
export const columnBox = (field: string): string => `column-${field}`
export const unitBox = (field: string): string => `unit-${field}`
export const fillBox = (field: string): string => `fill-${field}`

type MappingForm = { ok: true; choices: ImportChoices } | { ok: false; fieldErrors: Record<string, string[]> }

/** The choices a mapping form was sent with, or what it still lacks, by box. */
export function parseMappingForm(values: Record<string, string>): MappingForm {
  const input = readAsSchema.omit({ stagedId: true }).safeParse(values)
  if (!input.success) return { ok: false, fieldErrors: z.flattenError(input.error).fieldErrors }
  const { kind, separator } = input.data
  const fields = listFields(kind)
  const draft: Mapping = { kind, columns: {}, units: {}, defaults: {} }
  for (const { name, units } of fields) {
    const column = values[columnBox(name)] ?? ''
    if (column === '') continue
    draft.columns[name] = Number(column)
    if (units.length > 0) draft.units[name] = (values[unitBox(name)] ?? units[0]) as ColumnUnit
  }
  for (const name of fillableFields) {
    const text = (values[fillBox(name)] ?? '').trim()
    if (text !== '' && fields.some((field) => field.name === name)) draft.defaults[name] = text
  }
  draft.decimalComma = values.decimalComma === 'yes'
  draft.monthFirst = values.monthFirst === 'yes'
  const checked = mappingSchema.safeParse(draft)
  if (!checked.success) return { ok: false, fieldErrors: describeIssues(checked.error) }

  const mapping = checked.data
  const missing = listMissing(mapping)
  if (missing.length > 0) {
    const fieldErrors = missing.map((name) =>
      name === 'owner'
        ? [fillBox('owner'), ['Say whose they are.']]
        : [columnBox(name), [`${fieldLabel(kind, name)} is needed: say which column holds it.`]],
    )
    return { ok: false, fieldErrors: Object.fromEntries(fieldErrors) }
  }
  return { ok: true, choices: { kind, separator, mapping } }
}

/** Fields without which no row could be read: those that are required, and whose goods they are. */
function listMissing(mapping: Mapping): string[] {
  const isGiven = (name: string) => (mapping.columns[name] ?? null) !== null || mapping.defaults[name] !== undefined
  return listFields(mapping.kind)
    .map(({ name }) => name)
    .filter((name) => isFieldMissing(mapping.kind, name, isGiven) || (name === 'owner' && !isGiven('owner')))
}

function describeIssues(error: z.ZodError): Record<string, string[]> {
  const boxes: Record<string, (field: string) => string> = { columns: columnBox, units: unitBox, defaults: fillBox }
  return Object.fromEntries(
    error.issues.map(({ path: [part, field] }) => [
      boxes[String(part)]?.(String(field)) ?? String(part),
      ['This cannot be read that way. Choose again.'],
    ]),
  )
}
