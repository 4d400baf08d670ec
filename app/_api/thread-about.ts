import { z } from 'zod'
import { projectStatuses } from '#lib/project/life-cycle'
import { ownerIdsField, ownerQuery, placeRefSchema } from './collection'
import { threadRefSchema } from './cover'
import { operation } from './operation'
import { idText, orNull } from './quantities'
import { exampleThread } from './stock'

const projectRefs = z.array(z.strictObject({ projectId: z.string(), title: z.string() }))
const opinions = z.array(z.strictObject({ source: z.string(), thread: threadRefSchema }))

export const getThreadAbout = operation({
  method: 'get',
  path: '/threads/{threadId}/about',
  id: 'getThreadAbout',
  group: 'Stock',
  summary: 'Everything around one thread but its batches and its journal',
  description:
    'What each owner holds, never summed; where every batch is and in whose bag; projects under way that hold some; orders and rules; the designs that use it, those that wait for it first (at most 40 of each page); where it lived before; stand-ins accepted and said; barcodes. Batches are told by the thread itself, the journal by the movements.',
  pathParameters: z.strictObject({ threadId: idText }),
  query: z.strictObject({
    ...ownerQuery,
    designsPage: z.coerce.number().int().min(1).max(1_000_000).default(1),
  }),
  answer: z
    .strictObject({
      ownerIds: ownerIdsField,
      thread: threadRefSchema,
      family: z.string().nullable(),
      isLeaving: z.boolean(),
      minimumPutUps: z.int().nullable(),
      note: z.string().nullable(),
      owners: z.array(
        z.strictObject({
          ownerId: z.string(),
          name: z.string(),
          ownedStrandTenths: z.int(),
          outStrandTenths: z.int(),
          promisedStrandTenths: z.int(),
          freeStrandTenths: z.int(),
          wholePutUps: z.int(),
          isSomeOwned: z.boolean(),
        }),
      ),
      whereabouts: z
        .array(
          z.strictObject({
            batchId: z.string(),
            lot: z.string().nullable(),
            wholePutUps: z.int(),
            home: orNull(placeRefSchema),
            current: orNull(placeRefSchema),
            isOut: z.boolean(),
            outSince: z.string().nullable(),
            inBagOf: projectRefs.meta({ description: 'Projects whose bag it lies in.' }),
            promisedTo: projectRefs,
          }),
        )
        .meta({
          description: 'Where each batch is that is not used up: at home first, then what is out, the longest out first.',
        }),
      projects: z.array(
        z.strictObject({
          projectId: z.string(),
          title: z.string(),
          status: z.enum(projectStatuses),
          bag: orNull(placeRefSchema),
          promisedStrandTenths: z.int(),
          inBagStrandTenths: z.int(),
          outSince: z.string().nullable(),
        }),
      ),
      orders: z.array(
        z.strictObject({
          orderId: z.string(),
          ownerId: z.string(),
          putUps: z.int(),
          receivedPutUps: z.int(),
          putUpStrandTenths: z.int(),
          lot: z.string().nullable(),
          supplier: z.string().nullable(),
          orderedOn: z.string(),
          expectedOn: z.string().nullable(),
        }),
      ),
      formerHomes: z.array(z.strictObject({ place: placeRefSchema, until: z.string(), batchIds: z.array(z.string()) })),
      designCount: z.int(),
      waitingCount: z.int(),
      designs: z.array(
        z.strictObject({
          designId: z.string(),
          title: z.string(),
          waits: z.boolean(),
          lists: z.array(
            z.strictObject({
              listId: z.string(),
              name: z.string(),
              needStrandTenths: z.int(),
              shortStrandTenths: z.int(),
            }),
          ),
        }),
      ),
      opinions: opinions.meta({ description: 'What lists say answers to it.' }),
      opinionsFor: opinions.meta({ description: 'What lists say it answers to.' }),
      barcodes: z.array(z.string()),
    })
    .meta({ id: 'ThreadAbout' }),
  answerMeans: 'All of it.',
  problems: ['not-found'],
  example: {
    answer: {
      ownerIds: ['o1'],
      thread: exampleThread,
      family: null,
      isLeaving: false,
      minimumPutUps: 2,
      note: null,
      owners: [
        {
          ownerId: 'o1',
          name: 'The Oxmarsh Needle Room',
          ownedStrandTenths: 1_440_000,
          outStrandTenths: 480_000,
          promisedStrandTenths: 0,
          freeStrandTenths: 960_000,
          wholePutUps: 3,
          isSomeOwned: false,
        },
      ],
      whereabouts: [
        {
          batchId: 'b2',
          lot: null,
          wholePutUps: 1,
          home: { placeId: 'p2', label: 'T2.1-14' },
          current: { placeId: 'p7', label: 'K-07' },
          isOut: true,
          outSince: '2026-09-01T10:00:00.000Z',
          inBagOf: [{ projectId: 'k1', title: 'Rook Hill in Snow' }],
          promisedTo: [{ projectId: 'k1', title: 'Rook Hill in Snow' }],
        },
      ],
      projects: [
        {
          projectId: 'k1',
          title: 'Rook Hill in Snow',
          status: 'stitching',
          bag: { placeId: 'p7', label: 'K-07' },
          promisedStrandTenths: 480_000,
          inBagStrandTenths: 480_000,
          outSince: '2026-09-01T10:00:00.000Z',
        },
      ],
      orders: [],
      formerHomes: [{ place: { placeId: 'p1', label: 'T1.3' }, until: '2026-03-01T09:00:00.000Z', batchIds: ['b1'] }],
      designCount: 1,
      waitingCount: 0,
      designs: [
        {
          designId: 'd1',
          title: 'Rook Hill in Snow',
          waits: false,
          lists: [{ listId: 'g1', name: 'Cotton', needStrandTenths: 320_000, shortStrandTenths: 0 }],
        },
      ],
      opinions: [],
      opinionsFor: [],
      barcodes: ['02012345678903'],
    },
  },
})
