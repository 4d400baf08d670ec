import { z } from 'zod'
import { weaves } from '#lib/cloth/cloth-piece'
import { notionKinds } from '#lib/notion/notion'
import { placeKinds } from '#lib/place/place'
import { partCertainties } from '#lib/stock/batch'
import { ownerIdsField, ownerQuery, placeRefSchema, whereaboutsFields } from './collection'
import { threadRefSchema } from './cover'
import { operation } from './operation'
import { nextField, pageQuery } from './paging'
import { idText } from './quantities'
import { exampleThread } from './stock'

const placeSchema = z
  .strictObject({
    placeId: z.string(),
    label: z.string(),
    name: z.string().nullable(),
    kind: z.enum(placeKinds),
    parentId: z.string().nullable(),
    depth: z.int().meta({ description: 'How many places it is inside of.' }),
    pathText: z.string(),
    capacity: z.int().nullable(),
    note: z.string().nullable(),
    version: z.int(),
  })
  .meta({ id: 'Place' })

const examplePlace = {
  placeId: 'p2',
  label: 'T2.1-14',
  name: null,
  kind: 'compartment',
  parentId: 'p1',
  depth: 1,
  pathText: 'T2.1 › T2.1-14',
  capacity: 6,
  note: null,
  version: 0,
}

export const listPlacesOperation = operation({
  method: 'get',
  path: '/places',
  id: 'listPlaces',
  group: 'Places',
  summary: 'Every place, in walking order',
  query: z.strictObject(pageQuery),
  answer: z.strictObject({ total: z.int(), places: z.array(placeSchema), next: nextField }).meta({ id: 'PlaceList' }),
  answerMeans: 'A page of places, each before what is inside it.',
  example: { answer: { total: 1, places: [examplePlace], next: null } },
})

const here = { ...whereaboutsFields, isOut: z.boolean().meta({ description: 'It is somewhere that is not its home.' }) }
const exampleHome = { placeId: 'p2', label: 'T2.1-14' }

export const getPlace = operation({
  method: 'get',
  path: '/places/{placeId}',
  id: 'getPlace',
  group: 'Places',
  summary: 'What lives or lies in one place',
  description:
    'What is in the place itself; what is inside the places in it is told by those. Threads are in the order of a drawer. At most 100 charts are given; `chartCount` says how many there are.',
  pathParameters: z.strictObject({ placeId: idText }),
  query: z.strictObject(ownerQuery),
  answer: z
    .strictObject({
      ownerIds: ownerIdsField,
      place: placeSchema,
      inside: z.array(placeRefSchema).meta({ description: 'Places directly in it, in walking order.' }),
      threads: z.array(
        z.strictObject({
          batchId: z.string(),
          version: z.int(),
          thread: threadRefSchema,
          lot: z.string().nullable(),
          wholePutUps: z.int(),
          partStrandTenths: z.int(),
          partCertainty: z.enum(partCertainties),
          ...here,
        }),
      ),
      cloth: z.array(
        z.strictObject({
          clothPieceId: z.string(),
          label: z.string().nullable(),
          name: z.string(),
          colourName: z.string().nullable(),
          weave: z.enum(weaves),
          countText: z.string(),
          widthUm: z.int(),
          heightUm: z.int(),
          sizeText: z.string(),
          ...here,
        }),
      ),
      charts: z.array(
        z.strictObject({ chartId: z.string(), title: z.string(), designers: z.array(z.string()), copies: z.int(), ...here }),
      ),
      chartCount: z.int(),
      notions: z
        .array(
          z.strictObject({
            notionId: z.string(),
            kind: z.enum(notionKinds),
            name: z.string(),
            size: z.string().nullable(),
            count: z.int(),
            ...here,
          }),
        )
        .meta({ description: 'By kind and size.' }),
      projects: z.array(z.strictObject({ projectId: z.string(), title: z.string(), status: z.string() })),
    })
    .meta({ id: 'PlaceContents' }),
  answerMeans: 'The place and what is there.',
  problems: ['not-found'],
  example: {
    answer: {
      ownerIds: ['o1'],
      place: examplePlace,
      inside: [],
      threads: [
        {
          batchId: 'b1',
          version: 0,
          thread: exampleThread,
          lot: null,
          wholePutUps: 2,
          partStrandTenths: 0,
          partCertainty: 'none',
          home: exampleHome,
          current: exampleHome,
          isOut: false,
        },
      ],
      cloth: [],
      charts: [],
      chartCount: 0,
      notions: [],
      projects: [],
    },
  },
})
