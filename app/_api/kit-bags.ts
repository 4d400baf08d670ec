import { z } from 'zod'
import { bagStatuses } from '#lib/project/kit/bag-status'
import { bagSteps } from '#lib/project/kit/bags'
import { markStatuses } from '#lib/project/kit/check'
import { ownerIdsField, ownerQuery } from './collection'
import { operation } from './operation'
import { nextField, numberedPageQuery } from './paging'
import { dateText, idText, noteText, orNull, shortText } from './quantities'

const bag = z.int().min(1).max(99_999)
const key = shortText.meta({
  description: 'Of the master list: `thread:<id>`, `cloth`, `chart` or `item:<id>`.',
  example: 'cloth',
})
const by = orNull(shortText).default(null).meta({ description: 'Who does it, by name.', example: 'Ines Coldwell' })
const when = z.string().nullable()
const pathParameters = z.strictObject({ projectId: idText })

const threadSchema = z.strictObject({
  threadId: z.string(),
  maker: z.string(),
  code: z.string(),
  name: z.string().nullable(),
})
const exampleThread = { threadId: 't1', maker: 'Larkholm', code: '0311', name: null }

const runSchema = z.strictObject({
  threadId: z.string(),
  batchId: z.string(),
  lot: z.string().nullable(),
  fromBag: z.int(),
  toBag: z.int(),
})
const exampleRun = { threadId: 't1', batchId: 'b1', lot: '18', fromBag: 1, toBag: 13 }

const kitBagsSchema = z
  .strictObject({
    projectId: z.string(),
    title: z.string(),
    copies: z.int().meta({ description: 'All bags, spares among them; the spares are the last.' }),
    spares: z.int(),
    lines: z.array(z.strictObject({ key: z.string(), name: z.string(), perKit: z.string(), isInSpares: z.boolean() })),
    bags: z.array(
      z.strictObject({
        bag: z.int(),
        isSpare: z.boolean(),
        status: z.enum(bagStatuses),
        uncut: z.array(z.string()).meta({ description: 'Keys of threads with no cut on record for it.' }),
        marks: z.array(
          z.strictObject({ key: z.string(), status: z.enum(markStatuses), at: z.string(), who: z.string().nullable() }),
        ),
        packedAt: when,
        packedBy: when,
        checkedAt: when,
        checkedBy: when,
        sealedAt: when,
        sealedBy: when,
        soldAt: when,
        soldTo: when,
        note: when,
      }),
    ),
    lots: z
      .array(z.strictObject({ ...runSchema.shape, thread: threadSchema, at: z.string(), who: z.string().nullable() }))
      .meta({ description: 'The batch record: which bags have which stock.' }),
  })
  .meta({ id: 'KitBags' })

const nothingDone = {
  ...{ packedAt: null, packedBy: null, checkedAt: null, checkedBy: null, sealedAt: null, sealedBy: null },
  ...{ soldAt: null, soldTo: null, note: null },
}
const exampleBags = {
  ...{ projectId: 'p1', title: 'Seven Lanterns', copies: 13, spares: 1 },
  lines: [{ key: 'thread:t1', name: 'Larkholm 0311', perKit: '3.1 m', isInSpares: true }],
  bags: [{ bag: 13, isSpare: true, status: 'open' as const, uncut: [], marks: [], ...nothingDone }],
  lots: [{ ...exampleRun, thread: exampleThread, at: '2026-09-08T09:00:00.000Z', who: 'Nell Oxtoby' }],
}

const group = 'Projects' as const

export const getKitBags = operation({
  ...({ method: 'get', path: '/projects/{projectId}/kit-bags', id: 'getKitBags', group } as const),
  summary: 'The bags of a batch of kits: what goes into each, how it stands, which lots it has',
  pathParameters,
  answer: kitBagsSchema,
  answerMeans: 'The bags in order.',
  problems: ['not-found'],
  example: { answer: exampleBags },
})

export const planKitCutsOperation = operation({
  ...({ method: 'get', path: '/projects/{projectId}/kit-bags/cut', id: 'planKitCuts', group } as const),
  summary: 'What would be cut for the bags now, from which stock',
  description:
    'No cut is joined; bags are served in order. All bags have one lot where one is enough, else `lots` says which bags differ. Promised stock comes first.',
  pathParameters,
  answer: z
    .strictObject({
      seen: z.string().meta({ description: 'Send it with the order to cut, so that what was looked at is what is cut.' }),
      threads: z.array(
        z.strictObject({
          thread: threadSchema,
          runs: z.array(runSchema),
          short: z.array(z.int()).meta({ description: 'Bags there is no cut for.' }),
          lots: z.array(z.strictObject({ lot: z.string().nullable(), batchIds: z.array(z.string()), bags: z.array(z.int()) })),
          isMixed: z.boolean().meta({ description: 'It should be of one lot and is not.' }),
        }),
      ),
    })
    .meta({ id: 'KitCutting' }),
  answerMeans: 'The plan; nothing is written.',
  problems: ['not-found'],
  example: {
    answer: {
      seen: 'b1:1-13',
      threads: [
        {
          ...{ thread: exampleThread, runs: [exampleRun], short: [], isMixed: false },
          lots: [{ lot: '18', batchIds: ['b1'], bags: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13] }],
        },
      ],
    },
  },
})

const cutAnswer = z
  .strictObject({
    cuts: z.int(),
    threads: z.int(),
    short: z.array(z.strictObject({ threadId: z.string(), bags: z.array(z.int()) })),
  })
  .meta({ id: 'KitsCut' })

export const cutKitsOperation = operation({
  ...({ method: 'post', path: '/projects/{projectId}/kit-bags/cut', id: 'cutKits', group } as const),
  summary: 'Record that threads were cut for the bags',
  description:
    'Stock goes down by what was cut, leftovers stay stock (the longest piece as the part, shorter ones as remnants of their own length), and the batch record gains its lines, all in one write. Bags that have their cut are passed over.',
  pathParameters,
  body: z
    .strictObject({
      by,
      seen: z.string().max(200_000).optional(),
      acceptsLots: z.boolean().default(false).meta({ description: 'Several lots of a thread that should be of one will do.' }),
    })
    .meta({ id: 'CutKitsRequest' }),
  answer: cutAnswer,
  answerMeans: 'What was cut, and what is short.',
  problems: ['not-found', 'refused'],
  takesIdempotencyKey: true,
  example: {
    body: { by: 'Nell Oxtoby', seen: 'b1:1-13', acceptsLots: false },
    answer: { cuts: 13, threads: 1, short: [] },
  },
})

export const cutAgainOperation = operation({
  ...({ method: 'post', path: '/projects/{projectId}/kit-bags/cut-again', id: 'cutKitThreadAgain', group } as const),
  summary: 'Cut one thread anew for one bag that is not sealed',
  description: 'For a cut that was short or wrong. The first one stays used; the record names the new one and its lot.',
  pathParameters,
  body: z.strictObject({ bag, threadId: idText, by }).meta({ id: 'CutKitThreadAgainRequest' }),
  answer: cutAnswer,
  answerMeans: 'The one cut.',
  problems: ['not-found', 'refused'],
  takesIdempotencyKey: true,
  example: { body: { bag: 7, threadId: 't1', by: 'Nell Oxtoby' }, answer: { cuts: 1, threads: 1, short: [] } },
})

export const stepKitBagsOperation = operation({
  ...({ method: 'post', path: '/projects/{projectId}/kit-bags/step', id: 'stepKitBags', group } as const),
  summary: 'Pack, unpack, seal, open again, sell or take back bags, all of them or none',
  description:
    'Packing counts needles and the like out of stock. A bag with a line that is short, wrong or not looked for is not sealed. Sealing takes a copy of the chart, a spare takes it when it is sold. `unseal` and `take back` want a reason.',
  pathParameters,
  body: z
    .strictObject({
      step: z.enum(bagSteps),
      bags: z.array(bag).min(1).max(10_000),
      by,
      reason: orNull(noteText).default(null),
      soldTo: orNull(shortText).default(null),
    })
    .meta({ id: 'StepKitBagsRequest' }),
  answer: z
    .strictObject({ bags: z.int(), charts: z.int().meta({ description: 'Copies that went along; below nought, came back.' }) })
    .meta({ id: 'KitBagsStepped' }),
  answerMeans: 'How many bags, and how many charts moved.',
  problems: ['not-found', 'refused'],
  takesIdempotencyKey: true,
  example: {
    body: { step: 'sell', bags: [13], by: 'Joss Tarrow', reason: null, soldTo: 'Hanne Drewitt' },
    answer: { bags: 1, charts: 1 },
  },
})

export const markKitBagsOperation = operation({
  ...({ method: 'post', path: '/projects/{projectId}/kit-bags/check', id: 'checkKitBags', group } as const),
  summary: 'Hold bags against the master list: lines there, short or wrong',
  description:
    'By another than packed them, unless `isAlone`. A bag of which every line is there is checked. A line that another marked otherwise since `saw` keeps their mark and is among `conflicts`.',
  pathParameters,
  body: z
    .strictObject({
      by: shortText,
      isAlone: z.boolean().default(false),
      marks: z
        .array(
          z.strictObject({
            bag,
            key,
            status: z.enum(markStatuses),
            saw: orNull(z.enum(markStatuses)).optional(),
            note: orNull(noteText).optional(),
          }),
        )
        .min(1)
        .max(5_000),
    })
    .meta({ id: 'CheckKitBagsRequest' }),
  answer: z
    .strictObject({
      marked: z.int(),
      checked: z.array(z.int()).meta({ description: 'Bags in which every line is there now.' }),
      conflicts: z.array(
        z.strictObject({ bag: z.int(), key: z.string(), status: z.enum(markStatuses), who: z.string().nullable() }),
      ),
    })
    .meta({ id: 'KitBagsChecked' }),
  answerMeans: 'What was written, and what stands otherwise.',
  problems: ['not-found', 'refused'],
  example: {
    body: { by: 'Ines Coldwell', isAlone: false, marks: [{ bag: 7, key: 'cloth', status: 'there', saw: null }] },
    answer: { marked: 1, checked: [], conflicts: [] },
  },
})

export const findKitLotsOperation = operation({
  ...({ method: 'get', path: '/kit-records', id: 'findKitRecords', group } as const),
  summary: 'Which kits had this thread, lot or batch, and who has them',
  description: 'Lines of all batch records, the latest cut first.',
  query: z.strictObject({
    thread: idText.optional().meta({ description: 'Id of a thread.' }),
    lot: shortText.optional().meta({ description: 'Exact.' }),
    batch: idText.optional(),
    project: idText.optional(),
    from: dateText.optional().meta({ description: 'Cut on this day or later.' }),
    to: dateText.optional(),
    ...ownerQuery,
    ...numberedPageQuery,
  }),
  answer: z
    .strictObject({
      ownerIds: ownerIdsField,
      total: z.int(),
      records: z.array(
        z.strictObject({
          projectId: z.string(),
          title: z.string(),
          thread: threadSchema,
          batchId: z.string(),
          lot: z.string().nullable(),
          fromBag: z.int(),
          toBag: z.int(),
          at: z.string(),
          who: z.string().nullable(),
          bags: z.array(
            z.strictObject({
              bag: z.int(),
              isSpare: z.boolean(),
              status: z.enum(bagStatuses),
              soldTo: z.string().nullable(),
            }),
          ),
        }),
      ),
      next: nextField,
    })
    .meta({ id: 'KitRecords' }),
  answerMeans: 'A page of them.',
  example: {
    answer: {
      ...{ ownerIds: ['o1'], total: 1, next: null },
      records: [
        {
          ...{
            projectId: 'p1',
            title: 'Seven Lanterns',
            thread: exampleThread,
            batchId: 'b1',
            lot: '22',
            fromBag: 10,
            toBag: 13,
          },
          ...{ at: '2026-09-08T09:00:00.000Z', who: 'Nell Oxtoby' },
          bags: [{ bag: 13, isSpare: true, status: 'sold', soldTo: 'Hanne Drewitt' }],
        },
      ],
    },
  },
})

export const kitBagOperations = [
  getKitBags,
  planKitCutsOperation,
  cutKitsOperation,
  cutAgainOperation,
  markKitBagsOperation,
  stepKitBagsOperation,
  findKitLotsOperation,
] as const
