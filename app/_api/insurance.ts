import { z } from 'zod'
import { insuredClasses } from '#lib/insurance/insured'
import { operation } from './operation'
import { idText, orNull } from './quantities'

const thingSchema = z
  .strictObject({
    noun: z.enum(['thread', 'cloth', 'chart', 'notion', 'project']),
    id: z.string(),
    class: z.enum(insuredClasses),
    title: z.string(),
    description: z.string(),
    number: orNull(z.string()),
    count: z.int(),
    part: z.number().meta({ description: 'Of a put-up besides, where its length is known.' }),
    priceMinor: orNull(z.int()).meta({ description: 'Of one, or of its class; null where nobody said.' }),
    valueMinor: z.int(),
    valuedBy: z.enum(['own', 'class', 'nothing']),
    owner: z.string(),
    place: orNull(z.string()),
    boughtOn: orNull(z.string()),
    recordedOn: orNull(z.string()),
    recordedBy: orNull(z.string()),
    hasPhoto: z.boolean(),
    receipts: z.int(),
    irreplaceable: orNull(z.enum(['out-of-print', 'no-longer-made', 'own-work'])),
    isDear: z.boolean(),
  })
  .meta({ id: 'InsuredThing' })

const exampleThing = {
  ...{
    noun: 'cloth' as const,
    id: 'c1',
    class: 'cloth' as const,
    title: 'Harrowmere linen, oat',
    description: '',
    number: 'L-12',
  },
  ...{ count: 1, part: 0, priceMinor: 1_450, valueMinor: 1_450, valuedBy: 'own' as const, owner: 'Hanne Drewitt', place: 'R1' },
  ...{
    boughtOn: null,
    recordedOn: '2026-09-01',
    recordedBy: null,
    hasPhoto: true,
    receipts: 1,
    irreplaceable: null,
    isDear: false,
  },
}

export const getInsuranceList = operation({
  method: 'get',
  path: '/insurance',
  id: 'getInsuranceList',
  group: 'Stock',
  summary: 'What it would cost to replace the goods of some owners, by class',
  description:
    'With prices: not a list to share. Without `owner` the stashes at home, and no shop. Charts out of print are in no total; a finished piece counts at what its finishing cost.',
  query: z.strictObject({ owner: z.array(idText).max(20).optional() }),
  answer: z
    .strictObject({
      owners: z.array(z.string()),
      totals: z.array(
        z.strictObject({ class: z.enum(insuredClasses), count: z.int(), parts: z.int(), valueMinor: z.int(), unvalued: z.int() }),
      ),
      goodsMinor: z.int().meta({ description: 'Without finished pieces.' }),
      totalMinor: z.int(),
      apartMinor: z.int().meta({ description: 'Charts out of print, at the last known price; in no total.' }),
      things: z.array(thingSchema),
    })
    .meta({ id: 'InsuranceList' }),
  answerMeans: 'The list, whole.',
  example: {
    answer: {
      ...{ owners: ['Hanne Drewitt'], goodsMinor: 970_300, totalMinor: 1_054_300, apartMinor: 20_700 },
      totals: [{ class: 'cloth' as const, count: 84, parts: 0, valueMinor: 121_800, unvalued: 0 }],
      things: [exampleThing],
    },
  },
})

const minor = z.int().min(0).max(100_000_000)
const valuesSchema = z
  .strictObject({
    replacement: z.strictObject({
      ...{ solid: orNull(minor), 'hand-dyed': orNull(minor), cloth: orNull(minor) },
      ...{ charts: orNull(minor), notions: orNull(minor), finished: orNull(minor) },
    }),
    dearMinor: minor.meta({ description: 'From this price of one on, a photograph and a receipt are asked for.' }),
  })
  .meta({ id: 'InsuranceValues' })
const exampleValues = {
  replacement: { solid: 115, 'hand-dyed': 360, cloth: 1_450, charts: 1_100, notions: null, finished: 14_000 },
  dearMinor: 5_000,
}

export const saveInsuranceValues = operation({
  method: 'post',
  path: '/insurance/values',
  id: 'saveInsuranceValues',
  group: 'Stock',
  summary: 'Say what one of each class costs, where the thing itself has no price',
  body: valuesSchema,
  answer: valuesSchema,
  answerMeans: 'Kept.',
  example: { body: exampleValues, answer: exampleValues },
})

export const keepWorthOperation = operation({
  method: 'post',
  path: '/insurance/worth',
  id: 'keepWorth',
  group: 'Stock',
  summary: 'Say what a piece of cloth cost, or that a chart is out of print',
  body: z
    .discriminatedUnion('noun', [
      z.strictObject({ noun: z.literal('cloth'), id: idText, version: z.int().min(0), priceMinor: orNull(minor) }),
      z.strictObject({ noun: z.literal('chart'), id: idText, version: z.int().min(0), isOutOfPrint: z.boolean() }),
    ])
    .meta({ id: 'WorthRequest' }),
  answer: z.strictObject({ noun: z.enum(['cloth', 'chart']), id: z.string(), version: z.int() }).meta({ id: 'WorthKept' }),
  answerMeans: 'Kept.',
  problems: ['refused'],
  example: {
    body: { noun: 'cloth', id: 'c1', version: 3, priceMinor: 1_450 },
    answer: { noun: 'cloth', id: 'c1', version: 4 },
  },
})

export const insuranceOperations = [getInsuranceList, saveInsuranceValues, keepWorthOperation] as const
