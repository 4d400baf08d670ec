import { z } from 'zod'
import { clothDyeings, washStates, weaves } from '#lib/cloth/cloth-piece'
import { colourFamilies } from '#lib/colour/family'
import { partCertainties } from '#lib/stock/batch'
import { flagQuery, ownerIdsField, ownerQuery, placeRefSchema, whereaboutsFields } from './collection'
import { colourFields } from './colour'
import { threadRefSchema } from './cover'
import { operation } from './operation'
import { nextField, numberedPageQuery, pageQuery } from './paging'
import { countSchema, idText, orNull, shortText } from './quantities'

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
    designCount: z.int().meta({ description: 'How many designs have a list that uses it.' }),
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
          designCount: 12,
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
