import { z } from 'zod'
import { certainties } from '#lib/quantity/certainty'
import { abcClasses } from '#lib/stock/abc'
import { flagQuery, ownerIdsField, ownerQuery } from './collection'
import { threadRefSchema } from './cover'
import { operation } from './operation'
import { nextField, numberedPageQuery } from './paging'
import { idText, orNull, putUps } from './quantities'
import { exampleThread } from './stock'

const hundredths = z.int().min(0).max(1_000_000)
const weeks = z.int().min(0).max(104)
const packPutUps = putUps.default(1)
const ruleSchema = z
  .discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('minimum'), minimumPutUps: z.int().min(0).max(10_000), packPutUps }),
    z.strictObject({
      kind: z.literal('point'),
      demandHundredths: hundredths,
      spreadHundredths: hundredths,
      leadWeeks: weeks,
      coverWeeks: weeks.default(4),
      packPutUps,
    }),
  ])
  .meta({ id: 'ReorderRule', description: 'Demand and spread are hundredths of a put-up a week.' })

const reorderRowSchema = z
  .strictObject({
    thread: threadRefSchema,
    ownerId: z.string(),
    rule: ruleSchema,
    source: z.enum(['owner', 'thread', 'lots']).meta({ description: 'lots: the usual minimum of a line whose lots matter.' }),
    ownedPutUps: z.int(),
    outPutUps: z.int(),
    promisedPutUps: z.int(),
    freePutUps: z.int(),
    unmetPutUps: z.int().meta({ description: 'Promised beyond what is there.' }),
    onOrderPutUps: z.int(),
    positionPutUps: z.int(),
    point: orNull(z.strictObject({ leadPutUps: z.number(), safetyPutUps: z.number(), putUps: z.int() })),
    serviceFactor: z.number(),
    thresholdPutUps: z.int(),
    isDue: z.boolean(),
    upToPutUps: z.int(),
    wantedPutUps: z.int(),
    packs: z.int(),
    orderPutUps: z.int(),
    certainty: z.enum(certainties),
    abc: orNull(z.strictObject({ class: z.enum(abcClasses), by: z.enum(['value', 'length']), sharePerMille: z.int() })),
  })
  .meta({ id: 'ReorderCheck' })

const exampleCheck = {
  thread: exampleThread,
  ownerId: 'o1',
  rule: { kind: 'point', demandHundredths: 600, spreadHundredths: 250, leadWeeks: 3, coverWeeks: 4, packPutUps: 12 },
  source: 'owner',
  ownedPutUps: 40,
  outPutUps: 0,
  promisedPutUps: 15,
  freePutUps: 25,
  unmetPutUps: 0,
  onOrderPutUps: 0,
  positionPutUps: 25,
  point: { leadPutUps: 18, safetyPutUps: 7.144709581221619, putUps: 26 },
  serviceFactor: 1.65,
  thresholdPutUps: 26,
  isDue: true,
  upToPutUps: 50,
  wantedPutUps: 25,
  packs: 3,
  orderPutUps: 36,
  certainty: 'estimated',
  abc: { class: 'A', by: 'value', sharePerMille: 310 },
} as const

export const listReorderCheck = operation({
  method: 'get',
  path: '/buy/reorder',
  id: 'listReorderCheck',
  group: 'Stock',
  summary: 'Threads held against their minimum or reorder point',
  description: 'By maker and code, each owner apart. What is promised to kits is not free; what is on order counts as here.',
  query: z.strictObject({
    due: flagQuery.optional().meta({ description: 'Only what is to be ordered.' }),
    ...ownerQuery,
    ...numberedPageQuery,
  }),
  answer: z
    .strictObject({ ownerIds: ownerIdsField, total: z.int(), checks: z.array(reorderRowSchema), next: nextField })
    .meta({ id: 'ReorderCheckList' }),
  answerMeans: 'A page of threads that have a rule.',
  example: { answer: { ownerIds: ['o1'], total: 1, checks: [exampleCheck], next: null } },
})

export const getReorderRule = operation({
  method: 'get',
  path: '/threads/{threadId}/reorder',
  id: 'getReorderRule',
  group: 'Stock',
  summary: 'When one owner buys a thread again',
  pathParameters: z.strictObject({ threadId: idText }),
  query: z.strictObject({
    owner: idText.optional().meta({ description: 'The first owner of the collection when none is named.' }),
  }),
  answer: z
    .strictObject({
      ownerId: z.string(),
      own: orNull(z.strictObject({ rule: ruleSchema, version: z.int() })),
      check: orNull(reorderRowSchema),
      sales: orNull(
        z.strictObject({
          weeks: z.int(),
          soldPutUps: z.number(),
          demandHundredths: z.int(),
          spreadHundredths: z.int(),
        }),
      ).meta({ description: 'Counter sales by the journal, a suggestion and no more; null when there are too few to go by.' }),
    })
    .meta({ id: 'ReorderRuleAnswer' }),
  answerMeans: 'The owner’s own rule, what holds now, and what the journal suggests.',
  problems: ['not-found'],
  example: {
    answer: {
      ownerId: 'o1',
      own: { rule: exampleCheck.rule, version: 0 },
      check: exampleCheck,
      sales: { weeks: 26, soldPutUps: 151, demandHundredths: 581, spreadHundredths: 240 },
    },
  },
})

export const setReorderRule = operation({
  method: 'post',
  path: '/threads/{threadId}/reorder',
  id: 'setReorderRule',
  group: 'Stock',
  summary: 'Set or take away an owner’s rule for a thread',
  pathParameters: z.strictObject({ threadId: idText }),
  body: z
    .strictObject({
      ownerId: idText,
      version: z.int().min(0).nullable().meta({ description: 'Of the rule last seen; null when there was none.' }),
      rule: orNull(ruleSchema).meta({ description: 'Null takes it away.' }),
    })
    .meta({ id: 'ReorderRuleRequest' }),
  answer: z.strictObject({ ok: z.literal(true) }).meta({ id: 'ReorderRuleSet' }),
  answerMeans: 'It is done.',
  problems: ['refused', 'not-found'],
  example: { body: { ownerId: 'o1', version: null, rule: exampleCheck.rule }, answer: { ok: true } },
})
