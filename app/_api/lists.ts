import { z } from 'zod'
import { sharedLists } from '#lib/db/list/shared-thing'
import { mostKept, usualKeep } from '../_lists/list-query'
import type { ListRow } from '../_lists/list-rows'
import { flagQuery, ownerQuery } from './collection'
import { operation } from './operation'

export const getSharedList = operation({
  method: 'get',
  path: '/lists/{list}',
  id: 'getSharedList',
  group: 'Stock',
  summary: 'A list to hand to others: doubles, wants, the stash, or charts for a guild',
  description:
    'Never with a price, a person, an address or a note; with places only when asked for. `doubles`: charts held more often than once, threads beyond what is kept, cloth kept for no project. `wants`: what wanted and planned projects and the least kept are short of. `stash`: what is held. `guild`: the charts that are held, with their designs, sizes and themes, under headings.',
  pathParameters: z.strictObject({ list: z.enum(sharedLists) }),
  query: z.strictObject({
    ...ownerQuery,
    keep: z.coerce.number().int().min(0).max(mostKept).default(usualKeep).meta({
      description: 'For `doubles`: so many whole put-ups of each thread are kept, or its own least where that is more.',
    }),
    by: z.enum(['designer', 'theme']).default('designer').meta({
      description: 'For `guild`: what it is parted by. A chart of several themes stands under each of them.',
    }),
    places: flagQuery.optional().meta({ description: 'For `stash`: say where things live. People are never named.' }),
  }),
  answer: z
    .strictObject({
      list: z.enum(sharedLists),
      rows: z.array(
        z.strictObject({
          kind: z.enum(['thread', 'chart', 'cloth', 'notion']),
          group: z.string().meta({ description: 'The heading it stands under.' }),
          by: z.string().meta({ description: 'Maker or designers; may be empty.' }),
          title: z.string(),
          code: z.string().meta({ description: 'Of a thread, exact; else empty.' }),
          details: z.string(),
          count: z.int(),
          place: z.string().nullable(),
        }),
      ),
    })
    .meta({ id: 'SharedList' }),
  answerMeans: 'The list, threads first.',
  example: {
    answer: {
      list: 'stash' as const,
      rows: [
        {
          ...{ kind: 'thread' as const, group: 'Threads', by: 'Larkholm', title: 'Larkholm Stranded 0017 Straw', code: '0017' },
          ...{ details: '2 skeins', count: 2, place: null },
        },
      ],
    },
  },
})

export const describeListRow = ({ section, group, by, title, code, details, many, place }: ListRow) => ({
  ...{ kind: section, group, by, title, code, details, count: many, place },
})
