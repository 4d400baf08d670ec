import { z } from 'zod'
import type { ManyRefused } from '#lib/db/place/add-many-places'
import { mostPlaces } from '#lib/place/label-pattern'
import { givenPlaceKinds, placeKinds } from '#lib/place/place'
import { mostLabelPatterns } from '#lib/settings/settings'
import { placeRefSchema } from './collection'
import { operation } from './operation'
import { notFound, Problem } from './problem'
import { idText, noteText, orNull, shortText } from './quantities'

const placePath = z.strictObject({ placeId: idText })
const versionField = z.int().min(0).meta({ description: 'The version of the place as it was seen.' })
const putUpsField = z
  .array(z.strictObject({ putUpWord: shortText.max(30), most: z.int().min(1).max(1_000_000) }))
  .max(20)
  .meta({ description: 'How many of each kind of put-up it takes: 6 skeins or 12 cards.' })

const cardFields = {
  label: shortText.max(60).meta({ description: 'Just as it is written on it.' }),
  name: shortText.max(120).nullable().default(null),
  kind: z.enum(givenPlaceKinds),
  walkOrder: z.int().min(0).max(1_000_000).nullable().default(null),
  capacity: z.int().min(0).max(1_000_000).nullable().default(null),
  note: noteText.max(1_000).nullable().default(null),
  putUps: putUpsField.optional(),
}

export const addPlaceOperation = operation({
  method: 'post',
  path: '/places',
  id: 'addPlace',
  group: 'Places',
  summary: 'Add a place',
  body: z.strictObject({ ...cardFields, parentId: orNull(idText).default(null) }).meta({ id: 'AddPlaceRequest' }),
  answer: z.strictObject({ placeId: z.string() }).meta({ id: 'PlaceAdded' }),
  answerStatus: 201,
  answerMeans: 'The new place.',
  problems: ['not-found', 'refused'],
  takesIdempotencyKey: true,
  example: { body: { label: 'T2.1', kind: 'drawer', capacity: 40, parentId: 'p1' }, answer: { placeId: 'p2' } },
})

export const changePlaceOperation = operation({
  method: 'post',
  path: '/places/{placeId}/change',
  id: 'changePlace',
  group: 'Places',
  summary: 'Write a place’s card anew',
  description: 'What is left out is emptied, but for `putUps`, which then stays. An old label is remembered with the day.',
  pathParameters: placePath,
  body: z.strictObject({ version: versionField, ...cardFields }).meta({ id: 'ChangePlaceRequest' }),
  answer: z.strictObject({ placeId: z.string() }).meta({ id: 'PlaceChanged' }),
  answerMeans: 'It was written.',
  problems: ['refused'],
  example: { body: { version: 0, label: 'T2.2', kind: 'drawer' }, answer: { placeId: 'p2' } },
})

export const movePlaceOperation = operation({
  method: 'post',
  path: '/places/{placeId}/move',
  id: 'movePlace',
  group: 'Places',
  summary: 'Put a place, with all in it, into another',
  pathParameters: placePath,
  body: z.strictObject({ version: versionField, toParentId: orNull(idText) }).meta({ id: 'MovePlaceRequest' }),
  answer: z.strictObject({ placeId: z.string() }).meta({ id: 'PlaceMoved' }),
  answerMeans: 'It stands there now.',
  problems: ['not-found', 'refused'],
  example: { body: { version: 0, toParentId: 'p9' }, answer: { placeId: 'p2' } },
})

export const removePlaceOperation = operation({
  method: 'post',
  path: '/places/{placeId}/remove',
  id: 'removePlace',
  group: 'Places',
  summary: 'Take an empty place off the map',
  pathParameters: placePath,
  body: z.strictObject({ version: versionField }).meta({ id: 'RemovePlaceRequest' }),
  answer: z.strictObject({ placeId: z.string() }).meta({ id: 'PlaceRemoved' }),
  answerMeans: 'It is off the map; its history stays.',
  problems: ['refused'],
  example: { body: { version: 0 }, answer: { placeId: 'p2' } },
})

export const restorePlaceOperation = operation({
  method: 'post',
  path: '/places/{placeId}/restore',
  id: 'restorePlace',
  group: 'Places',
  summary: 'Put a place that was removed back on the map',
  pathParameters: placePath,
  body: z.strictObject({ version: versionField }).meta({ id: 'RestorePlaceRequest' }),
  answer: z.strictObject({ placeId: z.string() }).meta({ id: 'PlaceRestored' }),
  answerMeans: 'It stands again.',
  problems: ['refused'],
  example: { body: { version: 1 }, answer: { placeId: 'p2' } },
})

export const orderPlacesOperation = operation({
  method: 'post',
  path: '/places/order',
  id: 'orderPlaces',
  group: 'Places',
  summary: 'Set the order one walks past the places in one place',
  body: z
    .strictObject({
      parentId: orNull(idText).meta({ description: 'What they stand in; null for those that stand in nothing.' }),
      placeIds: orNull(z.array(idText).max(mostPlaces)).meta({
        description: 'All of them, first to last; null: by their labels again.',
      }),
    })
    .meta({ id: 'OrderPlacesRequest' }),
  answer: z.strictObject({ moved: z.int() }).meta({ id: 'PlacesOrdered' }),
  answerMeans: 'How many have another turn now.',
  problems: ['refused'],
  example: { body: { parentId: 'p1', placeIds: ['p3', 'p2'] }, answer: { moved: 2 } },
})

const manyFields = {
  pattern: z.string().trim().max(200).meta({ description: 'T[2-4] > .[1-5] > -[01-40]' }),
  kinds: z
    .array(z.enum(givenPlaceKinds))
    .min(1)
    .max(6)
    .meta({ description: 'What each level is; the last goes on for deeper ones.' }),
  parentId: orNull(idText).default(null),
}
const exampleMany = { pattern: 'T[2-3] > .[1-5]', kinds: ['cabinet' as const, 'drawer' as const], parentId: 'p1' }

export const previewManyPlacesOperation = operation({
  method: 'post',
  path: '/places/many/preview',
  id: 'previewManyPlaces',
  right: 'read',
  group: 'Places',
  summary: 'What a pattern of labels would make',
  description: 'Nothing is written.',
  body: z.strictObject(manyFields).meta({ id: 'ManyPlacesPreviewRequest' }),
  answer: z
    .strictObject({
      count: z.strictObject({ new: z.int(), there: z.int(), clash: z.int() }),
      lines: z.array(
        z.strictObject({
          label: z.string(),
          level: z.int(),
          kind: z.enum(placeKinds),
          insideLabel: z.string().nullable(),
          outcome: z.enum(['new', 'there', 'clash']),
          placeId: z.string().nullable(),
        }),
      ),
      formerly: z.array(z.string()).meta({ description: 'Labels to be made that other places had before.' }),
    })
    .meta({ id: 'ManyPlacesPreview' }),
  answerMeans: 'Each label in walking order. A label that clashes stands somewhere else already.',
  problems: ['not-found', 'refused'],
  example: {
    body: exampleMany,
    answer: {
      count: { new: 1, there: 0, clash: 0 },
      lines: [{ label: 'T2', level: 0, kind: 'cabinet', insideLabel: null, outcome: 'new', placeId: null }],
      formerly: [],
    },
  },
})

export const addManyPlacesOperation = operation({
  method: 'post',
  path: '/places/many',
  id: 'addManyPlaces',
  group: 'Places',
  summary: 'Make many places by a pattern of labels',
  description: `In one write, at most ${mostPlaces}. Refused as a whole where a label stands somewhere else already.`,
  body: z.strictObject(manyFields).meta({ id: 'ManyPlacesRequest' }),
  answer: z.strictObject({ made: z.int(), there: z.int() }).meta({ id: 'ManyPlacesMade' }),
  answerStatus: 201,
  answerMeans: 'How many were made, and how many stood there before.',
  problems: ['not-found', 'refused'],
  takesIdempotencyKey: true,
  example: { body: exampleMany, answer: { made: 12, there: 0 } },
})

/** Why places were not made by a pattern, as a problem. */
export function manyProblem(refusal: ManyRefused): Problem {
  switch (refusal.kind) {
    case 'no-pattern': {
      const { why } = refusal
      const where = 'at' in why ? ` at position ${why.at}` : ''
      return new Problem('refused', `The pattern does not read${where}: ${why.kind}.`)
    }
    case 'no-such-place':
      return notFound('place', refusal.placeId)
    case 'clashes':
      return new Problem('refused', `${refusal.count} of the labels stand somewhere else already: ${refusal.labels.join(', ')}.`)
    case 'nothing-new':
      return new Problem('refused', 'All of them are there already.')
  }
}

const patternSchema = z
  .strictObject({ pattern: z.string(), kinds: z.array(z.enum(givenPlaceKinds)), insideId: z.string().nullable() })
  .meta({ id: 'LabelPattern', description: 'A pattern the shop labels its places by, and what the outermost stand in.' })

export const listLabelPatternsOperation = operation({
  method: 'get',
  path: '/label-patterns',
  id: 'listLabelPatterns',
  group: 'Places',
  summary: 'The patterns a shop labels its places by',
  answer: z.strictObject({ patterns: z.array(patternSchema) }).meta({ id: 'LabelPatternList' }),
  answerMeans: 'All of them.',
  example: { answer: { patterns: [{ pattern: 'T[2-4] > .[1-5]', kinds: ['cabinet', 'drawer'], insideId: 'p1' }] } },
})

export const keepLabelPatternOperation = operation({
  method: 'post',
  path: '/label-patterns',
  id: 'keepLabelPattern',
  group: 'Places',
  summary: 'Keep a pattern as one of the shop’s own',
  description: `New places are then labelled by it. At most ${mostLabelPatterns} are kept.`,
  body: z
    .strictObject({
      pattern: manyFields.pattern,
      kinds: manyFields.kinds,
      insideId: orNull(idText).default(null),
    })
    .meta({ id: 'KeepLabelPatternRequest' }),
  answer: z.strictObject({ isKept: z.literal(true) }).meta({ id: 'LabelPatternKept' }),
  answerMeans: 'It is kept.',
  problems: ['refused'],
  example: { body: { pattern: 'T[2-4] > .[1-5]', kinds: ['cabinet', 'drawer'], insideId: 'p1' }, answer: { isKept: true } },
})

export const forgetLabelPatternOperation = operation({
  method: 'post',
  path: '/label-patterns/forget',
  id: 'forgetLabelPattern',
  group: 'Places',
  summary: 'Keep a pattern no longer',
  description: 'The places made by it stay as they are.',
  body: z
    .strictObject({ pattern: z.string().max(200), insideId: orNull(idText).default(null) })
    .meta({ id: 'ForgetLabelPatternRequest' }),
  answer: z.strictObject({ isKept: z.literal(false) }).meta({ id: 'LabelPatternForgotten' }),
  answerMeans: 'It is not among the shop’s own.',
  example: { body: { pattern: 'T[2-4] > .[1-5]', insideId: 'p1' }, answer: { isKept: false } },
})

export const listFullPlacesOperation = operation({
  method: 'get',
  path: '/places/full',
  id: 'listFullPlaces',
  group: 'Places',
  summary: 'Which places are over three-quarters full',
  description: 'Or over another share. Everybody’s goods count: a drawer is as full as it is.',
  query: z.strictObject({ over: z.coerce.number().int().min(0).max(1_000).default(75).meta({ description: 'Per cent.' }) }),
  answer: z
    .strictObject({
      saying: z.int().meta({ description: 'Places that say what they take; of the others it is not known.' }),
      places: z.array(
        z.strictObject({
          place: placeRefSchema,
          fullPercent: z.number(),
          by: z.enum(['put-ups', 'compartments-room', 'compartments', 'things']).meta({
            description:
              'What it is known by: the put-ups it takes, what its compartments take, how many of them have something, or the number of things.',
          }),
        }),
      ),
    })
    .meta({ id: 'FullPlaces' }),
  answerMeans: 'The fullest first.',
  example: {
    answer: { saying: 15, places: [{ place: { placeId: 'p2', label: 'T2.1' }, fullPercent: 82.5, by: 'compartments' }] },
  },
})

export const placeWriteOperations = [
  addPlaceOperation,
  changePlaceOperation,
  movePlaceOperation,
  removePlaceOperation,
  restorePlaceOperation,
  orderPlacesOperation,
  previewManyPlacesOperation,
  addManyPlacesOperation,
  listLabelPatternsOperation,
  keepLabelPatternOperation,
  forgetLabelPatternOperation,
  listFullPlacesOperation,
]
