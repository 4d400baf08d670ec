import { z } from 'zod'
import { chartKinds } from '#lib/chart/design'
import { correctionsSchema } from '../_reading/correction-schema'
import { ownerQuery } from './collection'
import { operation } from './operation'
import { dateText, idText, noteText, orNull, shortText } from './quantities'

const states = ['waiting', 'reading', 'refused', 'read', 'saved'] as const

const index = z.int().min(0).max(10_000)

const readingSchema = z
  .strictObject({
    readingId: z.string(),
    version: z.int().meta({ description: 'Raised by every change; hand back the one you saw with a correction or a save.' }),
    name: z.string().meta({ description: 'The file’s name, or how the text begins.' }),
    source: z.enum(['text', 'pdf', 'picture']),
    state: z.enum(states),
    says: z.string().nullable().meta({ description: 'Why it was not read, or how far it is.' }),
    designId: z.string().nullable(),
    pageCount: z.int().nullable(),
    wasPhotographed: z.boolean().meta({ description: 'Read from a picture: its words are less than certain.' }),
    lineCount: z.int(),
    toLookAt: z.int().meta({ description: 'Fields a person should look at.' }),
    lines: z.array(z.string()).meta({ description: 'The source, line by line; cells apart by tabs.' }),
    reading: orNull(z.looseObject({ designs: z.array(z.looseObject({})), unread: z.array(z.int()) })).meta({
      description:
        'What was made of it: designs with their facts and lists of key lines, each field with its value, its confidence (0 to 1) and its source line; and the source lines nobody could read.',
    }),
    saved: orNull(
      z.strictObject({
        changeId: z.string(),
        chartId: z.string(),
        designIds: z.array(z.string()),
        lineCount: z.int(),
        leftOut: z.int(),
      }),
    ),
  })
  .meta({ id: 'Reading', description: 'A key that is being read or reviewed; kept for a day after it was last touched.' })

export type ReadingAnswer = z.input<typeof readingSchema>

const exampleReading: ReadingAnswer = {
  ...{ readingId: 'r1', version: 0, name: 'The Salt Road', source: 'text', state: 'read', says: null, designId: null },
  ...{ pageCount: null, wasPhotographed: false, lineCount: 1, toLookAt: 0 },
  lines: ['The Salt Road', '●\t0311\tDeep Mussel\t2'],
  reading: {
    designs: [
      {
        facts: { title: { value: 'The Salt Road', confidence: 0.95, line: 0 } },
        lists: [{ name: null, lines: [{ from: [1], symbol: { value: '●', confidence: 1, line: 1 } }] }],
      },
    ],
    unread: [],
  },
  saved: null,
}

const path = z.strictObject({ readingId: idText })
const version = z.int().min(0)
const group = 'Bring in'

const about = {
  ownerId: idText.optional().meta({ description: 'Whose it is; the collection’s first owner where it is left out.' }),
  designId: idText.nullable().default(null).meta({ description: 'The design whose key it is.' }),
}

const readTextOperation = operation({
  ...{ method: 'post', path: '/readings/text', id: 'readKeyText', group },
  summary: 'Read the text of a key',
  description: 'Free lines or a table, as printed or pasted. Nothing is written to the collection before it is saved.',
  body: z.strictObject({ text: z.string().min(1).max(300_000), ...about }).meta({ id: 'ReadTextRequest' }),
  answer: readingSchema,
  answerStatus: 201,
  answerMeans: 'The reading, to be reviewed.',
  problems: ['not-found', 'refused'],
  example: { body: { text: 'The Salt Road\n● 0311 Deep Mussel, 2 strands' }, answer: exampleReading },
})

const readFileOperation = operation({
  ...{ method: 'post', path: '/readings', id: 'readKeyFile', group },
  summary: 'Read the key in a PDF or a picture',
  description:
    'Send the file as the part `file` of a form; `ownerId` and `designId` may be parts beside it. It is read in the background: ask for the reading until its state is `read` or `refused`.',
  takesFile: true,
  answer: readingSchema,
  answerStatus: 201,
  answerMeans: 'The reading, on its way.',
  problems: ['not-found', 'refused'],
  example: {
    answer: {
      ...exampleReading,
      ...{ name: 'salt-road.pdf', source: 'pdf', state: 'waiting', says: 'Waiting', lineCount: 0, lines: [], reading: null },
    },
  },
})

const listReadingsOperation = operation({
  ...{ method: 'get', path: '/readings', id: 'listReadings', group },
  summary: 'Keys that are being read or reviewed',
  query: z.strictObject(ownerQuery),
  answer: z
    .strictObject({ readings: z.array(readingSchema.omit({ lines: true, reading: true }).meta({ id: 'ReadingHead' })) })
    .meta({ id: 'ReadingList' }),
  answerMeans: 'Those given last first.',
  example: {
    answer: { readings: [(({ lines: _lines, reading: _reading, ...head }) => head)(exampleReading)] },
  },
})

const one = {
  pathParameters: path,
  query: z.strictObject(ownerQuery),
  group,
  answer: readingSchema,
  answerMeans: 'The reading as it stands.',
} as const

const getReadingOperation = operation({
  ...one,
  ...{ method: 'get', path: '/readings/{readingId}', id: 'getReading' },
  summary: 'One reading, with all that was read',
  problems: ['not-found'],
  example: { answer: exampleReading },
})

const correctOperation = operation({
  ...one,
  ...{ method: 'post', path: '/readings/{readingId}/corrections', id: 'correctReading' },
  summary: 'Correct what was read',
  description:
    'Several corrections are one step, taken back together. One that teaches the rest changes the lines that were read the same way too; what was set by hand stays.',
  body: z.strictObject({ version, corrections: correctionsSchema }).meta({ id: 'CorrectReadingRequest' }),
  answer: z
    .strictObject({
      reading: readingSchema,
      changed: z
        .array(z.strictObject({ design: z.int(), list: z.int(), line: z.int() }))
        .meta({ description: 'Other lines that followed.' }),
    })
    .meta({ id: 'ReadingCorrected' }),
  problems: ['not-found', 'refused'],
  example: {
    body: {
      version: 0,
      corrections: [
        {
          ...{ kind: 'field', place: { design: 0, list: 0, line: 0 }, teachesRest: true },
          edit: { field: 'strands', thread: 0, value: 3 },
        },
      ],
    },
    answer: { reading: { ...exampleReading, version: 1 }, changed: [] },
  },
})

const undoOperation = operation({
  ...one,
  ...{ method: 'post', path: '/readings/{readingId}/undo', id: 'undoReadingCorrection' },
  summary: 'Take the last correction back',
  body: z.strictObject({ version }).meta({ id: 'UndoReadingCorrectionRequest' }),
  problems: ['not-found', 'refused'],
  example: { body: { version: 1 }, answer: { ...exampleReading, version: 2 } },
})

const stopOperation = operation({
  ...one,
  ...{ method: 'post', path: '/readings/{readingId}/stop', id: 'stopReading' },
  summary: 'Stop reading a file',
  problems: ['not-found'],
  example: {
    answer: {
      ...exampleReading,
      state: 'refused',
      says: 'It was stopped before it was read.',
      lines: [],
      reading: null,
      lineCount: 0,
    },
  },
})

const dropOperation = operation({
  ...one,
  ...{ method: 'post', path: '/readings/{readingId}/drop', id: 'dropReading' },
  summary: 'Throw a reading away',
  description: 'Nothing in the collection changes.',
  answer: z.strictObject({ dropped: z.literal(true) }).meta({ id: 'ReadingDropped' }),
  answerMeans: 'It is gone.',
  problems: ['not-found'],
  example: { answer: { dropped: true } },
})

const listToSave = z.strictObject({ index, name: shortText })

const chartTarget = z.strictObject({
  kind: z.literal('chart'),
  title: shortText,
  designers: z.array(shortText).max(20).default([]),
  chartKind: z.enum(chartKinds).default('leaflet'),
  ownerId: idText.optional(),
  copies: z.int().min(1).max(10_000).default(1),
  placeLabel: shortText.nullable().default(null),
  boughtOn: dateText.nullable().default(null),
  priceMinor: z.int().min(0).max(100_000_000).nullable().default(null),
  note: noteText.nullable().default(null),
  isAnother: z.boolean().default(false).meta({ description: 'It is known that a chart of this title is held.' }),
  designs: z
    .array(z.strictObject({ index: index.nullable(), title: shortText, lists: z.array(listToSave).default([]) }))
    .min(1)
    .max(500)
    .meta({ description: 'Designs of the reading by their index; null for a file whose key was not read.' }),
})

const designsTarget = z.strictObject({
  kind: z.literal('designs'),
  designs: z
    .array(z.strictObject({ index, designId: idText, fillsFacts: z.boolean().default(false), lists: z.array(listToSave) }))
    .min(1)
    .max(500),
})

const saveOperation = operation({
  ...one,
  ...{ method: 'post', path: '/readings/{readingId}/save', id: 'saveReading' },
  summary: 'Save a reading as a chart, or as lists of designs that are there',
  description:
    'One change, which can be taken back. Threads that are not on record are added only where they are named here; lines that lack something are refused, or left out where that is said.',
  body: z
    .strictObject({
      version,
      target: z.discriminatedUnion('kind', [chartTarget, designsTarget]),
      addThreads: z
        .union([
          z.literal('all'),
          z.array(z.strictObject({ maker: shortText, line: shortText.nullable().default(null), code: shortText })).max(2_000),
        ])
        .default([])
        .meta({ description: 'New threads that are meant, as the reading names them.' }),
      newLines: z
        .array(
          z.strictObject({
            maker: shortText,
            line: shortText.nullable().default(null),
            strands: z.int().min(1).max(24),
            putUpTenths: z
              .int()
              .min(1)
              .max(100_000_000)
              .meta({ description: 'Length of one put-up as sold, in tenths of a millimetre.' }),
          }),
        )
        .max(100)
        .default([]),
      leavesOut: z.boolean().default(false),
      keepsFile: z.boolean().default(true),
      isAnotherFile: z.boolean().default(false),
      keepsCover: z.boolean().default(true),
      who: shortText.nullable().default(null),
    })
    .meta({ id: 'SaveReadingRequest' }),
  answer: z
    .strictObject({
      changeId: z.string(),
      chartId: z.string(),
      designIds: z.array(z.string()),
      listIds: z.array(z.string()),
      lineCount: z.int(),
      leftOut: z.int(),
      addedThreads: z.int(),
    })
    .meta({ id: 'ReadingSaved' }),
  answerStatus: 201,
  answerMeans: 'What was written.',
  problems: ['not-found', 'refused'],
  example: {
    body: {
      version: 0,
      target: {
        kind: 'chart',
        title: 'The Salt Road',
        designs: [{ index: 0, title: 'The Salt Road', lists: [{ index: 0, name: 'Cotton' }] }],
      },
    },
    answer: {
      ...{ changeId: 'c1', chartId: 'h1', designIds: ['d1'], listIds: ['l1'], lineCount: 1, leftOut: 0, addedThreads: 0 },
    },
  },
})

const undoSavedOperation = operation({
  ...{ method: 'post', path: '/readings/saved/{changeId}/undo', id: 'undoSavedReading', group },
  summary: 'Take a saved reading back',
  description: 'Refused whole when the chart or a list was changed since, or is worked from.',
  pathParameters: z.strictObject({ changeId: idText }),
  answer: z.strictObject({ readingId: z.string(), factsLeft: z.int() }).meta({ id: 'SavedReadingUndone' }),
  answerMeans: 'Taken back. `factsLeft`: designs whose facts stay, for they were changed since.',
  problems: ['not-found', 'refused'],
  example: { answer: { readingId: 'r1', factsLeft: 0 } },
})

export const readingOperations = {
  readText: readTextOperation,
  readFile: readFileOperation,
  list: listReadingsOperation,
  get: getReadingOperation,
  correct: correctOperation,
  undo: undoOperation,
  stop: stopOperation,
  drop: dropOperation,
  save: saveOperation,
  undoSaved: undoSavedOperation,
} as const
