import { z } from 'zod'
import { labelNouns } from '#lib/label/label'
import { ownerIdsField, ownerQuery } from './collection'
import { operation } from './operation'
import { idText } from './quantities'

const nounSchema = z.enum(labelNouns)
const whichSchema = z.enum(['changed', 'all']).default('changed').meta({
  description: '`changed`: only those never printed and those that say something else now.',
})
const seenField = z.string().min(1).max(64).meta({ description: 'Stands for the words of these labels.' })

const labelSchema = z
  .strictObject({
    noun: nounSchema,
    id: z.string(),
    title: z.string().meta({ description: 'As large as fits.' }),
    note: z.string().meta({ description: 'Small, below it; may be empty.' }),
    path: z
      .string()
      .meta({ description: 'The page its code opens, after the address of the collection. A batch’s is that of its thread.' }),
    printed: z.string().nullable().meta({ description: 'What was printed the last time, title and note on a line each.' }),
  })
  .meta({ id: 'Label' })

export const listLabelsOperation = operation({
  method: 'get',
  path: '/labels',
  id: 'listLabels',
  group: 'Places',
  summary: 'Labels to print, and which of them changed since they were printed',
  description:
    'Places, and what lives in them, in walking order; projects by the place of their kit. More than 2,000 at once are refused: name a place, or fewer kinds.',
  query: z.strictObject({
    ...ownerQuery,
    place: idText.optional().meta({ description: 'Only this place and what is inside it.' }),
    noun: z.array(nounSchema).max(5).default(['place']).meta({ description: 'Kinds of things; several may be named.' }),
    which: whichSchema,
  }),
  answer: z
    .strictObject({
      ownerIds: ownerIdsField,
      count: z.int().meta({ description: 'How many labels there are of what was asked for, changed or not.' }),
      changedCount: z.int(),
      labels: z.array(labelSchema),
      seen: seenField,
    })
    .meta({ id: 'LabelList' }),
  answerMeans: 'The labels as they read now.',
  problems: ['refused'],
  example: {
    answer: {
      ownerIds: ['o1'],
      count: 2,
      changedCount: 1,
      labels: [
        {
          noun: 'place',
          id: 'p2',
          title: 'T2.1-14',
          note: 'Cabinet T › T2.1',
          path: '/places/p2',
          printed: 'T2.1-14\nCabinet T',
        },
      ],
      seen: 'pX0bq2m1J8wq0lY6kQvWcA',
    },
  },
})

export const keepLabelsPrintedOperation = operation({
  method: 'post',
  path: '/labels/printed',
  id: 'keepLabelsPrinted',
  group: 'Places',
  summary: 'Say that labels were printed',
  description: 'As they were listed: refused if any of them reads otherwise by now.',
  body: z
    .strictObject({
      owner: z.array(idText).max(20).optional(),
      place: idText.optional(),
      noun: z.array(nounSchema).min(1).max(5).default(['place']),
      which: whichSchema,
      seen: seenField,
    })
    .meta({ id: 'LabelsPrintedRequest' }),
  answer: z.strictObject({ count: z.int() }).meta({ id: 'LabelsPrinted' }),
  answerMeans: 'How many labels were kept as printed.',
  problems: ['refused'],
  example: { body: { noun: ['place'], which: 'changed', seen: 'pX0bq2m1J8wq0lY6kQvWcA' }, answer: { count: 1 } },
})
