import { z } from 'zod'
import { lineStatuses } from '#lib/coverage/line-status'
import { swapRules } from '#lib/thread/substitution'
import { flagQuery, ownerIdsField, ownerQuery } from './collection'
import { threadRefSchema } from './cover'
import { operation } from './operation'
import { nextField, pageQuery } from './paging'
import { idText, orNull, shortText } from './quantities'
import { exampleThread } from './stock'

const hexText = z
  .string()
  .regex(/^#?(?:[0-9a-f]{3}|[0-9a-f]{6})$/i)
  .meta({ description: 'The cloth’s colour as sRGB hex; without it nothing is judged against the cloth.', example: '#e8dcc0' })

const findingSchema = z
  .strictObject({
    rule: z.enum(swapRules),
    kind: z.string(),
    weight: z
      .enum(['passes', 'flagged', 'rejects'])
      .meta({ description: '`flagged`: may be chosen, look first. `rejects`: breaks a rule.' }),
    figures: z.record(z.string(), z.union([z.string(), z.number(), z.boolean(), z.null()])),
  })
  .meta({ id: 'SwapFinding', description: 'One reason for or against a swap, in the order of the rules.' })

const judgedSchema = z
  .strictObject({
    thread: threadRefSchema,
    isAccepted: z.boolean().meta({ description: 'No rule rejects it, against the other colours as actually chosen.' }),
    deltaE00: z.number().nullable(),
    needStrandTenths: z.int().meta({ description: 'In its own strands; 0 where only the colour was asked about.' }),
    freeStrandTenths: z.int(),
    findings: z.array(findingSchema),
  })
  .meta({ id: 'JudgedSwap' })

const opinionSchema = z
  .strictObject({ sourceName: z.string(), thread: threadRefSchema })
  .meta({ id: 'SwapOpinion', description: 'What somebody’s list says; not accepted, and never joined with another.' })

const exampleOther = { ...exampleThread, threadId: 't2', code: '0018', name: 'Slate' }
const exampleJudged = {
  thread: exampleOther,
  isAccepted: true,
  deltaE00: 2.57,
  needStrandTenths: 120_000,
  freeStrandTenths: 480_000,
  findings: [
    { rule: 'difference' as const, kind: 'usable', weight: 'flagged' as const, figures: { deltaE: 2.57 } },
    {
      rule: 'contrast' as const,
      kind: 'shows',
      weight: 'passes' as const,
      figures: { gap: 38.5, least: 15, originalGap: 36, isToneOnTone: false },
    },
  ],
}

export const getDesignSwaps = operation({
  method: 'get',
  path: '/designs/{designId}/swaps',
  id: 'getDesignSwaps',
  group: 'Designs',
  summary: 'Stand-ins for every missing thread of a design, chosen together',
  description:
    'As many threads served as can be, with as few crossings of dyeing or fibre as can be, then at the least total difference (CIEDE2000), keeping the charted colours apart, their shading in order and all of them to be seen on the cloth. Colours on record are rough: daylight on the real cloth decides.',
  pathParameters: z.strictObject({ designId: idText }),
  query: z.strictObject({
    list: idText.optional().meta({ description: 'Id of the thread list; the nearest to stitching when left out.' }),
    cloth: hexText.optional(),
    project: idText.optional().meta({
      description: 'Its own promises then count as free, its swaps as chosen, and its owner’s goods where no owner is named.',
    }),
    keepsDyeing: flagQuery.optional().meta({ description: 'Solids for solids, dyed for dyed only.' }),
    ...ownerQuery,
  }),
  answer: z
    .strictObject({
      ownerIds: ownerIdsField,
      designId: z.string(),
      listId: z.string(),
      isProven: z.boolean().meta({ description: 'False where time ran out before the choice was proved the best.' }),
      servedCount: z.int(),
      toBuyCount: z.int(),
      lines: z.array(
        z.strictObject({
          thread: threadRefSchema,
          status: z.enum(lineStatuses),
          swap: orNull(judgedSchema),
          chosenBy: z.enum(['assignment', 'hand', 'project', 'stand-in']).nullable(),
          nearer: z.array(judgedSchema).meta({
            description:
              'Nearer than the swap, but each breaks a rule, or crosses over in dyeing or fibre where the swap does not.',
          }),
          others: z.array(judgedSchema).meta({ description: 'Others that would pass beside what was chosen.' }),
          opinions: z.array(opinionSchema),
        }),
      ),
    })
    .meta({ id: 'DesignSwaps' }),
  answerMeans: 'Each missing thread with its stand-in and why.',
  problems: ['not-found'],
  example: {
    answer: {
      ownerIds: ['o1'],
      designId: 'd1',
      listId: 'k1',
      isProven: true,
      servedCount: 1,
      toBuyCount: 0,
      lines: [
        {
          thread: exampleThread,
          status: 'none',
          swap: exampleJudged,
          chosenBy: 'assignment',
          nearer: [],
          others: [],
          opinions: [{ sourceName: 'Marsh Elder list', thread: exampleOther }],
        },
      ],
    },
  },
})

export const getThreadSwaps = operation({
  method: 'get',
  path: '/threads/{threadId}/swaps',
  id: 'getThreadSwaps',
  group: 'Stock',
  summary: 'What could stand in for one thread without looking like others',
  pathParameters: z.strictObject({ threadId: idText }),
  query: z.strictObject({
    apart: z.array(idText).max(50).optional().meta({ description: 'Ids of threads to keep apart from.' }),
    cloth: hexText.optional(),
    among: z.enum(['free', 'all']).default('free').meta({ description: 'What is free, or every thread on record.' }),
    ...ownerQuery,
  }),
  answer: z
    .strictObject({
      ownerIds: ownerIdsField,
      thread: threadRefSchema,
      swaps: z.array(z.strictObject({ judged: judgedSchema, isAcceptedStandIn: z.boolean(), opinions: z.array(z.string()) })),
    })
    .meta({ id: 'ThreadSwaps' }),
  answerMeans: 'Those that keep every rule first, the nearest before the farther; then those that do not.',
  problems: ['not-found'],
  example: {
    answer: {
      ownerIds: ['o1'],
      thread: exampleThread,
      swaps: [{ judged: { ...exampleJudged, needStrandTenths: 0 }, isAcceptedStandIn: false, opinions: ['Marsh Elder list'] }],
    },
  },
})

const conversionListSchema = z
  .strictObject({ sourceKey: z.string(), sourceName: z.string(), pairCount: z.int() })
  .meta({ id: 'ConversionList' })

export const listConversionListsOperation = operation({
  method: 'get',
  path: '/conversions',
  id: 'listConversionLists',
  group: 'Stock',
  summary: 'Whose conversion lists are on record',
  answer: z.strictObject({ lists: z.array(conversionListSchema) }).meta({ id: 'ConversionLists' }),
  answerMeans: 'Every list, by name.',
  example: { answer: { lists: [{ sourceKey: 'marsh elder list', sourceName: 'Marsh Elder list', pairCount: 240 }] } },
})

export const addConversionsOperation = operation({
  method: 'post',
  path: '/conversions',
  id: 'addConversions',
  group: 'Stock',
  summary: 'Keep what somebody’s list says stands for what',
  description:
    'One way, as somebody’s opinion: shown beside swaps, never counted as accepted, never joined with another. A list of the same name is added to; what it says already is passed over.',
  body: z
    .strictObject({
      sourceName: shortText,
      pairs: z
        .array(z.strictObject({ threadId: idText, otherThreadId: idText }))
        .min(1)
        .max(10_000),
    })
    .superRefine((body, context) => {
      body.pairs.forEach(({ threadId, otherThreadId }, at) => {
        if (threadId === otherThreadId)
          context.addIssue({
            code: 'custom',
            path: ['pairs', at, 'otherThreadId'],
            message: 'It is the same thread.',
            params: { accepted: 'another thread' },
          })
      })
    })
    .meta({ id: 'ConversionsToAdd' }),
  answer: z.strictObject({ sourceKey: z.string(), addedCount: z.int(), knownCount: z.int() }).meta({ id: 'ConversionsAdded' }),
  answerMeans: 'How many were added, and how many the list said already.',
  problems: ['refused'],
  example: {
    body: { sourceName: 'Marsh Elder list', pairs: [{ threadId: 't1', otherThreadId: 't2' }] },
    answer: { sourceKey: 'marsh elder list', addedCount: 1, knownCount: 0 },
  },
})

export const getConversionList = operation({
  method: 'get',
  path: '/conversions/{sourceKey}',
  id: 'getConversionList',
  group: 'Stock',
  summary: 'What one conversion list says',
  pathParameters: z.strictObject({ sourceKey: shortText }),
  query: z.strictObject(pageQuery),
  answer: z
    .strictObject({
      sourceName: z.string(),
      pairs: z.array(z.strictObject({ thread: threadRefSchema, other: threadRefSchema })),
      next: nextField,
    })
    .meta({ id: 'Conversions' }),
  answerMeans: 'A page of what it says, in the order it was brought in.',
  problems: ['not-found'],
  example: {
    answer: { sourceName: 'Marsh Elder list', pairs: [{ thread: exampleThread, other: exampleOther }], next: null },
  },
})

export const removeConversionsOperation = operation({
  method: 'post',
  path: '/conversions/{sourceKey}/remove',
  id: 'removeConversions',
  group: 'Stock',
  summary: 'Forget what one conversion list says',
  description: 'Stand-ins that were accepted stay.',
  pathParameters: z.strictObject({ sourceKey: shortText }),
  answer: z.strictObject({ removedCount: z.int() }).meta({ id: 'ConversionsRemoved' }),
  answerMeans: 'How many opinions are gone.',
  problems: ['not-found'],
  example: { answer: { removedCount: 240 } },
})
