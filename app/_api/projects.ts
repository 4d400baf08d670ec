import { z } from 'zod'
import { dueChoices } from '#lib/project/filter-projects'
import { projectStatuses, underWayStatuses } from '#lib/project/life-cycle'
import { leftoversSchema } from './allowance'
import { namedSchema, ownerIdsField, ownerQuery, placeRefSchema } from './collection'
import { threadRefSchema } from './cover'
import { operation } from './operation'
import { nextField, numberedPageQuery } from './paging'
import { dateText, idText, noteText, orNull, shortText, sideUm } from './quantities'
import { exampleThread } from './stock'

const projectFields = {
  projectId: z.string(),
  status: z.enum(projectStatuses),
  quantity: z.int().meta({ description: 'All copies, spares among them.' }),
  spares: z.int().meta({ description: 'How many of them are spare kits: those have no chart until they are sold.' }),
  design: z.strictObject({ designId: z.string(), title: z.string(), chartId: z.string() }),
  owner: namedSchema,
  place: orNull(placeRefSchema).meta({ description: 'Where the kit or the finished piece is.' }),
  forWhom: z.string().nullable(),
  dueOn: z.string().nullable(),
  stars: z.int().nullable().meta({ description: 'How much it is wished for, 1 to 5.' }),
  plannedOn: z.string().nullable().meta({ description: 'When it is meant to be begun.' }),
  startedOn: z.string().nullable(),
  finishedOn: z.string().nullable(),
  hoursTenths: z.int().meta({ description: 'Tenths of an hour.' }),
  stitchesDone: z.int(),
  stitchesTotal: z.int().nullable(),
}

const projectSchema = z.strictObject(projectFields).meta({ id: 'Project' })

const detailSchema = z
  .strictObject({
    ...projectFields,
    version: z.int(),
    over: z.literal([1, 2]).nullable(),
    finishing: z.string().nullable(),
    finishingWeeks: z.int().nullable().meta({ description: 'Weeks its finishing takes; null follows the settings.' }),
    occasionKey: z.string().nullable().meta({ description: 'What it is due for, as `listOccasions` has it.' }),
    note: z.string().nullable(),
    threadList: orNull(namedSchema),
    clothPiece: orNull(z.strictObject({ clothPieceId: z.string(), label: z.string().nullable(), name: z.string() })),
  })
  .meta({ id: 'ProjectDetail' })

const exampleProject = {
  projectId: 'j1',
  status: 'planned',
  quantity: 1,
  spares: 0,
  design: { designId: 'd1', title: 'Rook Hill in Snow', chartId: 'h1' },
  owner: { id: 'o1', name: 'The Oxmarsh Needle Room' },
  place: { placeId: 'p7', label: 'K-07' },
  forWhom: null,
  dueOn: '2026-12-01',
  stars: 4,
  plannedOn: '2026-09-08',
  startedOn: null,
  finishedOn: null,
  hoursTenths: 0,
  stitchesDone: 0,
  stitchesTotal: 9_240,
}
const exampleDetail = {
  ...exampleProject,
  version: 0,
  over: null,
  finishing: null,
  finishingWeeks: null,
  occasionKey: null,
  note: null,
  threadList: { id: 'l1', name: 'Cotton' },
  clothPiece: null,
}

export const listProjects = operation({
  method: 'get',
  path: '/projects',
  id: 'listProjects',
  group: 'Projects',
  summary: 'Projects under way, or finishes',
  query: z.strictObject({
    state: z
      .enum(['under-way', 'finished'])
      .default('under-way')
      .meta({ description: 'Under way: the nearest to the needle first. Finished: the latest first.' }),
    status: z.enum(underWayStatuses).optional().meta({ description: 'Of those under way, only these; so with `due` and `q`.' }),
    due: z
      .enum(dueChoices)
      .optional()
      .meta({ description: 'late: the day is over. soon: within four weeks. none: no day was said.' }),
    q: z
      .string()
      .max(200)
      .optional()
      .meta({ description: 'Every word occurs in the title, a designer’s name or for whom it is.' }),
    ...ownerQuery,
    ...numberedPageQuery,
  }),
  answer: z
    .strictObject({ ownerIds: ownerIdsField, total: z.int(), projects: z.array(projectSchema), next: nextField })
    .meta({ id: 'ProjectList' }),
  answerMeans: 'A page of projects. `after` counts entries and must be a whole number of pages of the same `limit`.',
  example: { answer: { ownerIds: ['o1'], total: 1, projects: [exampleProject], next: null } },
})

export const listTravellingOperation = operation({
  method: 'get',
  path: '/projects/travelling',
  id: 'listTravellingProjects',
  group: 'Projects',
  summary: 'What is kitted and comes out no larger than a size',
  query: z.strictObject({
    ...ownerQuery,
    widthUm: z.coerce.number().int().min(1).max(100_000_000),
    heightUm: z.coerce.number().int().min(1).max(100_000_000).optional().meta({ description: 'As the width when left out.' }),
  }),
  answer: z
    .strictObject({
      ownerIds: ownerIdsField,
      unknown: z.int().meta({ description: 'Kitted projects whose size is not known.' }),
      projects: z.array(
        z.strictObject({
          ...{ projectId: z.string(), title: z.string(), quantity: z.int(), widthUm: z.number(), heightUm: z.number() },
          clothPieceId: z.string().nullable(),
          bag: orNull(placeRefSchema),
        }),
      ),
    })
    .meta({ id: 'TravellingProjects' }),
  answerMeans: 'The smallest first, whichever way round they fit.',
  example: {
    answer: {
      ...{ ownerIds: ['o1'], unknown: 0 },
      projects: [
        {
          ...{ projectId: 'j1', title: 'Seven Lanterns', quantity: 1, widthUm: 152_400, heightUm: 152_400, clothPieceId: 'c1' },
          bag: { placeId: 'p1', label: 'K-07' },
        },
      ],
    },
  },
})

export const projectPath = z.strictObject({ projectId: idText })

export const getProject = operation({
  method: 'get',
  path: '/projects/{projectId}',
  id: 'getProject',
  group: 'Projects',
  summary: 'One project',
  pathParameters: projectPath,
  answer: detailSchema,
  answerMeans: 'The project.',
  problems: ['not-found'],
  example: { answer: exampleDetail },
})

/** What operations on a project's log answer with too. */
export const projectAnswer = { schema: detailSchema, example: exampleDetail }

const who = shortText.nullable().default(null).meta({ description: 'Who did it, for the journal.' })
const edit = {
  version: z.int().min(0).optional().meta({ description: 'The version last seen; left out, the project is taken as it stands.' }),
  who,
}

export const addProject = operation({
  method: 'post',
  path: '/projects',
  id: 'startProject',
  group: 'Projects',
  summary: 'Start a project from a design',
  description: 'It is planned, and promised exact batches for every thread as far as they are free. A wish is promised nothing.',
  body: z
    .strictObject({
      designId: idText,
      threadListId: idText
        .nullable()
        .default(null)
        .meta({ description: 'One of the design’s own; without it nothing is promised.' }),
      ownerId: idText,
      clothPieceId: idText.nullable().default(null),
      over: z.literal([1, 2]).nullable().default(null),
      quantity: z.int().min(1).max(10_000).default(1).meta({ description: 'All copies, spares among them.' }),
      spares: z
        .int()
        .min(0)
        .max(9_999)
        .default(0)
        .meta({ description: 'How many of them are spare kits, fewer than the quantity.' }),
      bagLabel: shortText.nullable().default(null).meta({ description: 'Where the kit will be; a new label becomes a bag.' }),
      forWhom: shortText.nullable().default(null),
      dueOn: dateText.nullable().default(null),
      plannedOn: dateText.nullable().default(null),
      note: noteText.nullable().default(null),
      isWish: z.boolean().default(false),
      who,
    })
    .refine(({ spares, quantity }) => spares < quantity, {
      path: ['spares'],
      message: 'All of them would be spares.',
      params: { accepted: 'fewer than the quantity' },
    })
    .meta({ id: 'StartProjectRequest' }),
  answerStatus: 201,
  answer: z
    .strictObject({
      project: detailSchema,
      promised: z.array(z.strictObject({ thread: threadRefSchema, batchId: z.string(), strandTenths: z.int() })),
      short: z
        .array(z.strictObject({ thread: threadRefSchema, shortStrandTenths: z.int() }))
        .meta({ description: 'What could not be promised.' }),
    })
    .meta({ id: 'StartedProject' }),
  answerMeans: 'Started.',
  problems: ['refused'],
  takesIdempotencyKey: true,
  example: {
    body: { designId: 'd1', threadListId: 'l1', ownerId: 'o1', bagLabel: 'K-07', dueOn: '2026-12-01', plannedOn: '2026-09-08' },
    answer: { project: exampleDetail, promised: [{ thread: exampleThread, batchId: 'b1', strandTenths: 772_645 }], short: [] },
  },
})

const step = {
  method: 'post',
  group: 'Projects',
  pathParameters: projectPath,
  answer: detailSchema,
  problems: ['not-found', 'refused'],
  takesIdempotencyKey: true,
} as const

export const kitProjectOperation = operation({
  ...step,
  path: '/projects/{projectId}/kit',
  id: 'kitProject',
  summary: 'Carry what it was promised to its bag',
  body: z
    .strictObject({ ...edit, bagLabel: shortText, takesChart: z.boolean().default(false) })
    .meta({ id: 'KitProjectRequest' }),
  answerMeans: 'Kitted.',
  example: { body: { bagLabel: 'K-07', takesChart: true }, answer: { ...exampleDetail, status: 'kitted', version: 1 } },
})

export const moveProjectOperation = operation({
  ...step,
  path: '/projects/{projectId}/status',
  id: 'moveProject',
  summary: 'Begin or take up the stitching, lay it by, or say that the last stitch is made',
  body: z
    .strictObject({ ...edit, to: z.enum(['stitching', 'resting', 'stitched']), on: dateText })
    .meta({ id: 'MoveProjectRequest' }),
  answerMeans: 'Moved on.',
  example: {
    body: { to: 'stitching', on: '2026-09-08' },
    answer: { ...exampleDetail, status: 'stitching', startedOn: '2026-09-08', version: 1 },
  },
})

export const planProjectDayOperation = operation({
  ...step,
  path: '/projects/{projectId}/planned-on',
  id: 'planProjectDay',
  summary: 'Say on which day it is meant to be begun',
  body: z.strictObject({ ...edit, plannedOn: dateText.nullable() }).meta({ id: 'PlanProjectDayRequest' }),
  answerMeans: 'Planned.',
  example: { body: { plannedOn: '2026-09-08' }, answer: { ...exampleDetail, version: 1 } },
})

export const setProjectDeadlineOperation = operation({
  ...step,
  path: '/projects/{projectId}/deadline',
  id: 'setProjectDeadline',
  summary: 'Say when or for which occasion it is due, and how long its finishing takes',
  description: 'What is left out stays as it is.',
  body: z
    .strictObject({
      ...edit,
      dueOn: dateText.nullable().optional(),
      occasionKey: idText
        .nullable()
        .optional()
        .meta({ description: 'Chosen anew, it sets the day to its next, unless another day is said along with it.' }),
      finishingWeeks: z.int().min(0).max(104).nullable().optional().meta({ description: 'Null follows the settings.' }),
    })
    .meta({ id: 'SetProjectDeadlineRequest' }),
  answerMeans: 'Said.',
  example: { body: { dueOn: '2026-12-01', finishingWeeks: 6 }, answer: { ...exampleDetail, finishingWeeks: 6, version: 1 } },
})

const putBack = z.enum(['now', 'list']).default('now').meta({
  description:
    '`now`: what is left lies where it lives already. `list`: the record has it in the bag until it is ticked off a put-back list.',
})

export const abandonProjectOperation = operation({
  ...step,
  path: '/projects/{projectId}/abandon',
  id: 'abandonProject',
  summary: 'Give it up: everything goes back where it lives',
  body: z.strictObject({ ...edit, putBack }).meta({ id: 'AbandonProjectRequest' }),
  answerMeans: 'Given up; its record stays.',
  example: { body: {}, answer: { ...exampleDetail, status: 'abandoned', place: null, version: 3 } },
})

export const finishProjectOperation = operation({
  ...step,
  path: '/projects/{projectId}/finish',
  id: 'finishProject',
  summary: 'Finish it: what was used is used up, the rest goes back',
  description:
    'In one change: thread used is used up, leftovers go back where they live, at once or by a put-back list, promises are freed, the cloth is used and offcuts become pieces of cloth, chart and notions go back, and a question is opened for what was not in the bag. Threads left out of `used` were used as the design needs.',
  body: z
    .strictObject({
      ...edit,
      finishedOn: dateText,
      hoursTenths: z.int().min(0).max(1_000_000).optional().meta({ description: 'All of it; as logged when left out.' }),
      stitchesDone: z.int().min(0).max(1_000_000_000).optional(),
      used: z
        .array(
          z.strictObject({
            threadId: idText,
            strandTenths: z.union([z.int().min(0).max(1_000_000_000), z.literal('all')]),
          }),
        )
        .max(2_000)
        .default([]),
      leftovers: leftoversSchema.default([]),
      missingBatchIds: z
        .array(idText)
        .max(1_000)
        .default([])
        .meta({ description: 'Pulled, and not in the bag when it was unpacked.' }),
      putBack,
      isClothUsed: z.boolean().default(true),
      usedKeptClothIds: z
        .array(idText)
        .max(400)
        .default([])
        .meta({ description: 'Other pieces kept for it that were used up; those left out are free again.' }),
      offcuts: z
        .array(
          z.strictObject({
            widthUm: sideUm,
            heightUm: sideUm,
            label: shortText.nullable().default(null),
            placeLabel: shortText.nullable().default(null),
          }),
        )
        .max(20)
        .default([]),
      finishing: shortText.nullable().default(null),
      forWhom: shortText.nullable().default(null),
      placeLabel: shortText.nullable().default(null).meta({ description: 'Where the finished piece is.' }),
      note: noteText.nullable().default(null),
    })
    .refine((finish) => finish.isClothUsed || finish.offcuts.length === 0, {
      path: ['offcuts'],
      message: 'There are no offcuts of cloth that was not used.',
      params: { accepted: 'an empty list, or isClothUsed' },
    })
    .meta({ id: 'FinishProjectRequest' }),
  answer: z
    .strictObject({
      project: detailSchema,
      putBack: z.array(
        z.strictObject({
          thread: threadRefSchema,
          batchId: z.string(),
          lot: z.string().nullable(),
          place: orNull(placeRefSchema),
          wholePutUps: z.int(),
          partStrandTenths: z.int(),
        }),
      ),
      usedUp: z.array(z.strictObject({ thread: threadRefSchema, putUps: z.int() })),
      missing: z.array(z.strictObject({ thread: threadRefSchema, batchId: z.string(), putUps: z.int() })),
      offcutIds: z.array(z.string()),
      walkId: z.string().nullable().meta({ description: 'The list to put things back by; null when none was made.' }),
    })
    .meta({ id: 'FinishedProject' }),
  answerMeans: 'Finished, with what goes back where, in walking order.',
  example: {
    body: { finishedOn: '2026-11-20', hoursTenths: 620, finishing: 'framed' },
    answer: {
      project: {
        ...exampleDetail,
        status: 'finished',
        startedOn: '2026-09-08',
        finishedOn: '2026-11-20',
        hoursTenths: 620,
        version: 4,
      },
      putBack: [
        {
          thread: exampleThread,
          batchId: 'b1',
          lot: null,
          place: { placeId: 'p2', label: 'T2.1-14' },
          wholePutUps: 0,
          partStrandTenths: 187_355,
        },
      ],
      usedUp: [{ thread: exampleThread, putUps: 1 }],
      missing: [],
      offcutIds: [],
      walkId: null,
    },
  },
})
