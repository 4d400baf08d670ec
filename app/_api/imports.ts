import { z } from 'zod'
import { importKinds } from '#lib/importing/fields'
import { sheetLayouts } from '#lib/importing/layouts'
import { separators } from '#lib/importing/sniff-separator'
import { flagQuery } from './collection'
import { operation } from './operation'
import { problemErrorSchema } from './problem'
import { idText, orNull, shortText } from './quantities'

const countsSchema = z
  .strictObject({ added: z.int(), changed: z.int(), same: z.int(), refused: z.int() })
  .meta({ id: 'ImportCounts', description: 'Rows by what becomes of them.' })

const importSchema = z
  .strictObject({
    importId: z.string(),
    kind: z.enum(importKinds),
    fileName: z.string(),
    at: z.string().meta({ description: 'ISO 8601, UTC.' }),
    status: z.enum(['done', 'undone']),
    counts: countsSchema,
  })
  .meta({ id: 'Import' })

const exampleCounts = { added: 214, changed: 0, same: 0, refused: 1 }
const exampleImport = {
  importId: 'i1',
  kind: 'threads',
  fileName: 'posted.csv',
  at: '2026-09-08T09:30:00.000Z',
  status: 'done',
  counts: exampleCounts,
}

export const bringFileIn = operation({
  method: 'post',
  path: '/imports',
  id: 'bringFileIn',
  group: 'Bring in',
  summary: 'Bring a table in, or see what that would do',
  description:
    'Send a text as the body (text/csv), or a text or a workbook (xlsx) as the part `file` of a form. Of a workbook one sheet is taken; macros and formulas are left alone, and what the file last showed is read. A form may also have a part `mapping`, JSON as an earlier answer gave it. What is left out is recognised. With `dry-run=true` nothing is written. Otherwise all good rows are written in one change, which can be undone; bad rows are told and left out. The same file again changes nothing.',
  query: z.strictObject({
    'dry-run': flagQuery.default(false),
    kind: z.enum(importKinds).optional(),
    separator: z.enum(separators).optional(),
    sheet: shortText.optional().meta({
      description:
        'The sheet of a workbook, by name. Left out: the one brought in last from a workbook of such sheets, else the first that is not blank.',
    }),
    layout: z.enum(sheetLayouts).optional().meta({
      description:
        'Rows under headings, or drawers with the codes of the threads in them: a column, a row or a cell for each. A sheet of drawers is turned into a row for each thread.',
    }),
    'header-row': z.coerce
      .number()
      .int()
      .min(1)
      .max(1_048_576)
      .optional()
      .meta({ description: 'The row the headings stand in.' }),
    'header-rows': z.coerce.number().int().min(1).max(2).optional().meta({ description: 'How many rows the headings take up.' }),
    ownerName: shortText.optional().meta({ description: 'Whose goods, where the file has no owner column.' }),
  }),
  takesFile: true,
  answer: z
    .strictObject({
      isDryRun: z.boolean(),
      import: orNull(importSchema).meta({ description: 'Null for a dry run.' }),
      kind: z.enum(importKinds),
      fileName: z.string(),
      encoding: orNull(z.string()).meta({ description: 'Null for a workbook.' }),
      separator: orNull(z.enum(separators)).meta({ description: 'Null for a workbook.' }),
      sheets: orNull(z.array(z.strictObject({ name: z.string(), isHidden: z.boolean() }))).meta({
        description: 'The sheets of a workbook, each brought in by itself; null for a text.',
      }),
      sheet: orNull(z.string()),
      layout: z.enum(sheetLayouts),
      headerRow: z.int(),
      headerRows: z.int(),
      headers: z.array(z.string()),
      rowCount: z.int(),
      mapping: z
        .looseObject({ kind: z.enum(importKinds) })
        .meta({ description: 'How the file was read: for each field the index of its column, units and defaults.' }),
      mappingText: z.array(z.strictObject({ field: z.string(), column: z.string() })),
      counts: countsSchema,
      errors: z.array(problemErrorSchema).meta({ description: 'By row; at most 300.' }),
      errorCount: z.int(),
      warnings: z.array(problemErrorSchema).meta({ description: 'Rows worth a look that are not left out; at most 300.' }),
      warningCount: z.int(),
      alsoMade: z
        .array(z.strictObject({ noun: z.string(), count: z.int(), names: z.array(z.string()) }))
        .meta({ description: 'What the rows name that nobody knew: places, makers, threads.' }),
    })
    .meta({ id: 'ImportReport' }),
  answerMeans: 'What was done, or would be.',
  problems: ['refused'],
  example: {
    answer: {
      isDryRun: false,
      import: exampleImport,
      kind: 'threads',
      fileName: 'posted.csv',
      encoding: 'utf-8',
      separator: ';',
      sheets: null,
      sheet: null,
      layout: 'rows',
      headerRow: 1,
      headerRows: 1,
      headers: ['Brand', 'No.', 'Skeins'],
      rowCount: 215,
      mapping: { kind: 'threads', columns: { maker: 0, code: 1, skeins: 2 }, units: {}, defaults: {} },
      mappingText: [{ field: 'Maker', column: 'Brand' }],
      counts: exampleCounts,
      errors: [{ row: 17, column: 'Skeins', message: 'Skeins: “two” is not a number. 12, 12.5 or 1/2 would be accepted.' }],
      errorCount: 1,
      warnings: [],
      warningCount: 0,
      alsoMade: [{ noun: 'place', count: 2, names: ['T2.1', 'T2.2'] }],
    },
  },
})

export const listImportsOperation = operation({
  method: 'get',
  path: '/imports',
  id: 'listImports',
  group: 'Bring in',
  summary: 'What was brought in, latest first',
  query: z.strictObject({ limit: z.coerce.number().int().min(1).max(200).default(50) }),
  answer: z.strictObject({ imports: z.array(importSchema) }).meta({ id: 'ImportList' }),
  answerMeans: 'The latest imports.',
  example: { answer: { imports: [exampleImport] } },
})

const importPath = z.strictObject({ importId: idText })

export const getImport = operation({
  method: 'get',
  path: '/imports/{importId}',
  id: 'getImport',
  group: 'Bring in',
  summary: 'One import',
  pathParameters: importPath,
  answer: importSchema,
  answerMeans: 'The import.',
  problems: ['not-found'],
  example: { answer: exampleImport },
})

export const undoImportOperation = operation({
  method: 'post',
  path: '/imports/{importId}/undo',
  id: 'undoImport',
  group: 'Bring in',
  summary: 'Take an import back',
  description: 'What it added goes, what it changed is as it was. What was changed or used since stays, and is named.',
  pathParameters: importPath,
  answer: z
    .strictObject({
      takenBack: z.int(),
      left: z.array(z.strictObject({ noun: z.string(), id: z.string(), why: z.enum(['changed-since', 'in-use']) })),
    })
    .meta({ id: 'ImportUndone' }),
  answerMeans: 'Taken back.',
  problems: ['not-found', 'refused'],
  example: { answer: { takenBack: 214, left: [{ noun: 'place', id: 'p2', why: 'in-use' }] } },
})
