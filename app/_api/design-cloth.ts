import { z } from 'zod'
import { weaves } from '#lib/cloth/cloth-piece'
import { distortionSchema, fitSchema, marginsSchema, waySchema } from './cloth-size'
import { ownerIdsField, ownerQuery, whereaboutsFields } from './collection'
import { threadRefSchema } from './cover'
import { designPath, exampleDesign, stitchesSchema } from './designs'
import { operation } from './operation'
import { countSchema, idText, orNull, sizeSchema } from './quantities'

const pieceSchema = z
  .strictObject({
    clothPieceId: z.string(),
    label: z.string().nullable(),
    name: z.string(),
    colourName: z.string().nullable(),
    countText: z.string(),
    weave: z.enum(weaves),
    sizeText: z.string(),
    widthUm: z.int(),
    heightUm: z.int(),
    isOffcut: z.boolean(),
    ...whereaboutsFields,
  })
  .meta({ id: 'ClothPieceRef' })

const overQuery = z
  .enum(['1', '2'])
  .optional()
  .meta({ description: 'Threads a stitch spans; 2 is for single threads only. The chart’s own when left out.' })

const marginUm = z.coerce.number().int().min(0).max(500_000).optional()

export const contrastSchema = z
  .strictObject({
    isClothKnown: z.boolean().meta({ description: 'False when the colour of the piece is not on record: nothing is judged.' }),
    least: z
      .number()
      .nullable()
      .meta({ description: 'Lightness (CIELAB L*) between thread and cloth under which a thread is hard to see.' }),
    faint: z
      .array(z.strictObject({ thread: threadRefSchema, gap: z.number() }))
      .meta({ description: 'Hard to see, the faintest first.' }),
    notJudged: z.array(threadRefSchema).meta({ description: 'Without a recorded colour.' }),
  })
  .meta({ id: 'ClothContrast' })

const afterSquaring = orNull(fitSchema).meta({
  description: 'Of a nominal size, the fit after losing 1/4 in a side; null for a piece that is squared.',
})

const sizedOnSchema = z.strictObject({
  ends: countSchema,
  picks: countSchema,
  countText: z.string(),
  over: z.literal([1, 2]),
  isTurned: z.boolean(),
})

export const frameSchema = z
  .strictObject({
    finished: sizeSchema,
    opening: sizeSchema.meta({ description: 'What is seen: the stitches and plain cloth around.' }),
    board: sizeSchema.meta({ description: 'The opening and what the rabbet covers.' }),
    exactCut: sizeSchema,
    cut: sizeSchema,
  })
  .meta({ id: 'FrameSize' })

export const getDesignCloth = operation({
  method: 'get',
  path: '/designs/{designId}/cloth',
  id: 'getDesignCloth',
  group: 'Designs',
  summary: 'What cloth a design takes, on every count on hand, and which piece to cut',
  description:
    'Margins are those of `finishing` (the one in the settings when left out), each side of which may be said otherwise. Several motifs on one cloth are counted in threads, with `gapThreads` between them.',
  pathParameters: designPath,
  query: z.strictObject({
    finishing: z.string().min(1).max(60).optional().meta({ description: 'A way of finishing by name; see `listFinishings`.' }),
    leftUm: marginUm,
    rightUm: marginUm,
    topUm: marginUm,
    bottomUm: marginUm,
    over: overQuery,
    across: z.coerce.number().int().min(1).max(100).default(1).meta({ description: 'Motifs side by side.' }),
    down: z.coerce.number().int().min(1).max(100).default(1).meta({ description: 'Motifs one above the other.' }),
    gapThreads: z.coerce.number().int().min(0).max(2_000).default(0),
    count: z
      .string()
      .max(100)
      .optional()
      .meta({ description: 'A count to try, on hand or not: `36`, `34 x 31`, `110 per 10 cm`, `36 over 2`.' }),
    piece: idText.optional().meta({ description: 'A piece to look at instead of the best.' }),
    list: idText
      .optional()
      .meta({ description: 'Thread list whose threads are held against the cloth; the one nearest to stitching when left out.' }),
    ...ownerQuery,
  }),
  answer: z
    .strictObject({
      ownerIds: ownerIdsField,
      designId: z.string(),
      stitches: orNull(stitchesSchema).meta({ description: 'Null when no size is known: then nothing else can be said.' }),
      uncertaintyUm: z.number().meta({ description: 'How far an estimated side may be out; 0 when the stitches are known.' }),
      finishing: z.string(),
      margins: marginsSchema,
      ranked: z
        .array(z.strictObject({ piece: pieceSchema, fit: fitSchema, leftAreaUm2: z.number() }))
        .meta({ description: 'Pieces of the advised cloth that can be used, the one that wastes least first, at most 50.' }),
      bestPieceId: z.string().nullable(),
      toBuy: orNull(sizeSchema).meta({ description: 'What to cut from bought cloth of the advised count when none fits.' }),
      shown: orNull(
        z.strictObject({
          piece: pieceSchema,
          over: z.literal([1, 2]),
          fit: fitSchema,
          upright: fitSchema,
          turned: fitSchema.meta({ description: 'Also where the piece may not be turned; see `isTurnable`.' }),
          isTurnable: z.boolean(),
          isReserved: z.boolean(),
          afterSquaring,
          distortion: orNull(distortionSchema),
          contrast: orNull(contrastSchema).meta({ description: 'Null for a design without a thread list.' }),
          frame: frameSchema,
        }),
      ).meta({ description: 'The piece asked for, else the best.' }),
      kinds: z
        .array(
          z.strictObject({
            kind: z.string(),
            weave: z.enum(weaves),
            over: z.literal([1, 2]),
            isAdvised: z.boolean(),
            isAgainstAdvice: z.boolean().meta({ description: 'The chart insists on another weave.' }),
            pieceCount: z.int(),
            reservedCount: z.int(),
            best: z.strictObject({ piece: pieceSchema, fit: fitSchema }),
            fittingCount: z.int().meta({ description: 'Free pieces that fit as asked.' }),
            isOnlyTurned: z.boolean().meta({ description: 'The best fits, but not upright.' }),
            afterSquaring,
            distortion: orNull(distortionSchema),
            contrast: orNull(contrastSchema),
          }),
        )
        .meta({ description: 'How it comes out on every count on hand, what fits first.' }),
      tried: z
        .array(
          z.strictObject({
            over: z.literal([1, 2]),
            upright: waySchema,
            turned: orNull(waySchema).meta({ description: 'Where the count is not square.' }),
            heldCount: z.int().meta({ description: 'Pieces of that count on hand.' }),
            best: orNull(z.strictObject({ piece: pieceSchema, fit: fitSchema })),
          }),
        )
        .meta({ description: 'On the count tried.' }),
      sizedOn: orNull(sizedOnSchema).meta({ description: 'The cloth that `finishings` are reckoned on.' }),
      finishings: z
        .array(
          z.strictObject({ name: z.string(), isOwn: z.boolean(), margins: marginsSchema, exactCut: sizeSchema, cut: sizeSchema }),
        )
        .meta({ description: 'What to cut for each way of finishing.' }),
    })
    .meta({ id: 'DesignCloth' }),
  answerMeans: 'The cloth answer.',
  problems: ['not-found'],
  example: {
    answer: {
      ownerIds: ['o1'],
      designId: exampleDesign.designId,
      stitches: exampleDesign.stitches,
      uncertaintyUm: 0,
      finishing: 'framed',
      margins: { leftUm: 76_200, rightUm: 76_200, topUm: 76_200, bottomUm: 76_200 },
      ranked: [],
      bestPieceId: null,
      toBuy: null,
      shown: null,
      kinds: [],
      tried: [],
      sizedOn: null,
      finishings: [],
    },
  },
})

const openingSideUm = z.coerce.number().int().min(1).max(3_000_000).optional()

export const getDesignFrame = operation({
  method: 'get',
  path: '/designs/{designId}/frame',
  id: 'getDesignFrame',
  group: 'Designs',
  summary: 'What frame a design takes, and which counts and pieces do for an opening',
  description:
    'With `widthUm` and `heightUm`, every count on hand and the usual ones that are not are held against that opening, which may hang either way. The cut is the opening with rabbet, board edge and turning back on every side, as in the settings.',
  pathParameters: designPath,
  query: z.strictObject({
    widthUm: openingSideUm.meta({ description: 'Of the opening: what is seen in the frame.' }),
    heightUm: openingSideUm,
    seenUm: z.coerce
      .number()
      .int()
      .min(0)
      .max(300_000)
      .optional()
      .meta({ description: 'Plain cloth to be seen on each side; as in the settings when left out.' }),
    over: overQuery,
    piece: idText.optional().meta({ description: 'A piece to reckon the frame on instead of the best.' }),
    ...ownerQuery,
  }),
  answer: z
    .strictObject({
      ownerIds: ownerIdsField,
      designId: z.string(),
      stitches: orNull(stitchesSchema),
      seenUm: z.int(),
      own: orNull(z.strictObject({ piece: orNull(pieceSchema), on: sizedOnSchema, frame: frameSchema })).meta({
        description: 'What frame it takes; `piece` is null for the advised cloth when none of it is held.',
      }),
      counts: orNull(
        z.array(
          z.strictObject({
            weave: z.enum(weaves),
            ends: countSchema,
            picks: countSchema,
            countText: z.string(),
            over: z.literal([1, 2]),
            pieceCount: z.int().meta({ description: '0 for a count that is not on hand.' }),
            kind: z.enum(['fits', 'little-seen', 'too-large']),
            finished: sizeSchema,
            opening: sizeSchema.meta({ description: 'As it hangs.' }),
            seenAcrossUm: z.number().meta({ description: 'Plain cloth seen left and right each; under 0, so much is covered.' }),
            seenUpUm: z.number(),
            cut: sizeSchema,
            pieces: z
              .array(
                z.strictObject({
                  piece: pieceSchema,
                  fit: fitSchema,
                  turnBackUm: z.int().meta({ description: 'Left to turn back on the narrowest side.' }),
                }),
              )
              .meta({ description: 'Best first, at most 5.' }),
          }),
        ),
      ).meta({ description: 'Null when no opening was asked about.' }),
    })
    .meta({ id: 'DesignFrame' }),
  answerMeans: 'The frame.',
  problems: ['not-found'],
  example: {
    answer: {
      ownerIds: ['o1'],
      designId: exampleDesign.designId,
      stitches: exampleDesign.stitches,
      seenUm: 19_050,
      own: null,
      counts: null,
    },
  },
})
