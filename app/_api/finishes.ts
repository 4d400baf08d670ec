import { z } from 'zod'
import { ownerIdsField, ownerQuery, placeRefSchema } from './collection'
import { operation } from './operation'
import { projectPath } from './projects'
import { orNull, shortText, sideUm } from './quantities'

const group = 'Projects' as const

const sizeSchema = z.strictObject({ widthUm: z.number(), heightUm: z.number() })
const sentSchema = z
  .strictObject({
    loanId: z.string(),
    place: placeRefSchema,
    kind: z.string().meta({ description: 'framer, finisher, model stitcher, person' }),
    fromOn: z.string(),
    dueOn: z.string().nullable(),
    closedOn: z.string().nullable().meta({ description: 'Null while it is there.' }),
    priceMinor: z.int().nullable(),
  })
  .meta({ id: 'SentForFinishing' })
const threadRef = z.strictObject({
  ...{ threadId: z.string(), makerName: z.string(), code: z.string(), name: z.string().nullable() },
})
const costLine = z.strictObject({
  kind: z.enum(['thread', 'cloth', 'chart', 'sent', 'other']),
  id: z.string().nullable().meta({ description: 'Of the thread, piece of cloth, chart or loan.' }),
  costMinor: z.int().nullable().meta({ description: 'Null where nobody said a price.' }),
})
const costSchema = z.strictObject({
  totalMinor: z.int().meta({ description: 'Of what is known.' }),
  unknown: z.int().meta({ description: 'Lines nobody priced.' }),
  lines: z.array(costLine),
})

const finishSchema = z
  .strictObject({
    ...{ projectId: z.string(), version: z.int(), status: z.string(), title: z.string(), designers: z.array(z.string()) },
    ...{ quantity: z.int(), startedOn: z.string().nullable(), finishedOn: z.string().nullable() },
    ...{ stitches: z.int(), hoursTenths: z.int(), finishing: z.string().nullable() },
    forWhom: z.string().nullable().meta({ description: 'Who has it.' }),
    place: orNull(placeRefSchema),
    colours: z
      .array(
        z.strictObject({
          thread: threadRef,
          strandTenths: z.int(),
          how: z
            .enum(['measured', 'weighed'])
            .nullable()
            .meta({ description: 'By what was left; null where it was reckoned or said.' }),
        }),
      )
      .meta({ description: 'What was really used, the most first.' }),
    sent: z.array(sentSchema).meta({ description: 'To framers, finishers and model stitchers, the latest first.' }),
    frame: z.strictObject({
      measured: orNull(sizeSchema).meta({ description: 'Outside.' }),
      reckoned: orNull(z.strictObject({ opening: sizeSchema, board: sizeSchema })).meta({
        description: 'By its size on its cloth.',
      }),
    }),
    otherCostMinor: z.int().nullable(),
    cost: costSchema,
  })
  .meta({ id: 'Finish' })
export type FinishAnswer = z.input<typeof finishSchema>

const exampleFinish: FinishAnswer = {
  ...{ projectId: 'j1', version: 4, status: 'finished', title: 'Rook Hill in Snow', designers: ['Petra Lisle'], quantity: 1 },
  ...{ startedOn: '2026-05-02', finishedOn: '2026-09-08', stitches: 11_270, hoursTenths: 1_120, finishing: 'Framed' },
  ...{ forWhom: 'Ines Coldwell', place: { placeId: 'p9', label: 'Maud Ferriby' }, otherCostMinor: 650 },
  colours: [
    { thread: { threadId: 't1', makerName: 'Larkholm', code: '0311', name: null }, strandTenths: 789_640, how: 'measured' },
  ],
  sent: [
    {
      ...{ loanId: 'n1', place: { placeId: 'p9', label: 'Maud Ferriby' }, kind: 'framer', fromOn: '2026-09-10' },
      ...{ dueOn: '2026-10-08', closedOn: null, priceMinor: 4_500 },
    },
  ],
  frame: {
    measured: { widthUm: 355_600, heightUm: 279_400 },
    reckoned: { opening: { widthUm: 292_100, heightUm: 215_900 }, board: { widthUm: 304_800, heightUm: 228_600 } },
  },
  cost: {
    ...{ totalMinor: 5_339, unknown: 1 },
    lines: [
      { kind: 'thread', id: 't1', costMinor: 189 },
      { kind: 'chart', id: 'c1', costMinor: null },
      { kind: 'sent', id: 'n1', costMinor: 4_500 },
      { kind: 'other', id: null, costMinor: 650 },
    ],
  },
}

const sums = { pieces: z.int(), stitches: z.int(), hoursTenths: z.int() }

const yearSchema = z
  .strictObject({
    ownerIds: ownerIdsField,
    year: z.string(),
    ...sums,
    threadTenths: z.int().meta({ description: 'Thread as it is sold, in tenths of a millimetre.' }),
    threadByPiece: z
      .array(z.strictObject({ projectId: z.string(), threadTenths: z.number() }))
      .meta({ description: 'What each piece adds to that, not rounded.' }),
    colours: z.array(z.strictObject({ thread: threadRef, strandTenths: z.int(), pieces: z.int() })),
    cost: z.strictObject({
      ...{ totalMinor: z.int(), unknown: z.int(), threadMinor: z.int(), clothMinor: z.int(), chartMinor: z.int() },
      ...{ sentMinor: z.int(), otherMinor: z.int() },
    }),
    months: z.array(
      z.strictObject({
        month: z.string(),
        ...sums,
        logged: z.int().meta({ description: 'Stitches in the log of that month, whatever on.' }),
      }),
    ),
    longest: orNull(z.strictObject({ projectId: z.string(), hoursTenths: z.int().nullable(), days: z.int().nullable() })).meta({
      description: 'By hours; by days where no hours are known.',
    }),
    firstProjectId: z.string().nullable(),
    finishes: z.array(finishSchema),
  })
  .meta({ id: 'FinishYear' })

export const finishOperations = {
  list: operation({
    ...({ method: 'get', path: '/finishes', id: 'listFinishYears', group } as const),
    summary: 'Finished pieces by year, and what is stitched and not framed',
    query: z.strictObject(ownerQuery),
    answer: z
      .strictObject({
        ownerIds: ownerIdsField,
        years: z.array(
          z.strictObject({ year: z.string().meta({ description: 'Empty where nobody wrote down when.' }), ...sums }),
        ),
        unframed: z.array(
          z.strictObject({
            ...{ projectId: z.string(), title: z.string(), status: z.enum(['stitched', 'finished']), quantity: z.int() },
            ...{ finishing: z.string().nullable(), place: orNull(placeRefSchema), lastWorkedOn: z.string().nullable() },
            sent: orNull(sentSchema),
          }),
        ),
      })
      .meta({ id: 'FinishYears' }),
    answerMeans: 'The years, the latest first.',
    example: {
      answer: {
        ownerIds: ['o1'],
        years: [{ year: '2026', pieces: 7, stitches: 61_240, hoursTenths: 3_125 }],
        unframed: [
          {
            ...{ projectId: 'j2', title: 'Nine Wrens', status: 'stitched', quantity: 1, finishing: null, place: null },
            ...{ lastWorkedOn: '2026-09-01', sent: null },
          },
        ],
      },
    },
  }),
  year: operation({
    ...({ method: 'get', path: '/finishes/{year}', id: 'getFinishYear', group } as const),
    summary: 'A year’s finishes: stitches, hours, colours really used, what it cost, month by month',
    pathParameters: z.strictObject({ year: z.string().regex(/^[12]\d{3}$/) }),
    query: z.strictObject(ownerQuery),
    answer: yearSchema,
    answerMeans: 'The year; one without finishes is empty.',
    example: {
      answer: {
        ...{ ownerIds: ['o1'], year: '2026', pieces: 1, stitches: 11_270, hoursTenths: 1_120, threadTenths: 131_606 },
        threadByPiece: [{ projectId: 'j1', threadTenths: 131_606 }],
        colours: [
          { thread: { threadId: 't1', makerName: 'Larkholm', code: '0311', name: null }, strandTenths: 789_640, pieces: 1 },
        ],
        cost: {
          ...{ totalMinor: 5_339, unknown: 1, threadMinor: 189, clothMinor: 0, chartMinor: 0, sentMinor: 4_500, otherMinor: 650 },
        },
        months: [{ month: '2026-09', pieces: 1, stitches: 11_270, hoursTenths: 1_120, logged: 2_330 }],
        longest: { projectId: 'j1', hoursTenths: 1_120, days: null },
        ...{ firstProjectId: 'j1', finishes: [exampleFinish] },
      },
    },
  }),
  find: operation({
    ...({ method: 'get', path: '/projects/{projectId}/finish', id: 'getFinish', group } as const),
    summary: 'What is on record of a stitched piece: colours really used, cost, frame, with whom it is',
    pathParameters: projectPath,
    answer: finishSchema,
    answerMeans: 'As far as it goes, also of work that is not finished.',
    problems: ['not-found'],
    example: { answer: exampleFinish },
  }),
  setFrame: operation({
    ...({ method: 'post', path: '/projects/{projectId}/frame', id: 'setFrame', group } as const),
    summary: 'Say what frame it went into, and what else it cost',
    description: 'What is left out stays as it is; null forgets it. Only of what is stitched or finished.',
    pathParameters: projectPath,
    body: z
      .strictObject({
        version: z
          .int()
          .min(0)
          .optional()
          .meta({ description: 'The version last seen; left out, the project is taken as it stands.' }),
        frame: z
          .strictObject({ widthUm: sideUm, heightUm: sideUm })
          .nullable()
          .optional()
          .meta({ description: 'Outside, as measured.' }),
        otherCostMinor: z
          .int()
          .min(0)
          .max(100_000_000)
          .nullable()
          .optional()
          .meta({ description: 'Beside thread, cloth, chart and what others were paid.' }),
        who: shortText.nullable().default(null),
      })
      .meta({ id: 'SetFrameRequest' }),
    answer: finishSchema,
    answerMeans: 'Kept.',
    problems: ['not-found', 'refused'],
    takesIdempotencyKey: true,
    example: { body: { frame: { widthUm: 355_600, heightUm: 279_400 }, otherCostMinor: 650 }, answer: exampleFinish },
  }),
} as const
