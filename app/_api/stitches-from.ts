import { z } from 'zod'
import { stitches } from '#lib/thread/stitches'
import example from './examples/calculate-stitches-from.json'
import { operation } from './operation'
import { clothSchema, strandCount, strandTenths } from './quantities'
import { allowanceSchema, workingSchema } from './thread-use'

export const calculateStitchesFrom = operation({
  method: 'post',
  path: '/calculate/stitches-from',
  id: 'calculateStitchesFrom',
  right: 'read',
  group: 'Calculators',
  summary: 'How many stitches a length of thread covers',
  description:
    'The most stitches of each kind, worked in that kind alone, whose thread use is not above the length. Uses no stored data.',
  body: z
    .strictObject({
      strandTenths: strandTenths.meta({
        description: 'The length in tenths of a millimetre of one strand: 2.5 m of six strands is 150,000.',
      }),
      stitches: z.array(z.enum(stitches)).min(1).max(stitches.length),
      strands: strandCount,
      working: workingSchema.default('rows'),
      cloth: clothSchema,
      isTurned: z.boolean().default(false).meta({ description: 'The design’s width runs along the warp.' }),
      allowance: allowanceSchema,
    })
    .meta({ id: 'StitchesFromRequest' }),
  answer: z
    .strictObject({
      acrossUm: z.number().meta({ description: 'The pitch sideways.' }),
      upUm: z.number(),
      reaches: z.array(
        z.strictObject({
          stitch: z.enum(stitches),
          count: z.int(),
          usedStrandTenths: z.int(),
          leftStrandTenths: z.int(),
          arithmetic: z.array(z.string()),
        }),
      ),
    })
    .meta({ id: 'StitchesFrom' }),
  answerMeans: 'How many of each, in the order asked.',
  example,
})
