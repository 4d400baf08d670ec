import { z } from 'zod'
import { certainties } from '#lib/quantity/certainty'
import { namedSchema, ownerIdsField, ownerQuery } from './collection'
import { threadRefSchema } from './cover'
import { operation } from './operation'
import { idText, orNull } from './quantities'
import { exampleThread } from './stock'

const kitLotSchema = z.strictObject({ lot: z.string().nullable(), freeStrandTenths: z.int(), kits: z.int() }).meta({
  id: 'KitLot',
  description: 'One marked lot, or one batch without a mark, and the kits it gives by itself.',
})

const kitsClothSchema = z
  .strictObject({
    wanted: z.int(),
    onHand: z.int(),
    toBuy: z.int(),
    from: z.array(z.strictObject({ pieceId: z.string(), gives: z.int(), takes: z.int() })).meta({
      description: 'The pieces to cut, all of one cloth, offcuts first. `gives` counts no further than what is wanted.',
    }),
    otherCloths: z
      .array(z.strictObject({ gives: z.int(), like: z.string() }))
      .meta({ description: 'Cloth on hand that would serve but looks different.' }),
    bought: orNull(
      z.strictObject({
        cutWidthUm: z.int(),
        cutHeightUm: z.int(),
        toBuyUm: z
          .int()
          .nullable()
          .meta({ description: 'Length off the bolt of the settings; null when it is not wide enough.' }),
        gives: z.int(),
      }),
    ),
    isProved: z.boolean().meta({ description: 'No piece gives more by straight cuts from edge to edge.' }),
    text: z.string(),
  })
  .meta({ id: 'KitsCloth' })

export const getDesignKits = operation({
  method: 'get',
  path: '/designs/{designId}/kits',
  id: 'getDesignKits',
  group: 'Designs',
  summary: 'How many kits of a design can be made, and what stops the next one',
  description:
    '`kits` counts free thread alone; `cloth` says what of it is on hand and what to buy. Each kit has its length of a thread as one cut without a join, so what is left of a put-up too short for another cut is not counted on; of a thread whose lots matter all kits come from one lot.',
  pathParameters: z.strictObject({ designId: idText }),
  query: z.strictObject({
    list: idText.optional().meta({ description: 'Id of the thread list; the nearest to stitching when left out.' }),
    piece: idText.optional().meta({ description: 'Id of a piece of cloth to reckon on instead of the advised one.' }),
    over: z.enum(['1', '2']).transform(Number).optional(),
    kits: z.coerce.number().int().min(1).max(9_999).default(1),
    spares: z.coerce
      .number()
      .int()
      .min(0)
      .max(9_999)
      .optional()
      .meta({ description: 'One to each dozen begun, at least one, when left out.' }),
    ...ownerQuery,
  }),
  answer: z
    .strictObject({
      ownerIds: ownerIdsField,
      designId: z.string(),
      list: namedSchema,
      isIncomplete: z.boolean().meta({ description: 'Part of the key is not in.' }),
      asked: z.int(),
      spares: z.int(),
      kits: z.int().meta({ description: 'How many can be made now.' }),
      stops: z
        .array(z.strictObject({ thread: threadRefSchema, toBuyPutUps: z.int() }))
        .meta({ description: 'What stops the next one, and what to buy of it for one more.' }),
      threads: z.array(
        z.strictObject({
          thread: threadRefSchema,
          certainty: z.enum(certainties).meta({ description: 'Of the length of a kit.' }),
          perKitStrandTenths: z.int(),
          putUpStrandTenths: z.int(),
          cutsPerPutUp: z.int().meta({ description: '0 where a kit takes more than one put-up.' }),
          putUpsForAll: z.int().meta({ description: 'For the kits asked about and their spares, bought new.' }),
          freeStrandTenths: z.int(),
          kits: z.int(),
          lotsMatter: z.boolean(),
          lot: z.string().nullable().meta({ description: 'The lot those kits are of, where lots matter.' }),
          lots: z.array(kitLotSchema),
          isOneLot: z.boolean().meta({ description: 'One lot gives all kits asked about and their spares.' }),
          toBuyPutUps: z.int(),
          lotToMatch: z.string().nullable().meta({ description: 'The lot that what is bought is to match.' }),
        }),
      ),
      beadsPerKit: z.int(),
      cloth: orNull(kitsClothSchema).meta({
        description: 'For the kits asked about and their spares; null where the size, or the count to work on, is not known.',
      }),
      charts: z
        .strictObject({ isFile: z.boolean(), wanted: z.int(), onRecord: z.int(), toBuy: z.int() })
        .meta({ description: 'One bought chart to a kit, none to a spare. A file is one person’s and is not packed.' }),
      underWay: z
        .array(
          z.strictObject({
            projectId: z.string(),
            quantity: z.int(),
            status: z.string(),
            promisedThreadCount: z.int(),
            mixed: z.array(
              z.strictObject({ thread: threadRefSchema, lotsMatter: z.boolean(), lots: z.array(z.string().nullable()) }),
            ),
          }),
        )
        .meta({ description: 'Kit batches of the design, and which threads were promised to them out of several lots.' }),
    })
    .meta({ id: 'DesignKits' }),
  answerMeans: 'The count, thread by thread in the order of the key.',
  problems: ['not-found'],
  example: {
    answer: {
      ownerIds: ['o1'],
      designId: 'd1',
      list: { id: 'l1', name: 'Cotton' },
      isIncomplete: false,
      asked: 12,
      spares: 1,
      kits: 7,
      stops: [{ thread: exampleThread, toBuyPutUps: 1 }],
      threads: [
        {
          thread: exampleThread,
          certainty: 'measured',
          perKitStrandTenths: 186_000,
          putUpStrandTenths: 480_000,
          cutsPerPutUp: 2,
          putUpsForAll: 7,
          freeStrandTenths: 1_700_000,
          kits: 7,
          lotsMatter: false,
          lot: null,
          lots: [{ lot: '18', freeStrandTenths: 1_700_000, kits: 7 }],
          isOneLot: false,
          toBuyPutUps: 3,
          lotToMatch: null,
        },
      ],
      beadsPerKit: 0,
      cloth: {
        wanted: 13,
        onHand: 8,
        toBuy: 5,
        from: [
          { pieceId: 'c4', gives: 2, takes: 2 },
          { pieceId: 'c9', gives: 6, takes: 6 },
        ],
        otherCloths: [],
        bought: { cutWidthUm: 254_000, cutHeightUm: 254_000, toBuyUm: 342_900, gives: 5 },
        isProved: true,
        text: '8 kits from what is on hand: 2 from L-04 and 6 from L-09.',
      },
      charts: { isFile: false, wanted: 12, onRecord: 1, toBuy: 11 },
      underWay: [],
    },
  },
})
