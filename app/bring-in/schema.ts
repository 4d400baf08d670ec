import { z } from 'zod'
import { say } from '#language/say'
import type { ImportChoices } from '#lib/db/importing/import-service'
import { type ColumnUnit, importKinds, isFieldMissing, listFields } from '#lib/importing/fields'
import { sheetLayouts } from '#lib/importing/layouts'
import { type Mapping, mappingSchema, readingSchema } from '#lib/importing/mapping'
import { separators } from '#lib/importing/sniff-separator'
import { columnBox, fillableFields, fillBox, unitBox } from './boxes'
import { fieldLabel } from './words'

const idText = z.string().min(1).max(64)

export const stagedIdSchema = idText
export const jobIdSchema = z.object({ jobId: idText })
export const undoSchema = z.object({ importId: idText })

/** Blank, like a choice that is not offered: as it looks. */
const orAsItLooks = <Choice extends z.ZodType>(choice: Choice) =>
  z.preprocess((text) => (text === '' ? undefined : text), choice.optional())

const readingFields = {
  sheet: orAsItLooks(z.string().max(200)),
  layout: orAsItLooks(z.enum(sheetLayouts, { error: () => say('Say how it is laid out.') })),
  headerRowNumber: orAsItLooks(
    z.coerce
      .number({ error: () => say('Choose one of the rows.') })
      .int()
      .min(1)
      .max(1_048_576),
  ),
  headerRows: orAsItLooks(z.enum(['1', '2']).transform((rows) => (rows === '2' ? 2 : 1) as 1 | 2)),
}

export const readAsSchema = z.object({
  stagedId: idText,
  kind: z.enum(importKinds, { error: () => say('Say what the rows of the file are.') }),
  /** Blank: what the file itself suggests. */
  separator: z.preprocess(
    (mark) => (mark === '' ? undefined : mark),
    z.enum(separators, { error: () => say('Say what stands between the cells.') }).optional(),
  ),
  ...readingFields,
})

type MappingForm = { ok: true; choices: ImportChoices } | { ok: false; fieldErrors: Record<string, string[]> }

/** The choices a mapping form was sent with, or what it still lacks, by box. */
export function parseMappingForm(values: Record<string, string>): MappingForm {
  const input = readAsSchema.pick({ kind: true, separator: true }).safeParse(values)
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
  const reading = readingSchema.safeParse(parseJson(values.reading))
  if (reading.success) draft.reading = reading.data
  if (values.otherHome === 'moved' || values.otherHome === 'beside') draft.otherHome = values.otherHome
  draft.decimalComma = values.decimalComma === 'yes'
  draft.monthFirst = values.monthFirst === 'yes'
  const checked = mappingSchema.safeParse(draft)
  if (!checked.success) return { ok: false, fieldErrors: describeIssues(checked.error) }

  const mapping = checked.data
  const missing = listMissing(mapping)
  if (missing.length > 0) {
    const fieldErrors = missing.map((name) =>
      name === 'owner'
        ? [fillBox('owner'), [say('Say whose they are.')]]
        : [columnBox(name), [say('{fieldLabel} is needed: say which column holds it.', { fieldLabel: fieldLabel(kind, name) })]],
    )
    return { ok: false, fieldErrors: Object.fromEntries(fieldErrors) }
  }
  return { ok: true, choices: { kind, separator, mapping } }
}

function parseJson(text: string | undefined): unknown {
  try {
    return JSON.parse(text ?? '')
  } catch {
    return undefined
  }
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
      [say('This cannot be read that way. Choose again.')],
    ]),
  )
}
