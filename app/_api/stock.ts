import { z } from 'zod'
import { clothDyeings, washStates, weaves } from '#lib/cloth/cloth-piece'
import { colourFamilies } from '#lib/colour/family'
import { partCertainties } from '#lib/stock/batch'
import { movementKinds } from '#lib/stock/stock-change'
import { flagQuery, namedSchema, ownerIdsField, ownerQuery, placeRefSchema, whereaboutsFields } from './collection'
import { colourFields } from './colour'
import { threadRefSchema } from './cover'
import { operation } from './operation'
import { nextField, numberedPageQuery, pageQuery } from './paging'
import { countSchema, idText, orNull, putUpStrandTenths, shortText } from './quantities'

export const exampleThread = { threadId: 't1', maker: 'Larkholm', line: 'Stranded cotton', code: '0017', name: 'Rook Grey' }
export const exampleHome = { placeId: 'p2', label: 'T2.1-14' }

export const listOwnersOperation = operation({
  method: 'get',
  path: '/owners',
  id: 'listOwners',
  group: 'Stock',
  summary: 'Whose goods there are',
  answer: z
    .strictObject({
      owners: z.array(z.strictObject({ id: z.string(), name: z.string(), kind: z.enum(['own', 'shop', 'person']) })),
    })
    .meta({ id: 'OwnerList' }),
  answerMeans: 'Every owner, the one meant when none is named first.',
  example: { answer: { owners: [{ id: 'o1', name: 'The Oxmarsh Needle Room', kind: 'shop' }] } },
})

const threadSchema = z
  .strictObject({
    thread: threadRefSchema,
    strands: z.int(),
    putUpWord: z.string(),
    putUpStrandTenths: z.int(),
    lotsMatter: z.boolean(),
    ownedStrandTenths: z.int(),
    outStrandTenths: z.int(),
    promisedStrandTenths: z.int(),
    freeStrandTenths: z.int(),
    wholePutUps: z.int(),
    freePutUps: z.int(),
    minimumPutUps: z.int().nullable(),
    ...colourFields,
    isSomeOwned: z.boolean().meta({ description: 'A part length nobody has judged is held too.' }),
    homes: z.array(placeRefSchema),
    away: z.array(placeRefSchema),
  })
  .meta({ id: 'ThreadStock' })

export const listThreadsOperation = operation({
  method: 'get',
  path: '/threads',
  id: 'listThreads',
  group: 'Stock',
  summary: 'Threads with what is held of them',
  description: 'By maker and line, the codes in the order of a drawer, or in the order of their colours.',
  query: z.strictObject({
    q: z.string().max(200).optional().meta({ description: 'Every word occurs in maker, line, code or name.' }),
    maker: idText.optional().meta({ description: 'Id of the maker.' }),
    line: idText.optional().meta({ description: 'Id of the line.' }),
    place: idText.optional().meta({ description: 'Id of a place it lives or is in, at any depth.' }),
    state: z.enum(['held', 'none', 'low', 'out']).optional(),
    family: z
      .enum([...colourFamilies, 'unknown'])
      .optional()
      .meta({ description: 'The family of its colour.' }),
    order: z.enum(['drawer', 'colour']).default('drawer').meta({ description: 'colour: by family, hue and lightness.' }),
    ...ownerQuery,
    ...numberedPageQuery,
  }),
  answer: z
    .strictObject({ ownerIds: ownerIdsField, total: z.int(), threads: z.array(threadSchema), next: nextField })
    .meta({ id: 'ThreadList' }),
  answerMeans: 'A page of threads.',
  example: {
    answer: {
      ownerIds: ['o1'],
      total: 1,
      threads: [
        {
          thread: exampleThread,
          strands: 6,
          putUpWord: 'skein',
          putUpStrandTenths: 480_000,
          lotsMatter: false,
          ownedStrandTenths: 960_000,
          outStrandTenths: 0,
          promisedStrandTenths: 0,
          freeStrandTenths: 960_000,
          wholePutUps: 2,
          freePutUps: 2,
          minimumPutUps: null,
          lab: { L: 38.2, a: 2.1, b: -4.7 },
          labCertainty: 'label',
          family: 'grey',
          isLeaving: false,
          isSomeOwned: false,
          homes: [exampleHome],
          away: [],
        },
      ],
      next: null,
    },
  },
})

const batchSchema = z
  .strictObject({
    batchId: z.string(),
    version: z.int().meta({ description: 'Hand it back with a change, to be told when somebody else changed the batch first.' }),
    ownerId: z.string(),
    lot: z.string().nullable(),
    putUpWord: z
      .string()
      .nullable()
      .meta({ description: 'What one is called: skein, hank, spool, card, cut. Null: as the line says.' }),
    putUpStrandTenths: z.int(),
    wholePutUps: z.int(),
    partStrandTenths: z.int(),
    partCertainty: z.enum(partCertainties),
    ...whereaboutsFields,
    promises: z.array(z.strictObject({ projectId: z.string(), title: z.string(), strandTenths: z.int() })),
  })
  .meta({ id: 'Batch' })

export const getThread = operation({
  method: 'get',
  path: '/threads/{threadId}',
  id: 'getThread',
  group: 'Stock',
  summary: 'One thread, batch by batch',
  pathParameters: z.strictObject({ threadId: idText }),
  query: z.strictObject(ownerQuery),
  answer: z
    .strictObject({
      ownerIds: ownerIdsField,
      thread: threadRefSchema,
      lineId: z.string().meta({ description: 'The line’s own id, for how it is sold.' }),
      strands: z.int(),
      putUpStrandTenths: z.int(),
      lotsMatter: z.boolean(),
      batches: z.array(batchSchema),
      standIns: z.array(threadRefSchema),
    })
    .meta({ id: 'ThreadDetail' }),
  answerMeans: 'The thread and its stock.',
  problems: ['not-found'],
  example: {
    answer: {
      ownerIds: ['o1'],
      thread: exampleThread,
      lineId: 'l1',
      strands: 6,
      putUpStrandTenths: 480_000,
      lotsMatter: false,
      batches: [
        {
          batchId: 'b1',
          version: 0,
          ownerId: 'o1',
          lot: null,
          putUpWord: null,
          putUpStrandTenths: 480_000,
          wholePutUps: 2,
          partStrandTenths: 0,
          partCertainty: 'none',
          home: exampleHome,
          current: exampleHome,
          promises: [],
        },
      ],
      standIns: [],
    },
  },
})

export const listClothOperation = operation({
  method: 'get',
  path: '/cloth',
  id: 'listCloth',
  group: 'Stock',
  summary: 'Pieces of cloth held',
  description: 'Single-thread cloths first, coarse before fine; where a count is asked for, the nearest to it first.',
  query: z.strictObject({
    weave: z.enum(weaves).optional(),
    count: z.string().max(100).optional().meta({
      description: 'A count, or cloth near it: the mean of ends and picks within 5 %, so that 32 takes in 31 × 33.',
      example: '32',
    }),
    sizeAtLeast: z.string().max(100).optional().meta({
      description: 'Weft × warp, in inches where no unit is written; the other way about too for a piece that may be turned.',
      example: '14 x 18 in',
    }),
    colour: shortText.optional().meta({
      description:
        'In words, all of which have to hold: a family (`blue`), two that it lies between (`grey-blue`), or its name. By the recorded colour and by the words of its name.',
    }),
    free: flagQuery.optional().meta({ description: 'Only pieces that no project and no plan of cuts keeps.' }),
    ...ownerQuery,
    ...pageQuery,
  }),
  answer: z
    .strictObject({
      ownerIds: ownerIdsField,
      total: z.int(),
      pieces: z.array(
        z.strictObject({
          clothPieceId: z.string(),
          version: z.int(),
          ownerId: z.string(),
          label: z.string().nullable(),
          name: z.string(),
          colourName: z.string().nullable(),
          weave: z.enum(weaves),
          ends: countSchema,
          picks: countSchema,
          countText: z.string(),
          widthUm: z.int(),
          heightUm: z.int(),
          sizeText: z.string(),
          isSquared: z.boolean(),
          isTurnable: z.boolean(),
          isCountStale: z.boolean().meta({ description: 'It was washed since its threads were counted.' }),
          dyeing: orNull(z.enum(clothDyeings)),
          washState: z.enum(washStates).meta({ description: '`never`: not to be washed.' }),
          isOffcut: z.boolean(),
          reservedBy: z.array(z.strictObject({ projectId: z.string(), title: z.string() })),
          plannedIn: z
            .array(z.strictObject({ cutPlanId: z.string(), title: z.string() }))
            .meta({ description: 'Plans of cuts that keep it.' }),
          ...whereaboutsFields,
        }),
      ),
      next: nextField,
    })
    .meta({ id: 'ClothList' }),
  answerMeans: 'A page of pieces.',
  example: {
    answer: {
      ownerIds: ['o1'],
      total: 1,
      pieces: [
        {
          clothPieceId: 'c1',
          version: 0,
          ownerId: 'o1',
          label: 'L-12',
          name: 'Harrowmere linen',
          colourName: 'Flax',
          weave: 'single',
          ends: { threads: 34, perUm: 25_400 },
          picks: { threads: 31, perUm: 25_400 },
          countText: '34 × 31 count',
          widthUm: 457_200,
          heightUm: 685_800,
          sizeText: '18 × 27 in',
          isSquared: true,
          isTurnable: true,
          isCountStale: false,
          dyeing: 'plain',
          washState: 'new',
          isOffcut: false,
          reservedBy: [],
          plannedIn: [],
          home: exampleHome,
          current: exampleHome,
        },
      ],
      next: null,
    },
  },
})

const movementSchema = z
  .strictObject({
    movementId: z.string(),
    revision: z.int().meta({ description: 'Lines of one change share it.' }),
    at: z.string().meta({ description: 'ISO 8601, UTC.' }),
    kind: z.enum(movementKinds),
    batch: orNull(z.strictObject({ batchId: z.string(), lot: z.string().nullable(), thread: threadRefSchema })),
    cloth: orNull(z.strictObject({ clothPieceId: z.string(), label: z.string().nullable(), name: z.string() })),
    chart: orNull(z.strictObject({ chartId: z.string(), title: z.string() })),
    notion: orNull(z.strictObject({ notionId: z.string(), name: z.string(), size: z.string().nullable() })),
    wholeDelta: z.int().meta({ description: 'Whole put-ups, pieces, copies or notions gained or lost.' }),
    partDeltaStrandTenths: z.int(),
    from: orNull(placeRefSchema),
    to: orNull(placeRefSchema),
    fromOwner: orNull(namedSchema),
    toOwner: orNull(namedSchema),
    project: orNull(z.strictObject({ projectId: z.string(), title: z.string() })),
    importId: z.string().nullable(),
    who: z.string().nullable(),
    reason: z.string().nullable(),
  })
  .meta({ id: 'Movement' })

const exampleMovement = {
  movementId: 'm1',
  revision: 413,
  at: '2026-09-08T09:30:00.000Z',
  kind: 'receive',
  batch: { batchId: 'b1', lot: null, thread: exampleThread },
  cloth: null,
  chart: null,
  notion: null,
  wholeDelta: 2,
  partDeltaStrandTenths: 0,
  from: null,
  to: exampleHome,
  fromOwner: null,
  toOwner: { id: 'o1', name: 'The Oxmarsh Needle Room' },
  project: null,
  importId: null,
  who: 'Nell Oxtoby',
  reason: null,
}

export const listMovementsOperation = operation({
  method: 'get',
  path: '/movements',
  id: 'listMovements',
  group: 'Stock',
  summary: 'The journal, latest first',
  query: z.strictObject({
    batch: idText.optional(),
    thread: idText.optional(),
    cloth: idText.optional(),
    chart: idText.optional(),
    notion: idText.optional(),
    project: idText.optional(),
    since: z
      .union([z.iso.date(), z.iso.datetime({ offset: true })])
      .transform((text) => new Date(text))
      .optional()
      .meta({ type: 'string', description: 'A day (from its start, UTC) or a moment, ISO 8601.' }),
    ...pageQuery,
  }),
  answer: z.strictObject({ movements: z.array(movementSchema), next: nextField }).meta({ id: 'MovementList' }),
  answerMeans: 'A page of the journal.',
  example: { answer: { movements: [exampleMovement], next: null } },
})

const putUpsHeld = z.int().min(0).max(10_000)
/** Ten kilometres of strand: more than any part of a put-up. */
const partStrandTenths = z.int().min(0).max(100_000_000)
const common = {
  who: shortText.nullable().default(null).meta({ description: 'Who did it, for the journal.' }),
  reason: shortText.nullable().default(null),
}
const batchEdit = {
  batchId: idText,
  version: z.int().min(0).optional().meta({ description: 'The version last seen; left out, the batch is taken as it stands.' }),
  ...common,
}
const part = shortText.optional().meta({
  description:
    'The part as one says it, instead of its length and certainty: `2.5 m` (measured), `1/2` (a guess), `3.1 g` (measured, where a full one’s weight is on record), `some`.',
  example: '1/2',
})
type SaidPart = { part?: string | undefined; partStrandTenths: number; partCertainty: string }
const partMatches = ({ part: said, partStrandTenths: length, partCertainty }: SaidPart): boolean =>
  said === undefined
    ? length > 0 === (partCertainty !== 'none' && partCertainty !== 'some')
    : length === 0 && partCertainty === 'none'
const parting = { wholePutUps: putUpsHeld.default(0), takesPart: z.boolean().default(false) }
const partRefusal = {
  path: ['partCertainty'],
  message: 'It contradicts the part length.',
  params: { accepted: 'none or some without a length; measured, label or guess with one; neither beside `part`' },
}

export const addMovement = operation({
  method: 'post',
  path: '/movements',
  id: 'addMovement',
  group: 'Stock',
  summary: 'Receive, use, move, take, return, correct, relabel, pass on, part or lay together thread',
  description:
    'The verb is `kind`. Receive lays thread with an equal batch at its home or makes a new one. Use draws a length from a batch, the part first, or uses up all of it. Move takes the whole batch, for a while or to live there. Take carries some put-ups out. Return puts a batch back where it lives. Correct sets what was counted, relabel what the label says. Transfer passes a batch, or some of it, to another owner. Split parts a batch in two, merge lays two equal ones together.',
  body: z
    .discriminatedUnion('kind', [
      z
        .strictObject({
          kind: z.literal('receive'),
          threadId: idText,
          ownerId: idText,
          lot: shortText.nullable().default(null),
          putUpWord: shortText.nullable().default(null).meta({ description: 'Null for the line’s own word.' }),
          putUpStrandTenths: putUpStrandTenths.nullable().default(null).meta({ description: 'Null for the line’s own put-up.' }),
          wholePutUps: putUpsHeld.default(0),
          partStrandTenths: partStrandTenths.default(0),
          partCertainty: z.enum(partCertainties).default('none'),
          part,
          homePlaceId: idText.nullable(),
          ...common,
        })
        .refine(partMatches, partRefusal),
      z.strictObject({
        kind: z.literal('use'),
        ...batchEdit,
        strandTenths: z.union([z.int().min(1).max(1_000_000_000), z.literal('all')]),
        projectId: idText.nullable().default(null),
      }),
      z.strictObject({ kind: z.literal('move'), ...batchEdit, toPlaceId: idText, becomesHome: z.boolean() }),
      z
        .strictObject({
          kind: z.literal('take'),
          ...batchEdit,
          wholePutUps: putUpsHeld.default(0),
          takesPart: z.boolean().default(false),
          toPlaceId: idText,
          projectId: idText.nullable().default(null),
        })
        .refine((take) => take.wholePutUps > 0 || take.takesPart, {
          path: ['wholePutUps'],
          message: 'Nothing is taken.',
          params: { accepted: 'at least 1, or takesPart' },
        }),
      z.strictObject({ kind: z.literal('return'), ...batchEdit, projectId: idText.nullable().default(null) }),
      z
        .strictObject({
          kind: z.literal('correct'),
          ...batchEdit,
          reason: shortText,
          wholePutUps: putUpsHeld,
          partStrandTenths: partStrandTenths.default(0),
          partCertainty: z.enum(partCertainties).default('none'),
          part,
        })
        .refine(partMatches, partRefusal),
      z.strictObject({
        kind: z.literal('relabel'),
        ...batchEdit,
        reason: shortText,
        lot: shortText.nullable(),
        putUpWord: shortText.nullable().optional().meta({ description: 'Left out: as it was. Null: as the line says.' }),
        putUpStrandTenths,
      }),
      z.strictObject({
        kind: z.literal('transfer'),
        ...batchEdit,
        toOwnerId: idText,
        parting: orNull(z.strictObject(parting)).default(null).meta({ description: 'What of it; null for all.' }),
      }),
      z.strictObject({
        kind: z.literal('split'),
        ...batchEdit,
        ...parting,
        homePlaceId: idText
          .nullable()
          .optional()
          .meta({ description: 'Where the new batch is to live; as the old one when left out.' }),
        currentPlaceId: idText.nullable().optional().meta({ description: 'Where it is; in its new home when left out.' }),
      }),
      z.strictObject({
        kind: z.literal('merge'),
        ...batchEdit,
        intoBatchId: idText,
        intoVersion: z.int().min(0).optional(),
      }),
    ])
    .meta({ id: 'MovementRequest' }),
  answerStatus: 201,
  answer: z
    .strictObject({
      batchId: z.string().meta({ description: 'The batch split off, the one it was laid with, or the one changed.' }),
      revision: z.int(),
      movements: z.array(movementSchema),
    })
    .meta({ id: 'MovementAnswer' }),
  answerMeans: 'Done, with its lines of the journal.',
  problems: ['refused'],
  takesIdempotencyKey: true,
  example: {
    body: { kind: 'receive', threadId: 't1', ownerId: 'o1', wholePutUps: 2, homePlaceId: 'p2', who: 'Nell Oxtoby' },
    answer: { batchId: 'b1', revision: 413, movements: [exampleMovement] },
  },
})
