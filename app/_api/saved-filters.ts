import { z } from 'zod'
import { filterRooms, longestFilter, longestFilterName, mostFilters } from '#lib/settings/saved-filters'
import { operation } from './operation'
import { shortText } from './quantities'

const room = z.enum(filterRooms)
const name = shortText.max(longestFilterName)

const filterSchema = z
  .strictObject({
    room,
    name: z.string(),
    filter: z.string().meta({ description: 'As it stands in the address of the list.' }),
  })
  .meta({ id: 'SavedFilter' })
const answer = z.strictObject({ savedFilters: z.array(filterSchema) }).meta({ id: 'SavedFilters' })
const example = { room: 'charts' as const, name: 'Stitchable now', filter: 'stitchableNow=1' }

export const listSavedFiltersOperation = operation({
  method: 'get',
  path: '/saved-filters',
  id: 'listSavedFilters',
  group: 'Finding',
  summary: 'Choices of the lists that the house keeps under names',
  query: z.strictObject({ room: room.optional() }),
  answer,
  answerMeans: 'In the house’s order.',
  example: { answer: { savedFilters: [example] } },
})

export const saveFilterOperation = operation({
  method: 'post',
  path: '/saved-filters',
  id: 'saveFilter',
  group: 'Finding',
  summary: 'Keep the choices of a list under a name',
  description: `At most ${mostFilters} of one list.`,
  body: z.strictObject({ room, name, filter: z.string().min(1).max(longestFilter) }).meta({ id: 'SavedFilterRequest' }),
  answer,
  answerMeans: 'All of them, as they now stand.',
  problems: ['refused'],
  example: { body: example, answer: { savedFilters: [example] } },
})

export const changeSavedFilterOperation = operation({
  method: 'post',
  path: '/saved-filters/change',
  id: 'changeSavedFilter',
  group: 'Finding',
  summary: 'Rename a kept filter, move it by one, or take it away',
  body: z
    .strictObject({
      room,
      name,
      change: z.discriminatedUnion('kind', [
        z.strictObject({ kind: z.literal('rename'), to: name }),
        z.strictObject({ kind: z.literal('move'), step: z.literal([-1, 1]) }),
        z.strictObject({ kind: z.literal('remove') }),
      ]),
    })
    .meta({ id: 'SavedFilterChange' }),
  answer,
  answerMeans: 'All of them, as they now stand.',
  problems: ['refused'],
  example: {
    body: { room: 'charts', name: 'Stitchable now', change: { kind: 'move', step: -1 } },
    answer: { savedFilters: [example] },
  },
})

export const savedFilterOperations = [listSavedFiltersOperation, saveFilterOperation, changeSavedFilterOperation]
