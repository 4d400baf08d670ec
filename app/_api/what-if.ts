import { z } from 'zod'
import { lineStatuses } from '#lib/coverage/line-status'
import { mostPutUpsSupposed, mostSupposed } from '#lib/coverage/what-if-query'
import { ownerIdsField } from './collection'
import { operation } from './operation'
import { idText, shortText } from './quantities'

const stateSchema = z
  .strictObject({
    status: z.enum(lineStatuses),
    isStitchable: z.boolean(),
    isStitchableWithSwaps: z.boolean(),
    buyPutUps: z.int().meta({ description: 'Of its best list: for the short threads, and for those whose lots do not match.' }),
  })
  .meta({ id: 'DesignState' })

const changedSchema = z
  .strictObject({ designId: z.string(), title: z.string(), before: stateSchema, after: stateSchema })
  .meta({ id: 'SupposedChange' })

const listed = (means: string) => z.array(changedSchema).meta({ description: means })

export const askWhatIfOperation = operation({
  method: 'post',
  path: '/what-if',
  id: 'askWhatIf',
  right: 'read',
  group: 'Designs',
  summary: 'Which designs some thread bought, or bags unpacked, would open',
  description:
    'Nothing is written. What is bought counts as whole put-ups of the line, the first owner’s; an unpacked bag’s promises fall away and what lies in it is at home.',
  body: z
    .strictObject({
      buy: z
        .array(
          z.strictObject({
            threadId: idText,
            putUps: z.int().min(1).max(mostPutUpsSupposed),
            lot: shortText.nullable().default(null).meta({ description: 'Null for a lot of its own.' }),
          }),
        )
        .max(mostSupposed)
        .default([]),
      unpackProjectIds: z.array(idText).max(mostSupposed).default([]),
      owner: z.array(idText).max(20).optional().meta({
        description: 'Whose thread counts; several may be named. The first owner of the collection when none is.',
      }),
      limit: z
        .int()
        .min(0)
        .max(1_000)
        .default(100)
        .meta({ description: 'How many designs at most of each outcome; `counts` are of all.' }),
    })
    .meta({ id: 'WhatIfRequest' }),
  answer: z
    .strictObject({
      ownerIds: ownerIdsField,
      counts: z.strictObject({
        opened: z.int(),
        openedWithSwaps: z.int(),
        nearer: z.int(),
        worse: z.int(),
        inPart: z.int(),
      }),
      opened: listed('Not stitchable now, and then stitchable.'),
      openedWithSwaps: listed('Then stitchable with accepted stand-ins.'),
      nearer: listed('Less left to buy, or a better worst thread.'),
      worse: listed('More to buy: thread bought in a lot that does not match, say.'),
      inPart: listed('A thread of it stands otherwise, and as much is to be bought.'),
    })
    .meta({ id: 'WhatIfAnswer' }),
  answerMeans: 'Counts, then the designs of each outcome, those with the fewest put-ups left to buy first.',
  problems: ['refused'],
  example: {
    body: { buy: [{ threadId: 't1', putUps: 2, lot: null }], unpackProjectIds: ['pr1'] },
    answer: {
      ownerIds: ['o1'],
      counts: { opened: 1, openedWithSwaps: 0, nearer: 0, worse: 0, inPart: 0 },
      opened: [
        {
          designId: 'd1',
          title: 'Rook Hill in Snow',
          before: { status: 'short', isStitchable: false, isStitchableWithSwaps: false, buyPutUps: 2 },
          after: { status: 'enough', isStitchable: true, isStitchableWithSwaps: true, buyPutUps: 0 },
        },
      ],
      openedWithSwaps: [],
      nearer: [],
      worse: [],
      inPart: [],
    },
  },
})
