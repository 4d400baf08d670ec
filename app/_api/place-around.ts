import { z } from 'zod'
import { partCertainties } from '#lib/stock/batch'
import { ownerIdsField, ownerQuery, placeRefSchema, whereaboutsFields } from './collection'
import { threadRefSchema } from './cover'
import { operation } from './operation'
import { idText, orNull } from './quantities'
import { exampleThread } from './stock'

const batchFields = {
  batchId: z.string(),
  thread: threadRefSchema,
  lot: z.string().nullable(),
  wholePutUps: z.int(),
  partStrandTenths: z.int(),
  partCertainty: z.enum(partCertainties),
  ...whereaboutsFields,
}
const projectRef = z.strictObject({ projectId: z.string(), title: z.string() })
const exampleBatch = {
  batchId: 'b1',
  thread: exampleThread,
  lot: null,
  wholePutUps: 2,
  partStrandTenths: 0,
  partCertainty: 'none' as const,
  home: { placeId: 'p9', label: 'Box 4' },
  current: { placeId: 'p9', label: 'Box 4' },
}

export const getPlaceAround = operation({
  method: 'get',
  path: '/places/{placeId}/around',
  id: 'getPlaceAround',
  group: 'Places',
  summary: 'The overflow of a place, what lived there before, and what its guests came for',
  description: 'Of the place itself and its compartments; at most 200 batches of each.',
  pathParameters: z.strictObject({ placeId: idText }),
  query: z.strictObject(ownerQuery),
  answer: z
    .strictObject({
      ownerIds: ownerIdsField,
      overflow: z
        .array(z.strictObject(batchFields))
        .meta({ description: 'More of the threads that live here, living elsewhere.' }),
      livedHere: z
        .array(z.strictObject({ ...batchFields, until: z.string().nullable() }))
        .meta({ description: 'What lived here and lives elsewhere now, read from the journal, the last to leave first.' }),
      guests: z
        .array(
          z.strictObject({
            batchId: z.string(),
            takenFor: orNull(projectRef),
            promisedTo: z.array(projectRef),
            from: orNull(placeRefSchema),
          }),
        )
        .meta({ description: 'Batches lying here away from home: for which project each came, and from where.' }),
    })
    .meta({ id: 'PlaceAround' }),
  answerMeans: 'All three.',
  problems: ['not-found'],
  example: {
    answer: {
      ownerIds: ['o1'],
      overflow: [exampleBatch],
      livedHere: [{ ...exampleBatch, batchId: 'b4', until: '2026-03-01T09:00:00.000Z' }],
      guests: [
        {
          batchId: 'b7',
          takenFor: { projectId: 'k1', title: 'Rook Hill in Snow' },
          promisedTo: [],
          from: { placeId: 'p2', label: 'T2.1-14' },
        },
      ],
    },
  },
})
