import { z } from 'zod'
import { coverKinds } from '#lib/chart/design'
import { partCertainties } from '#lib/stock/batch'
import { coverSchema } from './cover'
import example from './examples/calculate-coverage.json'
import { operation } from './operation'
import { clothSchema, designSide, orNull, putUpStrandTenths, shortText, strandCount, strandTenths } from './quantities'
import { allowanceSchema, tallySchema, workingSchema } from './thread-use'

const threadFields = { maker: shortText, line: shortText, code: shortText }
const postedThreadSchema = z.strictObject(threadFields)
export type PostedThread = z.infer<typeof postedThreadSchema>

/** What tells one posted thread, or one posted line of threads, from another: the exact texts. */
export const postedThreadId = ({ maker, line, code }: PostedThread): string => JSON.stringify([maker, line, code])
export const postedLineId = ({ maker, line }: Pick<PostedThread, 'maker' | 'line'>): string => JSON.stringify([maker, line])

const statedSchema = z
  .strictObject({
    hundredths: z.int().min(1).max(100_000),
    putUpTenths: z.int().min(1).max(100_000_000).nullable().default(null),
  })
  .meta({
    description:
      'Put-ups as the chart states them, in hundredths (two skeins: 200), and the put-up it means: its length as sold, in tenths of a millimetre; left out, the line’s own.',
  })

export const calculateCoverage = operation({
  method: 'post',
  path: '/calculate/coverage',
  id: 'calculateCoverage',
  right: 'read',
  group: 'Calculators',
  summary: 'Whether a posted key can be stitched from a posted stash',
  description:
    'Threads are told apart by maker, line and code, each as exact text. Every line used is described once in `threadLines`. Uses no stored data.',
  body: z
    .strictObject({
      threadLines: z
        .array(
          z.strictObject({
            maker: shortText,
            line: shortText,
            strands: strandCount.default(6),
            putUpStrandTenths,
            lotsMatter: z.boolean().default(false).meta({ description: 'All of one colour must come from one dye lot.' }),
            working: workingSchema.default('rows'),
          }),
        )
        .min(1)
        .max(500),
      keyLines: z
        .array(
          z.strictObject({
            symbol: z.string().max(50).nullable().default(null),
            threads: z
              .array(z.strictObject({ ...threadFields, strands: strandCount, stated: statedSchema.nullable().default(null) }))
              .min(1)
              .max(10)
              .meta({ description: 'One, or several for a blend.' }),
            tally: tallySchema.nullable().default(null),
          }),
        )
        .min(1)
        .max(2_000),
      stash: z
        .array(
          z.strictObject({
            ...threadFields,
            lot: shortText.nullable().default(null),
            wholePutUps: z.int().min(0).max(10_000).default(0),
            putUpStrandTenths: putUpStrandTenths.optional().meta({ description: 'Its own put-up, where it is not the line’s.' }),
            partStrandTenths: strandTenths.default(0),
            partCertainty: z
              .enum(partCertainties)
              .optional()
              .meta({ description: '`some` is a part nobody has judged: it is not counted, and it is not nought.' }),
            isOut: z.boolean().default(false),
            promisedStrandTenths: strandTenths.default(0).meta({ description: 'Set aside for something else.' }),
          }),
        )
        .max(5_000),
      standIns: z
        .array(z.strictObject({ of: postedThreadSchema, use: postedThreadSchema }))
        .max(2_000)
        .default([])
        .meta({ description: 'Threads you accept in place of others.' }),
      stitches: z.strictObject({ width: designSide, height: designSide }).nullable().default(null),
      coverKind: z
        .enum(coverKinds)
        .nullable()
        .default(null)
        .meta({ description: 'With `stitches`, used for key lines without amounts.' }),
      advised: orNull(clothSchema)
        .default(null)
        .meta({ description: 'The cloth the chart names; stated amounts are meant for it.' }),
      cloth: orNull(clothSchema)
        .default(null)
        .meta({ description: 'The cloth it is to be worked on; the advised one when null.' }),
      allowance: allowanceSchema,
    })
    .superRefine((body, context) => {
      const known = new Set<string>()
      const refuse = (path: PropertyKey[], message: string, accepted?: string) =>
        context.addIssue({ code: 'custom', path, message, params: { accepted } })
      body.threadLines.forEach((line, index) => {
        const id = postedLineId(line)
        if (known.has(id)) refuse(['threadLines', index], 'That line is described twice.')
        known.add(id)
      })
      const checkLine = (thread: Pick<PostedThread, 'maker' | 'line'>, path: PropertyKey[]) => {
        if (!known.has(postedLineId(thread)))
          refuse([...path, 'line'], 'That line is not described.', 'a maker and line of threadLines')
      }
      body.keyLines.forEach(({ threads }, index) => {
        threads.forEach((thread, place) => {
          checkLine(thread, ['keyLines', index, 'threads', place])
        })
      })
      body.stash.forEach((row, index) => {
        checkLine(row, ['stash', index])
        const isJudged = row.partCertainty !== undefined && row.partCertainty !== 'none' && row.partCertainty !== 'some'
        if (row.partStrandTenths > 0 && row.partCertainty !== undefined && !isJudged)
          refuse(['stash', index, 'partCertainty'], 'A part length is given.', 'measured, label or guess')
      })
      body.standIns.forEach(({ of, use }, index) => {
        checkLine(of, ['standIns', index, 'of'])
        checkLine(use, ['standIns', index, 'use'])
      })
    })
    .meta({ id: 'CoverageRequest' }),
  answer: coverSchema,
  answerMeans: 'Each thread’s status, the counts, and the arithmetic.',
  example,
})
