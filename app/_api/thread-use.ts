import { z } from 'zod'
import { defaultAllowance, isAllowance } from '#lib/thread/allowance'
import { stitches } from '#lib/thread/stitches'
import example from './examples/calculate-thread-use.json'
import { operation } from './operation'
import { clothSchema, putUpStrandTenths, strandCount, threadLengthSchema } from './quantities'

export const tallySchema = z.partialRecord(z.enum(stitches), z.int().min(0).max(10_000_000)).meta({
  description:
    'Whole numbers by stitch. Backstitch, double running and satin are counted in units of one pitch (satin in the lengths of its throws). An eyelet has eight arms over two stitches by two.',
})

export const allowanceSchema = z
  .number()
  .refine(isAllowance, { message: 'That is no allowance.', params: { accepted: '1 (bare geometry) to 5' } })
  .default(defaultAllowance)
  .meta({ description: 'Thread used ÷ thread lying in the stitches: slack, starts, ends and travel.' })

export const workingSchema = z
  .enum(['rows', 'crosses'])
  .meta({ description: 'Crosses worked in rows, or each finished before the next (usual for overdyed and variegated thread).' })

const partSchema = z
  .strictObject({
    stitch: z.enum(stitches),
    tally: z.int(),
    strands: z.int(),
    lengthUm: z.number().meta({ description: 'One strand of one stitch, the part that follows the cloth.' }),
    pitches: z.number().nullable().meta({ description: 'The same in pitches; null on cloth that is not square.' }),
    flatUm: z
      .number()
      .meta({ description: 'The part that does not follow the cloth: a knot, a bead’s pass. It carries no allowance.' }),
    strandTenths: z.number(),
    flatStrandTenths: z.number(),
  })
  .meta({ id: 'ThreadUsePart' })

export const calculateThreadUse = operation({
  method: 'post',
  path: '/calculate/thread-use',
  id: 'calculateThreadUse',
  right: 'read',
  group: 'Calculators',
  summary: 'How much thread a tally of stitches takes',
  description:
    'Each line is one thread in the needle with its own strands; all are summed and rounded up to a tenth of a millimetre of one strand. Uses no stored data.',
  body: z
    .strictObject({
      lines: z
        .array(z.strictObject({ tally: tallySchema, strands: strandCount, working: workingSchema.default('rows') }))
        .min(1)
        .max(200),
      cloth: clothSchema,
      isTurned: z.boolean().default(false).meta({ description: 'The design’s width runs along the warp.' }),
      allowance: allowanceSchema,
      putUps: z
        .array(
          z.strictObject({ putUpStrandTenths, strands: strandCount.default(1).meta({ description: 'For the words only.' }) }),
        )
        .max(50)
        .default([])
        .meta({ description: 'Put-ups to buy the thread in.' }),
    })
    .meta({ id: 'ThreadUseRequest' }),
  answer: z
    .strictObject({
      need: threadLengthSchema,
      acrossUm: z.number().meta({ description: 'The pitch sideways.' }),
      upUm: z.number(),
      allowance: z.number(),
      lines: z.array(
        z.strictObject({
          strandTenths: z.int(),
          bareStrandTenths: z.number(),
          allowedStrandTenths: z.number(),
          flatStrandTenths: z.number(),
          parts: z.array(partSchema),
          arithmetic: z.array(z.string()),
        }),
      ),
      putUps: z.array(
        z.strictObject({
          putUpStrandTenths: z.int(),
          putUpText: z.string(),
          exactPutUps: z.number(),
          wholePutUps: z.int(),
          needText: z.string().meta({ description: 'The need in thread as sold.' }),
        }),
      ),
    })
    .meta({ id: 'ThreadUse' }),
  answerMeans: 'The need with its arithmetic.',
  example,
})
