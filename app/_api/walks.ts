import { z } from 'zod'
import { tickedStatuses, walkLineStatuses, walkStatuses } from '#lib/project/walk'
import { placeRefSchema } from './collection'
import { operation } from './operation'
import { idText, orNull, shortText } from './quantities'

const by = shortText.max(120).optional().meta({ description: 'Who does it, by name.', example: 'Ines Coldwell' })
const pathParameters = z.strictObject({ walkId: idText })
const lineIds = z.array(idText).min(1).max(500).meta({ description: 'Lines of one batch.' })

const walkFields = {
  walkId: z.string(),
  kind: z.enum(['pull', 'put-back']),
  title: z.string(),
  status: z.enum(walkStatuses),
  place: orNull(placeRefSchema).meta({ description: 'The bag that is unpacked.' }),
  startedAt: z.string(),
  startedBy: z.string().nullable(),
  closedAt: z.string().nullable(),
  closedBy: z.string().nullable(),
  version: z.int(),
  progress: z
    .strictObject({ things: z.int(), done: z.int(), notThere: z.int(), waiting: z.int() })
    .meta({ description: 'Counted in things; `waiting` are in hand and not yet carried out.' }),
}
const exampleWalk = {
  ...{ walkId: 'w1', kind: 'pull' as const, title: 'Seven Lanterns', status: 'open' as const, place: null },
  ...{ startedAt: '2026-09-07T10:00:00.000Z', startedBy: 'Ines Coldwell', closedAt: null, closedBy: null, version: 0 },
  progress: { things: 8, done: 3, notThere: 0, waiting: 3 },
}

const lineSchema = z
  .strictObject({
    lineId: z.string(),
    kind: z.enum(['thread', 'cloth', 'chart', 'notion']),
    thingId: z.string().meta({ description: 'The batch, piece, chart or notion. Lines of one thing are one row.' }),
    name: z.string(),
    lot: z.string().nullable(),
    place: orNull(placeRefSchema).meta({ description: 'Where one goes for it; on a put-back list, where it belongs.' }),
    projectId: z.string().nullable(),
    count: z.int().meta({ description: 'Whole put-ups, pieces or copies.' }),
    takesPart: z.boolean().meta({ description: 'The part skein too.' }),
    status: z.enum(walkLineStatuses),
    tickedAt: z.string().nullable(),
    tickedBy: z.string().nullable(),
    isCarried: z.boolean(),
    note: z.string().nullable(),
  })
  .meta({ id: 'WalkLine' })
const exampleLine = {
  ...{ lineId: 'l1', kind: 'thread' as const, thingId: 'b1', name: 'Larkholm 0311 Barn Red', lot: null },
  ...{ place: { placeId: 'p1', label: 'T2.2-05' }, projectId: 'j1', count: 7, takesPart: false, status: 'open' as const },
  ...{ tickedAt: null, tickedBy: null, isCarried: false, note: null },
}

const walkSchema = z
  .strictObject({
    ...walkFields,
    revision: z.int().meta({ description: 'Ask for the ticks since this.' }),
    projects: z.array(
      z.strictObject({
        projectId: z.string(),
        title: z.string(),
        quantity: z.int(),
        status: z.string(),
        bag: orNull(placeRefSchema),
      }),
    ),
    lines: z.array(lineSchema),
  })
  .meta({ id: 'Walk', description: 'A list to walk past the drawers with, in walking order.' })
const exampleDetail = {
  ...exampleWalk,
  revision: 41,
  projects: [{ projectId: 'j1', title: 'Seven Lanterns', quantity: 13, status: 'planned', bag: null }],
  lines: [exampleLine],
}

const newsFields = {
  revision: z.int().meta({ description: 'Ask for the ticks since this next.' }),
  status: z.enum(walkStatuses),
  version: z.int().meta({ description: 'Another than before: read the walk again.' }),
  lines: z.array(
    z.strictObject({
      lineId: z.string(),
      status: z.enum(walkLineStatuses),
      tickedAt: z.string().nullable(),
      tickedBy: z.string().nullable(),
      isCarried: z.boolean(),
    }),
  ),
}
const exampleNews = {
  ...{ revision: 42, status: 'open' as const, version: 0 },
  lines: [
    {
      ...{ lineId: 'l1', status: 'done' as const, tickedAt: '2026-09-07T10:03:00.000Z' },
      ...{ tickedBy: 'Ines Coldwell', isCarried: false },
    },
  ],
}
const since = z
  .string()
  .regex(/^\d{1,15}$/, 'A revision is a whole number.')
  .transform(Number)
  .default(0)
  .meta({ description: 'The revision of the last answer.' })

const group = 'Projects' as const

export const listWalksOperation = operation({
  ...({ method: 'get', path: '/walks', id: 'listWalks', group } as const),
  summary: 'Pulls and put-back lists',
  description: 'All that are open, and the newest hundred that are over.',
  answer: z.strictObject({ walks: z.array(z.strictObject(walkFields)) }).meta({ id: 'WalkList' }),
  answerMeans: 'Walks, open ones first, then the newest.',
  example: { answer: { walks: [exampleWalk] } },
})

export const startWalkOperation = operation({
  ...({ method: 'post', path: '/walks', id: 'startWalk', group } as const),
  summary: 'Begin one pull for one project or many',
  description:
    'What was promised and is not in the bags, with cloth, charts and notions, in one walking order. The list stays as it is until it is brought up to date. A project can be on one open pull at a time.',
  body: z
    .strictObject({ projectIds: z.array(idText).min(1).max(2_000), title: shortText.optional(), by })
    .meta({ id: 'StartWalkRequest' }),
  answer: walkSchema,
  answerStatus: 201,
  answerMeans: 'The list.',
  problems: ['not-found', 'refused'],
  example: { body: { projectIds: ['j1'], by: 'Ines Coldwell' }, answer: exampleDetail },
})

export const getWalk = operation({
  ...({ method: 'get', path: '/walks/{walkId}', id: 'getWalk', group } as const),
  summary: 'A pull or put-back list',
  pathParameters,
  answer: walkSchema,
  answerMeans: 'The list as it stands.',
  problems: ['not-found'],
  example: { answer: exampleDetail },
})

export const getWalkNews = operation({
  ...({ method: 'get', path: '/walks/{walkId}/ticks', id: 'getWalkTicks', group } as const),
  summary: 'What was ticked since',
  pathParameters,
  query: z.strictObject({ since }),
  answer: z.strictObject(newsFields).meta({ id: 'WalkTicks' }),
  answerMeans: 'Lines that changed since, whoever ticked them.',
  problems: ['not-found'],
  example: { answer: exampleNews },
})

export const tickWalkOperation = operation({
  ...({ method: 'post', path: '/walks/{walkId}/ticks', id: 'tickWalk', group } as const),
  summary: 'Tick lines',
  description:
    'The later tick of a line stands, in whatever order they arrive, so ticks may wait on a device and be sent again. Ticks of lines that are carried out are passed over. Answers with what is new since, too.',
  pathParameters,
  body: z
    .strictObject({
      ticks: z
        .array(
          z.strictObject({
            lineId: idText,
            status: z.enum(tickedStatuses),
            tickedAt: z.iso.datetime({ offset: true }).meta({ description: 'By the clock of who ticked it.' }),
            by: orNull(shortText.max(120)).optional(),
          }),
        )
        .min(1)
        .max(2_000),
      sentAt: z.iso
        .datetime({ offset: true })
        .optional()
        .meta({ description: 'What that clock says now, so that one that is plainly wrong is put right.' }),
      since: z.int().min(0).default(0),
    })
    .meta({ id: 'TickWalkRequest' }),
  answer: z
    .strictObject({
      ...newsFields,
      written: z.int(),
      unknownLineIds: z.array(z.string()).meta({ description: 'No longer on the list.' }),
    })
    .meta({ id: 'WalkTicked' }),
  answerMeans: 'How many stand, and what is new since.',
  problems: ['not-found', 'refused'],
  example: {
    body: { ticks: [{ lineId: 'l1', status: 'done', tickedAt: '2026-09-07T10:03:00.000Z', by: 'Ines Coldwell' }], since: 41 },
    answer: { ...exampleNews, written: 1, unknownLineIds: [] },
  },
})

const movedSchema = z.strictObject({
  at: z.string(),
  what: z.string().meta({ description: 'take, return, move …' }),
  who: z.string().nullable(),
  from: z.string().nullable(),
  to: z.string().nullable(),
})

export const getWhereMayBe = operation({
  ...({ method: 'get', path: '/walks/{walkId}/where', id: 'whereMayItBe', group } as const),
  summary: 'It is not there: where it may be, and what could be taken instead',
  pathParameters,
  query: z.strictObject({ lineId: idText }),
  answer: z
    .strictObject({
      lineId: z.string(),
      lastMoved: orNull(movedSchema),
      formerHomes: z.array(z.strictObject({ place: placeRefSchema, until: z.string() })),
      others: z.array(
        z.strictObject({
          batchId: z.string(),
          name: z.string(),
          lot: z.string().nullable(),
          isStandIn: z.boolean(),
          place: orNull(placeRefSchema),
          home: orNull(placeRefSchema),
          held: z.string(),
          freeStrandTenths: z.int(),
          free: z.string(),
          promisedTo: z.array(z.strictObject({ projectId: z.string(), title: z.string() })),
          lastMoved: orNull(movedSchema),
        }),
      ),
    })
    .meta({ id: 'WhereMayBe' }),
  answerMeans: 'Other stock of the same thread and of accepted stand-ins, in walking order, and what the journal says.',
  problems: ['not-found'],
  example: {
    answer: {
      lineId: 'l1',
      lastMoved: {
        ...{ at: '2026-09-01T10:00:00.000Z', what: 'return', who: 'Joss Tarrow', from: 'K-07', to: 'T2.2-05' },
      },
      formerHomes: [{ place: { placeId: 'p3', label: 'T1.4-02' }, until: '2026-03-02T10:00:00.000Z' }],
      others: [
        {
          ...{ batchId: 'b2', name: 'Larkholm 0311 Barn Red', lot: '22', isStandIn: false, home: null, lastMoved: null },
          ...{ place: { placeId: 'p2', label: 'Overflow 1' }, held: '3 skeins', freeStrandTenths: 1_440_000, free: '24 m' },
          promisedTo: [],
        },
      ],
    },
  },
})

export const takeInsteadOperation = operation({
  ...({ method: 'post', path: '/walks/{walkId}/instead', id: 'takeInstead', group } as const),
  summary: 'Take other stock for lines of a pull',
  description:
    'Of the same thread, or of an accepted stand-in, which the project is then worked in. The promise moves along. All lines or none.',
  pathParameters,
  body: z.strictObject({ lineIds, batchId: idText, by }).meta({ id: 'TakeInsteadRequest' }),
  answer: walkSchema,
  answerMeans: 'The list as it now stands.',
  problems: ['not-found', 'refused'],
  example: { body: { lineIds: ['l1'], batchId: 'b2' }, answer: exampleDetail },
})

export const reportLineMissingOperation = operation({
  ...({ method: 'post', path: '/walks/{walkId}/missing', id: 'reportWalkLineMissing', group } as const),
  summary: 'Report what lines ask for as missing',
  description: 'It goes on record as not found and a question is opened; the lines stay, said to be not there.',
  pathParameters,
  body: z.strictObject({ lineIds, by }).meta({ id: 'ReportWalkLineMissingRequest' }),
  answer: walkSchema,
  answerMeans: 'The list as it now stands.',
  problems: ['not-found', 'refused'],
  example: { body: { lineIds: ['l1'] }, answer: exampleDetail },
})

export const bringWalkUpToDate = operation({
  ...({ method: 'post', path: '/walks/{walkId}/up-to-date', id: 'bringWalkUpToDate', group } as const),
  summary: 'Plan the open lines of a pull anew',
  description: 'What is in hand, not there or carried out stays. A line that is wanted as before keeps its id.',
  pathParameters,
  answer: walkSchema,
  answerMeans: 'The list as it now stands.',
  problems: ['not-found', 'refused'],
  example: { answer: exampleDetail },
})

export const carryOutWalk = operation({
  ...({ method: 'post', path: '/walks/{walkId}/carry-out', id: 'carryOutWalk', group } as const),
  summary: 'Move what is ticked on the record',
  description:
    'From a pull into each project’s bag, from a put-back list to where things live, in one write. Open lines stay; nothing is carried twice. Projects all of whose lines are in are kitted.',
  pathParameters,
  body: z
    .strictObject({
      bags: z
        .array(z.strictObject({ projectId: idText, label: shortText }))
        .max(2_000)
        .default([])
        .meta({ description: 'The bag of each project that has none yet.' }),
      lineIds: z
        .array(idText)
        .min(1)
        .max(10_000)
        .optional()
        .meta({ description: 'Only these of what is ticked; left out, all of it.' }),
      by,
    })
    .meta({ id: 'CarryOutWalkRequest' }),
  answer: z
    .strictObject({
      carried: z.int(),
      left: z.array(z.strictObject({ lineId: z.string(), why: z.enum(['not-enough', 'promised', 'gone', 'no-home']) })),
      kittedProjectIds: z.array(z.string()),
      isDone: z.boolean(),
    })
    .meta({ id: 'WalkCarriedOut' }),
  answerMeans: 'How many lines were carried, and which stay ticked and why.',
  problems: ['not-found', 'refused'],
  example: {
    body: { bags: [{ projectId: 'j1', label: 'K-07' }] },
    answer: { carried: 8, left: [], kittedProjectIds: ['j1'], isDone: true },
  },
})

export const closeWalkOperation = operation({
  ...({ method: 'post', path: '/walks/{walkId}/close', id: 'closeWalk', group } as const),
  summary: 'End a walk, or drop it',
  description: 'What was carried out stays so; what was only ticked has moved nothing.',
  pathParameters,
  body: z.strictObject({ status: z.enum(['done', 'dropped']), by }).meta({ id: 'CloseWalkRequest' }),
  answer: walkSchema,
  answerMeans: 'The list as it now stands.',
  problems: ['not-found', 'refused'],
  example: { body: { status: 'done' }, answer: { ...exampleDetail, status: 'done' as const } },
})

export const walkOperations = [
  listWalksOperation,
  startWalkOperation,
  getWalk,
  getWalkNews,
  tickWalkOperation,
  getWhereMayBe,
  takeInsteadOperation,
  reportLineMissingOperation,
  bringWalkUpToDate,
  carryOutWalk,
  closeWalkOperation,
] as const
