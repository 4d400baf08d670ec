import { z } from 'zod'
import { columnUnits, type Field, fieldsOf, type ImportKind, importKinds } from './fields'
import { type SheetLayout, sheetLayouts } from './layouts'
import { headerKey } from './read-header'

/** How the table is found in a file: which sheet, how it is laid out, which rows the headers stand in. What is left out is found. */
export const readingSchema = z.strictObject({
  sheet: z.string().max(200).optional(),
  layout: z.enum(sheetLayouts).optional(),
  headerRowNumber: z.int().min(1).max(1_048_576).optional(),
  headerRows: z.union([z.literal(1), z.literal(2)]).optional(),
})
export type Reading = z.infer<typeof readingSchema>

/** How a file of this shape is read; kept as JSON beside its shape, so it is checked when it comes back. */
export const mappingSchema = z
  .object({
    kind: z.enum(importKinds),
    /** Field name → index of the header it is read from; null or left out when the file has none. */
    columns: z.record(z.string().max(40), z.int().min(0).max(499).nullable()),
    /** Field name → what a bare figure in its column is counted in. */
    units: z.record(z.string().max(40), z.enum(columnUnits)),
    /** True: `1,240` is one and a bit. False or left out: it is one thousand two hundred and forty. */
    decimalComma: z.boolean().optional(),
    /** True: in 3/1/2026 the month comes first. */
    monthFirst: z.boolean().optional(),
    /** How the table was found; it is looked for again where nothing is said. */
    reading: readingSchema.optional(),
    /** What a row means that says another home than the thread it speaks of has: it was moved there, or there are some in both. */
    otherHome: z.enum(['moved', 'beside']).optional(),
    /** Field name → what is taken where the file says nothing: the owner above all, or the one maker of a file without a maker column. */
    defaults: z.record(z.string().max(40), z.string().max(200)),
  })
  .superRefine((mapping, context) => {
    const fields = fieldsOf[mapping.kind] as Record<string, Field>
    for (const part of ['columns', 'units', 'defaults'] as const) {
      for (const name of Object.keys(mapping[part])) {
        if (!Object.hasOwn(fields, name)) context.addIssue({ code: 'custom', path: [part, name], message: 'unknown field' })
      }
    }
    for (const [name, unit] of Object.entries(mapping.units)) {
      if (fields[name] && !fields[name].units.includes(unit)) {
        context.addIssue({ code: 'custom', path: ['units', name], message: 'unit does not belong to this field' })
      }
    }
  })
export type Mapping = z.infer<typeof mappingSchema>

/** What a mapping is remembered by: the kind and the headers in their order, their case and accents apart; and the layout, when it is drawers. */
export const shapeKey = (kind: ImportKind, headers: readonly string[], layout: SheetLayout = 'rows'): string =>
  JSON.stringify([kind, ...headers.map(headerKey), ...(layout === 'rows' ? [] : [layout])])

/** What a way to find the table is remembered by: how the sheet looks before anybody says otherwise. */
export const lookKey = (headers: readonly string[], layout: SheetLayout): string =>
  JSON.stringify(['look', layout, ...headers.map(headerKey)])

/** What the choice of a sheet is remembered by: the names of all. */
export const bookKey = (sheets: readonly { name: string }[]): string =>
  JSON.stringify(['book', ...sheets.map(({ name }) => headerKey(name))])
