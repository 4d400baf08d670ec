import { z } from 'zod'
import { ownerIdsField, ownerQuery, placeRefSchema } from './collection'
import { threadRefSchema } from './cover'
import { operation } from './operation'
import { idText, orNull, shortText } from './quantities'
import { exampleHome, exampleThread } from './stock'

const projectPath = z.strictObject({ projectId: idText })
const who = shortText.nullable().default(null).meta({ description: 'Who did it, for the journal.' })

const brokenSchema = z
  .strictObject({
    projectId: z.string(),
    title: z.string(),
    thread: threadRefSchema,
    batchId: z.string(),
    lot: z.string().nullable(),
    promisedStrandTenths: z.int(),
    supportedStrandTenths: z.int().meta({ description: 'What of it the batch still has for this project.' }),
    why: z.enum(['gone', 'other-owner', 'not-enough']),
  })
  .meta({ id: 'BrokenPromise' })

const exampleBroken = {
  projectId: 'j1',
  title: 'Rook Hill in Snow',
  thread: exampleThread,
  batchId: 'b1',
  lot: null,
  promisedStrandTenths: 772_645,
  supportedStrandTenths: 480_000,
  why: 'not-enough',
}

export const listBrokenPromisesOperation = operation({
  method: 'get',
  path: '/promises/broken',
  id: 'listBrokenPromises',
  group: 'Projects',
  summary: 'Promises that stock no longer supports',
  description:
    'Stock was corrected down, used, lost or passed on after it had been promised. What a batch still holds goes first to the project in whose bag it lies, then to the oldest promise; those that come too late are listed.',
  query: z.strictObject(ownerQuery),
  answer: z.strictObject({ ownerIds: ownerIdsField, promises: z.array(brokenSchema) }).meta({ id: 'BrokenPromiseList' }),
  answerMeans: 'The oldest first.',
  example: { answer: { ownerIds: ['o1'], promises: [exampleBroken] } },
})

const kitsSchema = z
  .strictObject({ copies: z.int(), promised: z.int(), more: z.int() })
  .meta({ description: 'For several copies: how many of them are served, a cut never being joined, and how many more could be.' })

export const getProjectStock = operation({
  method: 'get',
  path: '/projects/{projectId}/stock',
  id: 'getProjectStock',
  group: 'Projects',
  summary: 'What a project needs, what it was promised and from which batch, what it is worked in',
  pathParameters: projectPath,
  answer: z
    .strictObject({
      version: z.int().meta({ description: 'Of the project.' }),
      needs: z
        .array(
          z.strictObject({
            thread: threadRefSchema,
            insteadOf: z.array(threadRefSchema).meta({ description: 'Threads of the key it stands in for.' }),
            needStrandTenths: z.int(),
            promisedStrandTenths: z.int(),
            freeBesideStrandTenths: z.int().meta({ description: 'Free to it beyond what it is promised.' }),
            kits: orNull(kitsSchema),
          }),
        )
        .meta({ description: 'In the order of the key.' }),
      promises: z
        .array(
          z.strictObject({
            thread: threadRefSchema,
            batchId: z.string(),
            lot: z.string().nullable(),
            place: orNull(placeRefSchema),
            isInBag: z.boolean(),
            promisedStrandTenths: z.int(),
            heldStrandTenths: z.int(),
            take: z.strictObject({ wholePutUps: z.int(), takesPart: z.boolean() }),
          }),
        )
        .meta({ description: 'In walking order.' }),
      broken: z.array(brokenSchema),
      swaps: z.array(z.strictObject({ thread: threadRefSchema, standIn: threadRefSchema, reason: z.string().nullable() })),
    })
    .meta({ id: 'ProjectStock' }),
  answerMeans: 'Its stock.',
  problems: ['not-found'],
  example: {
    answer: {
      version: 0,
      needs: [
        {
          thread: exampleThread,
          insteadOf: [],
          needStrandTenths: 772_645,
          promisedStrandTenths: 772_645,
          freeBesideStrandTenths: 187_355,
          kits: null,
        },
      ],
      promises: [
        {
          thread: exampleThread,
          batchId: 'b1',
          lot: null,
          place: exampleHome,
          isInBag: false,
          promisedStrandTenths: 772_645,
          heldStrandTenths: 960_000,
          take: { wholePutUps: 2, takesPart: false },
        },
      ],
      broken: [],
      swaps: [],
    },
  },
})

const change = {
  method: 'post',
  group: 'Projects',
  pathParameters: projectPath,
  problems: ['not-found', 'refused'],
  takesIdempotencyKey: true,
} as const

export const promiseStockOperation = operation({
  ...change,
  path: '/projects/{projectId}/promises',
  id: 'promiseStock',
  summary: 'Promise a project a length of one batch, or give it back',
  description: 'It takes the place of what the project was promised of that batch before; 0 gives it back.',
  body: z
    .strictObject({
      batchId: idText,
      version: z.int().min(0).optional().meta({ description: 'Of the batch; left out, it is taken as it stands.' }),
      strandTenths: z.int().min(0).max(1_000_000_000),
      who,
    })
    .meta({ id: 'PromiseRequest' }),
  answer: z.strictObject({ batchId: z.string(), strandTenths: z.int() }).meta({ id: 'PromiseAnswer' }),
  answerMeans: 'Promised, or given back.',
  example: { body: { batchId: 'b1', strandTenths: 480_000 }, answer: { batchId: 'b1', strandTenths: 480_000 } },
})

const promisedFields = {
  promised: z.array(z.strictObject({ thread: threadRefSchema, batchId: z.string(), strandTenths: z.int() })),
  short: z.array(z.strictObject({ thread: threadRefSchema, shortStrandTenths: z.int() })),
}
const examplePromised = { promised: [{ thread: exampleThread, batchId: 'b1', strandTenths: 772_645 }], short: [] }
const projectVersion = {
  version: z.int().min(0).optional().meta({ description: 'The version last seen; left out, the project is taken as it stands.' }),
}

export const promiseAgainOperation = operation({
  ...change,
  path: '/projects/{projectId}/promise-again',
  id: 'promiseAgain',
  summary: 'Choose its promises anew from what is free now',
  description: 'Mends promises that stock no longer supports. Once something is in its bag, what still holds stays as it is.',
  body: z.strictObject({ ...projectVersion, who }).meta({ id: 'PromiseAgainRequest' }),
  answer: z.strictObject(promisedFields).meta({ id: 'PromisedAgain' }),
  answerMeans: 'All it is promised, and what is still short.',
  example: { body: {}, answer: examplePromised },
})

export const setProjectSwapOperation = operation({
  ...change,
  path: '/projects/{projectId}/swaps',
  id: 'setProjectSwap',
  summary: 'Work one colour of the key in another thread, or as charted again',
  description:
    'Its promises follow. Refused once the thread lies in the bag, and where two colours of the key would come to be one.',
  body: z
    .strictObject({
      ...projectVersion,
      threadId: idText.meta({ description: 'As charted.' }),
      standInThreadId: idText.nullable().meta({ description: 'Null for as charted.' }),
      reason: shortText.nullable().default(null),
      mayMerge: z.boolean().default(false).meta({ description: 'Two colours of the key may become one thread.' }),
      who,
    })
    .meta({ id: 'ProjectSwapRequest' }),
  answer: z.strictObject(promisedFields).meta({ id: 'ProjectSwapAnswer' }),
  answerMeans: 'All it is promised now, and what is short.',
  example: {
    body: { threadId: 't1', standInThreadId: 't2', reason: 'seen by daylight' },
    answer: examplePromised,
  },
})
