import { z } from 'zod'
import { partCertainties } from '#lib/stock/batch'
import { thingOutcomes } from '#lib/stock/unpack'
import { placeRefSchema } from './collection'
import { threadRefSchema } from './cover'
import { operation } from './operation'
import { idText, orNull, shortText } from './quantities'
import { exampleThread } from './stock'

const pathParameters = z.strictObject({ placeId: idText })
const version = z.int().min(0).optional().meta({ description: 'The version last seen; left out, it is taken as it stands.' })
const tag = z.strictObject({ projectId: z.string(), title: z.string() })

export const getUnpackSheet = operation({
  ...({ method: 'get', path: '/places/{placeId}/unpack', id: 'getUnpackSheet', group: 'Places' } as const),
  summary: 'What is in a bag and lives elsewhere',
  description: 'Of every owner, in walking order of the homes. What is on a put-back list or being looked for is not among it.',
  pathParameters,
  answer: z
    .strictObject({
      threads: z.array(
        z.strictObject({
          batchId: z.string(),
          version: z.int(),
          thread: threadRefSchema,
          lot: z.string().nullable(),
          owner: z.string(),
          wholePutUps: z.int(),
          partStrandTenths: z.int(),
          partCertainty: z.enum(partCertainties),
          home: orNull(placeRefSchema),
          projects: z.array(tag).meta({ description: 'What it may have been used for, the likeliest first.' }),
        }),
      ),
      things: z.array(
        z.strictObject({
          noun: z.enum(['cloth', 'chart', 'notion']),
          id: z.string(),
          version: z.int(),
          name: z.string(),
          owner: z.string(),
          home: orNull(placeRefSchema),
        }),
      ),
      projects: z.array(z.strictObject({ projectId: z.string(), title: z.string(), status: z.string() })),
      onLists: z.array(z.strictObject({ walkId: z.string(), title: z.string(), things: z.int() })),
      missing: z.int().meta({ description: 'Open questions about what was last seen here.' }),
    })
    .meta({ id: 'UnpackSheet' }),
  answerMeans: 'The sheet.',
  problems: ['not-found'],
  example: {
    answer: {
      threads: [
        {
          ...{ batchId: 'b1', version: 1, thread: exampleThread, lot: null, owner: 'The Oxmarsh Needle Room' },
          ...{ wholePutUps: 2, partStrandTenths: 0, partCertainty: 'none', home: { placeId: 'p2', label: 'T2.2-05' } },
          projects: [{ projectId: 'j1', title: 'Kettle at Wend Cross' }],
        },
      ],
      ...{ things: [], projects: [], onLists: [], missing: 0 },
    },
  },
})

const plainOutcomes = ['as-it-was', 'used-up', 'not-there', 'stays'] as const
const outcomeSchema = z.union([
  z.strictObject({ kind: z.enum(plainOutcomes) }),
  z.strictObject({ kind: z.literal('left'), how: z.literal('measured'), strandTenths: z.int().min(0).max(1_000_000_000) }),
  z.strictObject({ kind: z.literal('left'), how: z.literal('weighed'), milligrams: z.int().min(0).max(100_000_000) }),
  z.strictObject({ kind: z.literal('left'), how: z.literal('guess'), putUpHundredths: z.int().min(0).max(1_000_000) }),
])
const thingsField = z
  .array(z.strictObject({ id: idText, version, outcome: z.enum(thingOutcomes) }))
  .max(800)
  .default([])

export const unpackBagOperation = operation({
  ...({ method: 'post', path: '/places/{placeId}/unpack', id: 'unpackBag', group: 'Places' } as const),
  summary: 'Unpack a bag: what was used, what is left, what is not there',
  description:
    'In one change: what was used is used up, what is not there stays out, last seen here, with an open question, and the rest becomes a put-back list in walking order. The record has that in the bag until it is ticked home. What is not named stays.',
  pathParameters,
  body: z
    .strictObject({
      threads: z
        .array(
          z.strictObject({
            batchId: idText,
            version,
            outcome: outcomeSchema.meta({ description: '`left` is of all of the batch, by ruler, scales or eye.' }),
            notThere: z
              .int()
              .min(0)
              .max(1_000_000)
              .default(0)
              .meta({ description: 'Whole put-ups of it that were not in the bag.' }),
            projectId: idText.nullable().default(null).meta({ description: 'What it was used for.' }),
          }),
        )
        .max(800)
        .default([]),
      cloth: thingsField,
      charts: thingsField,
      notions: thingsField,
      freedProjectIds: z.array(idText).max(100).default([]).meta({
        description: 'Projects under way that what goes back is promised to no more; one that was kitted is planned again.',
      }),
      title: shortText.optional().meta({ description: 'Of the list; left out, the label of the place.' }),
      who: shortText.nullable().default(null),
    })
    .meta({ id: 'UnpackBagRequest' }),
  answer: z
    .strictObject({
      walkId: z.string().nullable().meta({ description: 'The list to tick; null when nothing goes back.' }),
      check: z
        .strictObject({ pulled: z.int(), back: z.int(), usedUp: z.int(), missing: z.int(), stays: z.int() })
        .meta({ description: 'Put-ups, a part counting as one: pulled = back + used up + missing + staying.' }),
      back: z
        .array(
          z.strictObject({
            thread: threadRefSchema,
            batchId: z.string(),
            lot: z.string().nullable(),
            place: orNull(placeRefSchema),
            wholePutUps: z.int(),
            partStrandTenths: z.int(),
          }),
        )
        .meta({ description: 'Thread, in walking order.' }),
      usedUp: z.array(z.strictObject({ thread: threadRefSchema, lot: z.string().nullable(), putUps: z.int() })),
      missing: z.array(z.strictObject({ thread: threadRefSchema, batchId: z.string(), putUps: z.int() })),
      missingIds: z.array(z.string()).meta({ description: 'The questions that were opened.' }),
    })
    .meta({ id: 'UnpackedBag' }),
  answerMeans: 'What goes back where, what is used up and what is missing.',
  problems: ['not-found', 'refused'],
  takesIdempotencyKey: true,
  example: {
    body: { threads: [{ batchId: 'b1', outcome: { kind: 'left', how: 'guess', putUpHundredths: 80 } }] },
    answer: {
      ...{ walkId: 'w1', check: { pulled: 2, back: 1, usedUp: 1, missing: 0, stays: 0 } },
      back: [
        {
          ...{ thread: exampleThread, batchId: 'b1', lot: null, place: { placeId: 'p2', label: 'T2.2-05' } },
          ...{ wholePutUps: 0, partStrandTenths: 384_000 },
        },
      ],
      usedUp: [{ thread: exampleThread, lot: null, putUps: 1 }],
      ...{ missing: [], missingIds: [] },
    },
  },
})

export const unpackOperations = [getUnpackSheet, unpackBagOperation] as const
