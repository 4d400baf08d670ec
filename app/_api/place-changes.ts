import { z } from 'zod'
import { whyFormer } from '#lib/db/place/look-up-label'
import type { PlaceRefusal } from '#lib/db/place/place-refusal'
import { housedNouns } from '#lib/db/place/rehouse-things'
import { splitWays } from '#lib/db/place/split-place'
import { givenPlaceKinds } from '#lib/place/place'
import { placeRefSchema } from './collection'
import { operation } from './operation'
import { notFound, Problem } from './problem'
import { idText, orNull, shortText } from './quantities'

/** A refused change of places, as a problem. */
export function placeProblem(refusal: PlaceRefusal): Problem {
  switch (refusal.kind) {
    case 'no-such-place':
      return notFound('place', refusal.placeId)
    case 'no-such-change':
      return notFound('change of places', refusal.changeId)
    case 'label-taken':
      return new Problem('refused', `The label ${JSON.stringify(refusal.label)} is on the place ${refusal.placeId} already.`)
    case 'inside-itself':
      return new Problem('refused', 'A place cannot go into itself, nor into something it holds.')
    case 'already-there':
      return new Problem('refused', 'It stands there already.')
    case 'changed-meanwhile':
      return new Problem('refused', 'It was changed meanwhile: read it again and use its present version.')
    case 'not-empty':
      return new Problem('refused', 'Something lies in it, lives there or stands inside it.')
    case 'same-place':
      return new Problem('refused', 'A place cannot be merged into itself.')
    case 'person-and-place':
      return new Problem('refused', 'One of the two is a person and the other is not.')
    case 'kept-by-record':
      return new Problem('refused', 'The record keeps this place for what was not found.')
    case 'being-counted':
      return new Problem('refused', `A count of ${JSON.stringify(refusal.label)} is open: finish it or drop it first.`)
    case 'nothing-chosen':
      return new Problem('refused', 'Name at least one thing, or one place inside, that goes to the new place.')
    case 'not-from-here':
      return new Problem('refused', `${refusal.count} of those named do not live in this place, or do not stand in it.`)
    case 'already-undone':
      return new Problem('refused', 'It was taken back already.')
  }
}

const whoField = shortText.optional().meta({ description: 'Who did it, for the journal.' })
const placePath = z.strictObject({ placeId: idText })
const versionField = z.int().min(0).meta({ description: 'The version of the place as it was seen.' })

const oldLabelSchema = z
  .strictObject({
    label: z.string(),
    why: z.enum(whyFormer).meta({
      description:
        '`renamed`: its place got another label. `merged`: its place went into another. `split`: part of what lived under it has a place of its own.',
    }),
    until: z.string().meta({ description: 'The moment since which it says something else.' }),
    place: placeRefSchema.meta({ description: 'Where that is now.' }),
  })
  .meta({ id: 'OldLabel' })

const exampleOld = {
  label: 'T2.1-14',
  why: 'renamed' as const,
  until: '2026-03-03T09:00:00.000Z',
  place: { placeId: 'p2', label: 'T2.2-14' },
}

export const lookUpLabelOperation = operation({
  method: 'get',
  path: '/places/by-label',
  id: 'lookUpLabel',
  group: 'Places',
  summary: 'The place a label means, and what it meant before',
  description: 'However it is spelt. A label that no place has now answers with the place it became.',
  query: z.strictObject({ label: shortText }),
  answer: z
    .strictObject({
      meant: orNull(placeRefSchema).meta({ description: 'The place it means now; null when it never meant any.' }),
      isOld: z.boolean().meta({ description: 'No place has this label now: it is an old one.' }),
      former: z.array(oldLabelSchema).meta({ description: 'What it said before, the latest first.' }),
    })
    .meta({ id: 'LabelMeaning' }),
  answerMeans: 'What the label says and said.',
  example: { answer: { meant: exampleOld.place, isOld: true, former: [exampleOld] } },
})

export const mergePlaceOperation = operation({
  method: 'post',
  path: '/places/{placeId}/merge',
  id: 'mergePlace',
  group: 'Places',
  summary: 'Give a place up for another',
  description:
    'Everybody’s goods that live or lie in it, the places inside it, its kits and loans go to the other, each thing with a line of the journal. Its label leads to the other from then on.',
  pathParameters: placePath,
  body: z
    .strictObject({
      version: versionField,
      intoId: idText,
      intoVersion: z.int().min(0).optional(),
      addsRoom: z.boolean().default(true).meta({ description: 'The other takes from then on what both took.' }),
      who: whoField,
    })
    .meta({ id: 'MergePlaceRequest' }),
  answer: z
    .strictObject({ changeId: z.string(), things: z.int(), inside: z.int(), projects: z.int() })
    .meta({ id: 'PlaceMerged' }),
  answerMeans: 'The change, for taking it back, and how much went along.',
  problems: ['not-found', 'refused'],
  takesIdempotencyKey: true,
  example: { body: { version: 0, intoId: 'p2' }, answer: { changeId: 'c1', things: 12, inside: 0, projects: 0 } },
})

export const splitPlaceOperation = operation({
  method: 'post',
  path: '/places/{placeId}/split',
  id: 'splitPlace',
  group: 'Places',
  summary: 'Give part of what lives in a place a place of its own',
  pathParameters: placePath,
  body: z
    .strictObject({
      version: versionField,
      label: shortText.max(60),
      name: shortText.max(120).nullable().default(null),
      kind: z.enum(givenPlaceKinds),
      way: z.enum(splitWays).meta({ description: 'Where the new place stands: beside the old one or inside it.' }),
      things: z
        .array(z.strictObject({ noun: z.enum(housedNouns), id: idText, version: z.int().min(0) }))
        .max(5_000)
        .default([])
        .meta({ description: 'What goes: batches (`thread`), pieces of cloth, charts, notions that live in it.' }),
      insideIds: z.array(idText).max(5_000).default([]).meta({ description: 'Places standing in it that go too.' }),
      who: whoField,
    })
    .meta({ id: 'SplitPlaceRequest' }),
  answer: z
    .strictObject({ changeId: z.string(), newPlaceId: z.string(), things: z.int(), inside: z.int() })
    .meta({ id: 'PlaceSplit' }),
  answerMeans: 'The new place, and the change, for taking it back.',
  problems: ['not-found', 'refused'],
  takesIdempotencyKey: true,
  example: {
    body: { version: 3, label: 'T2.1b', kind: 'drawer', way: 'beside', things: [{ noun: 'thread', id: 'b1', version: 0 }] },
    answer: { changeId: 'c2', newPlaceId: 'p9', things: 1, inside: 0 },
  },
})

const changeSchema = z
  .strictObject({
    changeId: z.string(),
    at: z.string(),
    who: z.string().nullable(),
    what: z.string(),
    isUndone: z.boolean(),
  })
  .meta({ id: 'PlaceChange' })

export const listPlaceChangesOperation = operation({
  method: 'get',
  path: '/places/changes',
  id: 'listPlaceChanges',
  group: 'Places',
  summary: 'Places merged and split, latest first',
  answer: z.strictObject({ changes: z.array(changeSchema) }).meta({ id: 'PlaceChangeList' }),
  answerMeans: 'At most 200 of them.',
  example: {
    answer: {
      changes: [{ changeId: 'c1', at: '2026-03-03T09:00:00.000Z', who: null, what: 'T2.1 merged into T2.2', isUndone: false }],
    },
  },
})

export const undoPlaceChangeOperation = operation({
  method: 'post',
  path: '/places/changes/{changeId}/undo',
  id: 'undoPlaceChange',
  group: 'Places',
  summary: 'Take a merge or a split back',
  description: 'What was changed since stays as it is, and is counted.',
  pathParameters: z.strictObject({ changeId: idText }),
  body: z.strictObject({ who: whoField }).meta({ id: 'UndoPlaceChangeRequest' }),
  answer: z
    .strictObject({
      placeId: z.string(),
      things: z.int().meta({ description: 'Things that went back.' }),
      left: z.strictObject({
        things: z.int(),
        places: z.int(),
        room: z.boolean().meta({ description: 'What the other takes was said anew since, and stays.' }),
        newPlace: z.boolean().meta({ description: 'The place split off stays, for something is in it.' }),
      }),
    })
    .meta({ id: 'PlaceChangeUndone' }),
  answerMeans: 'What went back and what was left alone.',
  problems: ['not-found', 'refused'],
  example: {
    body: {},
    answer: { placeId: 'p1', things: 12, left: { things: 0, places: 0, room: false, newPlace: false } },
  },
})

export const placeChangeOperations = [
  lookUpLabelOperation,
  mergePlaceOperation,
  splitPlaceOperation,
  listPlaceChangesOperation,
  undoPlaceChangeOperation,
]
