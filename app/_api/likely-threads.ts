import { z } from 'zod'
import { hexToLab } from '#lib/colour/convert'
import { standings } from '#lib/db/thread/list-likely'
import { differenceGrades } from '#lib/thread/substitution'
import { ownerIdsField, ownerQuery, placeRefSchema } from './collection'
import { colourFields, familySchema, labSchema } from './colour'
import { threadRefSchema } from './cover'
import { operation } from './operation'
import { idText, orNull, shortText } from './quantities'
import { exampleThread } from './stock'

const hexOrLab = z
  .string()
  .max(100)
  .transform((text, context) => {
    const hex = hexToLab(text)
    if (hex) return hex
    const [L, a, b, ...rest] = text.split(/[\s;]+/).map(Number)
    const lab = labSchema.safeParse({ L, a, b })
    if (lab.success && rest.length === 0) return lab.data
    context.addIssue({ code: 'custom', message: 'That is no colour.', params: { accepted: '#8e2f2b, or L a b: 36.2 41 27.5' } })
    return z.NEVER
  })

export const listLikelyThreads = operation({
  method: 'get',
  path: '/threads/likely',
  id: 'listLikelyThreads',
  group: 'Stock',
  summary: 'What a loose skein is likely to be',
  description:
    'The threads nearest in colour by CIEDE2000: first those some of which is out of its place, then those all at home, then those of which none is held. Colours from photos and screens are rough; daylight decides.',
  query: z.strictObject({
    colour: hexOrLab.meta({ description: '#rrggbb, or L, a and b under D65 with spaces between.', example: '36.2 41 27.5' }),
    maker: idText.optional().meta({ description: 'Id of the maker.' }),
    line: idText.optional().meta({ description: 'Id of the line.' }),
    fibre: shortText.optional(),
    lot: shortText.optional().meta({ description: 'Every word of it is in the lot of some stock of the thread.' }),
    limit: z.coerce.number().int().min(1).max(50).default(8).meta({ description: 'How many of each standing.' }),
    ...ownerQuery,
  }),
  answer: z
    .strictObject({
      ownerIds: ownerIdsField,
      lab: labSchema,
      family: familySchema,
      comparedCount: z.int(),
      withoutColourCount: z.int().meta({ description: 'Threads left out because no colour of theirs is on record.' }),
      threads: z.array(
        z.strictObject({
          thread: threadRefSchema,
          standing: z.enum(standings),
          deltaE00: z.number(),
          grade: z.enum(differenceGrades),
          ...colourFields,
          fibre: orNull(z.string()),
          lots: z.array(z.string()),
          homes: z.array(placeRefSchema),
          away: z.array(placeRefSchema),
        }),
      ),
    })
    .meta({ id: 'LikelyThreads' }),
  answerMeans: 'The nearest of each standing, nearest first.',
  example: {
    answer: {
      ownerIds: ['o1'],
      lab: { L: 38, a: 2, b: -5 },
      family: 'grey',
      comparedCount: 480,
      withoutColourCount: 12,
      threads: [
        {
          thread: exampleThread,
          standing: 'out',
          deltaE00: 0.4,
          grade: 'same',
          lab: { L: 38.2, a: 2.1, b: -4.7 },
          labCertainty: 'label',
          family: 'grey',
          isLeaving: false,
          fibre: 'cotton',
          lots: [],
          homes: [{ placeId: 'p2', label: 'T2.1-14' }],
          away: [{ placeId: 'p9', label: 'K-07' }],
        },
      ],
    },
  },
})
