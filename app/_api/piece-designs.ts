import { z } from 'zod'
import { fitSchema } from './cloth-size'
import { flagQuery, ownerIdsField, ownerQuery } from './collection'
import { operation } from './operation'
import { nextField, pageQuery } from './paging'
import { idText, sizeSchema } from './quantities'

const idsQuery = (what: string) =>
  z
    .array(idText)
    .max(100)
    .optional()
    .meta({ description: `${what}; any of those named.` })

const exampleSize = (widthIn: number, heightIn: number) => ({
  widthUm: widthIn * 25_400,
  heightUm: heightIn * 25_400,
  widthIn,
  heightIn,
  widthCm: Number((widthIn * 2.54).toFixed(4)),
  heightCm: Number((heightIn * 2.54).toFixed(4)),
  text: `${widthIn} × ${heightIn} in (${Number((widthIn * 2.54).toFixed(2))} × ${Number((heightIn * 2.54).toFixed(2))} cm)`,
})

export const listPieceDesigns = operation({
  method: 'get',
  path: '/cloth/{clothPieceId}/designs',
  id: 'listPieceDesigns',
  group: 'Stock',
  summary: 'Every design a piece of cloth takes, best use first',
  description:
    'What fits with its margins comes before what would at smaller ones; what is worked as its chart advises before what it only allows; then what is wanted or planned and what is stitchable now; then what leaves least of the piece; then title. A design stands once, over as many threads as suit it.',
  pathParameters: z.strictObject({ clothPieceId: idText }),
  query: z.strictObject({
    over: z
      .enum(['1', '2'])
      .transform((over) => (over === '1' ? 1 : 2))
      .optional()
      .meta({ description: 'Only worked over so many threads.' }),
    asAsked: flagQuery.optional().meta({ description: 'Only with the margins of the settings, none of them smaller.' }),
    stitchableNow: flagQuery.optional().meta({ description: 'Only designs whose threads are all there.' }),
    season: idsQuery('Ids of seasons'),
    subject: idsQuery('Ids of subjects'),
    form: idsQuery('Ids of forms'),
    chartOwner: idsQuery('Ids of owners of the chart, or `any`; the owners whose stock counts when left out'),
    ...ownerQuery,
    ...pageQuery,
  }),
  answer: z
    .strictObject({
      ownerIds: ownerIdsField,
      clothPieceId: z.string(),
      isReserved: z.boolean().meta({ description: 'A project or a plan of cuts keeps the piece.' }),
      total: z.int(),
      designs: z.array(
        z.strictObject({
          designId: z.string(),
          title: z.string(),
          over: z.literal([1, 2]),
          isUsualOver: z.boolean().meta({ description: 'As many threads as the chart advises, or as is usual for the weave.' }),
          isAdvised: z.boolean().meta({ description: 'The piece is of the kind the chart advises.' }),
          isWanted: z.boolean().meta({ description: 'A project of it is wanted or planned.' }),
          isStitchableNow: z.boolean(),
          fit: fitSchema,
          left: z.array(sizeSchema).meta({ description: 'What is left of the piece and worth keeping, the larger first.' }),
        }),
      ),
      next: nextField,
    })
    .meta({ id: 'PieceDesigns' }),
  answerMeans: 'A page of designs.',
  problems: ['not-found'],
  example: {
    answer: {
      ownerIds: ['o1'],
      clothPieceId: 'c1',
      isReserved: false,
      total: 1,
      designs: [
        {
          designId: 'd1',
          title: 'Rook Hill in Snow',
          over: 2,
          isUsualOver: true,
          isAdvised: true,
          isWanted: true,
          isStitchableNow: false,
          fit: {
            kind: 'fits',
            isTurned: false,
            finished: exampleSize(10, 7),
            exactCut: exampleSize(16, 13),
            cut: exampleSize(16, 13),
            spareWidthUm: 50_800,
            spareHeightUm: 355_600,
            nothingToSpare: false,
            squareFirst: false,
            fitsAfterSquaring: true,
            text: 'Fits, with 2 in (5.08 cm) to spare.',
          },
          left: [exampleSize(18, 14)],
        },
      ],
      next: null,
    },
  },
})
