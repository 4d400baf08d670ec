import { z } from 'zod'
import { type Drum, roundOfUm } from '#lib/cloth/drum-strip'
import { finishingMargins, finishings, type Margins, marginsAllRound } from '#lib/cloth/margins'
import { roundingSteps } from '#lib/settings/settings'
import example from './examples/calculate-cloth-size.json'
import drumExample from './examples/calculate-drum-strip.json'
import { operation } from './operation'
import {
  clothSchema,
  designSide,
  idText,
  lengthUm,
  orNull,
  pieceCountFields,
  readPieceCount,
  sideUm,
  sizeSchema,
} from './quantities'

export const marginsSchema = z
  .strictObject({ leftUm: lengthUm, rightUm: lengthUm, topUm: lengthUm, bottomUm: lengthUm })
  .meta({ id: 'Margins', description: 'Plain cloth left on each side of the design.' })

export const waySchema = z.strictObject({ finished: sizeSchema, exactCut: sizeSchema, cut: sizeSchema }).meta({
  id: 'CutWay',
  description: 'The finished size, the exact cut by which fit is judged, and that rounded up, which is what to cut.',
})

/** How a design goes on a piece of cloth. Widths and heights are the design's. */
export const fitSchema = z
  .discriminatedUnion('kind', [
    z.strictObject({
      kind: z.literal('fits'),
      isTurned: z.boolean(),
      ...waySchema.shape,
      spareWidthUm: z.number(),
      spareHeightUm: z.number(),
      nothingToSpare: z
        .boolean()
        .meta({ description: 'The rounded cut takes all of a side, or would not fit: cut the exact size.' }),
      squareFirst: z.boolean().meta({ description: 'The size is nominal: square the piece before trusting this.' }),
      fitsAfterSquaring: z.boolean().meta({ description: 'Still fits after losing 1/4 in a side.' }),
      text: z.string(),
    }),
    z.strictObject({
      kind: z.literal('smaller-margin'),
      isTurned: z.boolean(),
      ...waySchema.shape,
      dimension: z.enum(['width', 'height', 'both']),
      marginUm: z.int().meta({ description: 'The narrowest margin there would be on those sides.' }),
      margins: marginsSchema,
      squareFirst: z.boolean(),
      text: z.string(),
    }),
    z.strictObject({
      kind: z.literal('too-small'),
      isTurned: z.boolean(),
      ...waySchema.shape,
      lackWidthUm: z.int().meta({ description: 'What the piece lacks even without any margin.' }),
      lackHeightUm: z.int(),
      text: z.string(),
    }),
  ])
  .meta({ id: 'PieceFit' })

export const distortionSchema = z
  .strictObject({
    stitches: z.int().meta({ description: 'Across the circle: the smaller side of the design.' }),
    wideUm: z.number(),
    tallUm: z.number(),
    way: z.enum(['taller', 'wider']),
    differenceUm: z.number(),
    percent: z.number().meta({ description: 'How much finer the finer way is counted.' }),
    text: z.string(),
  })
  .meta({ id: 'Distortion', description: 'How a circle comes out on cloth that was not counted the same both ways.' })

const pieceSchema = z
  .strictObject({
    id: idText.meta({ description: 'Your name for the piece.' }),
    widthUm: sideUm.meta({ description: 'Along the weft.' }),
    heightUm: sideUm.meta({ description: 'Along the warp.' }),
    ...pieceCountFields,
    isTurnable: z.boolean().default(true),
    isSquared: z.boolean().default(false).meta({ description: 'Measured after squaring; false for a nominal size.' }),
    isOffcut: z.boolean().default(false),
  })
  .transform((piece, context) => {
    if (piece.count === undefined && piece.ends === undefined && piece.picks === undefined) return { ...piece, cloth: null }
    const read = readPieceCount(piece)
    if ('message' in read) {
      context.issues.push({
        code: 'custom',
        input: piece,
        path: [read.field],
        message: read.message,
        params: { accepted: read.accepted },
      })
      return z.NEVER
    }
    return { ...piece, cloth: read }
  })

export const calculateClothSize = operation({
  method: 'post',
  path: '/calculate/cloth-size',
  id: 'calculateClothSize',
  right: 'read',
  group: 'Calculators',
  summary: 'What cloth to cut for a design, and whether pieces fit',
  description:
    'The finished size, upright and turned, what to cut, and how the design goes on each posted piece. A piece without a count of its own has the count of `cloth`. Margins: one of `finishing`, `marginUm` (the same all round) or `margins`; framed when none is given. Uses no stored data.',
  body: z
    .strictObject({
      stitches: z.strictObject({ width: designSide, height: designSide }),
      cloth: clothSchema,
      finishing: z.enum(finishings).optional(),
      marginUm: lengthUm.optional(),
      margins: marginsSchema.optional(),
      motifs: z
        .strictObject({
          across: z.int().min(1).max(100).default(1),
          down: z.int().min(1).max(100).default(1),
          gapThreads: z
            .int()
            .min(0)
            .max(2_000)
            .default(0)
            .meta({ description: 'Threads (blocks, on block cloth) between two motifs.' }),
        })
        .default({ across: 1, down: 1, gapThreads: 0 })
        .meta({ description: 'The design several times on one cloth.' }),
      uncertaintyUm: lengthUm
        .default(0)
        .meta({ description: 'Half the step that an estimated size was ruled to: added once to each side of a motif.' }),
      shrinkPercent: z
        .number()
        .min(0)
        .max(20)
        .default(0)
        .meta({ description: 'What the cloth loses when washed after cutting.' }),
      roundingUm: z
        .literal([...roundingSteps])
        .default(12_700)
        .meta({ description: 'Step a cut is rounded up to: 1/4 in, 1/2 in or 1 cm.' }),
      pieces: z.array(pieceSchema).max(500).default([]),
    })
    .transform((body, context): Omit<typeof body, 'margins'> & { margins: Margins } => {
      const said = (['finishing', 'marginUm', 'margins'] as const).filter((field) => body[field] !== undefined)
      if (said.length > 1) {
        const params = { accepted: 'one of finishing, marginUm and margins' }
        context.issues.push({
          code: 'custom',
          input: body,
          path: [said[1] as string],
          message: 'The margins are said twice.',
          params,
        })
        return z.NEVER
      }
      const allRound = body.marginUm === undefined ? undefined : marginsAllRound(body.marginUm)
      return { ...body, margins: body.margins ?? allRound ?? { ...finishingMargins[body.finishing ?? 'framed'] } }
    })
    .meta({ id: 'ClothSizeRequest' }),
  answer: z
    .strictObject({
      margins: marginsSchema,
      upright: waySchema,
      turned: waySchema,
      distortion: orNull(distortionSchema).meta({ description: 'Upright on `cloth`; null when it is square.' }),
      arithmetic: z.array(z.string()),
      fits: z
        .array(
          z.strictObject({
            id: z.string(),
            fit: fitSchema,
            afterSquaring: orNull(fitSchema).meta({
              description: 'Of a nominal size, the fit after losing 1/4 in a side; null for a piece that is squared.',
            }),
            distortion: orNull(distortionSchema),
          }),
        )
        .meta({ description: 'In the order posted.' }),
      ranked: z.array(z.string()).meta({ description: 'Ids of the pieces that can be used, best first.' }),
      bestPieceId: z.string().nullable().meta({ description: 'The first that fits with the margins asked for.' }),
      toBuy: orNull(waySchema.shape.cut).meta({ description: 'What to cut from bought cloth when none fits, else null.' }),
    })
    .meta({ id: 'ClothSizeAnswer' }),
  answerMeans: 'Sizes, fits and the piece to take.',
  example,
})

export const calculateDrumStrip = operation({
  method: 'post',
  path: '/calculate/drum-strip',
  id: 'calculateDrumStrip',
  right: 'read',
  group: 'Calculators',
  summary: 'The strip of cloth that covers a drum',
  description: 'Once round with the side margins for the lap, its height with those above and below. Uses no stored data.',
  body: z
    .strictObject({
      roundUm: sideUm.optional().meta({ description: 'Once round at its widest. This or `acrossUm`.' }),
      acrossUm: sideUm.optional(),
      heightUm: sideUm,
      margins: marginsSchema.default({ ...finishingMargins.drum }),
      shrinkPercent: z.number().min(0).max(20).default(0),
      roundingUm: z.literal([...roundingSteps]).default(12_700),
    })
    .transform((body, context): Omit<typeof body, 'roundUm' | 'acrossUm'> & Drum => {
      const { roundUm, acrossUm, ...rest } = body
      if (roundUm !== undefined && acrossUm === undefined) return { ...rest, roundUm }
      if (roundUm === undefined && acrossUm !== undefined) return { ...rest, roundUm: roundOfUm(acrossUm) }
      context.issues.push({
        code: 'custom',
        input: body,
        path: ['roundUm'],
        message: roundUm === undefined ? 'It is missing.' : 'The drum is measured twice.',
        params: { accepted: 'one of roundUm and acrossUm' },
      })
      return z.NEVER
    })
    .meta({ id: 'DrumStripRequest' }),
  answer: z.strictObject({ roundUm: z.int(), exactCut: sizeSchema, cut: sizeSchema }).meta({ id: 'DrumStripAnswer' }),
  answerMeans: 'The strip, its length first.',
  example: drumExample,
})
