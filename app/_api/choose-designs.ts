import { z } from 'zod'
import { choiceSources, mostValueOfDesign } from '#lib/planning/wish-value'
import { ownerIdsField } from './collection'
import { operation } from './operation'
import { idText } from './quantities'

const ids = z.array(idText).max(400)

export const chooseDesignsOperation = operation({
  method: 'post',
  path: '/cloth/choose',
  id: 'chooseDesigns',
  group: 'Designs',
  summary: 'Which designs some cloth can become, nothing bought',
  description:
    'The designs worth most together that can be stitched from free thread and cut from these pieces, straight from edge to edge. Nothing is written. It answers when nothing better can be, or when the time is up; then `bound` says what another choice could at most be worth. Refused while as many choices are being made as may be at a time.',
  body: z
    .strictObject({
      from: z.enum(choiceSources).default('wished').meta({
        description:
          'The wishes (projects only wanted so far), all that is stitchable now and not under way, or the designs named.',
      }),
      designIds: ids.optional().meta({ description: 'With `ticked` those to choose from; else only these of them.' }),
      pieceIds: ids
        .optional()
        .meta({ description: 'Pieces that may be cut; every free one when left out. Reserved ones never are.' }),
      values: z.record(idText, z.int().min(1).max(mostValueOfDesign)).default({}).meta({
        description: 'What a design counts, by its id. Else 1; a wish 3, by a day within half a year 4, within a quarter 5.',
      }),
      seconds: z.int().min(1).max(60).default(20),
      owner: z.array(idText).max(20).optional().meta({
        description: 'Whose cloth, thread and wishes; several may be named. The first owner of the collection when none is.',
      }),
    })
    .meta({ id: 'ChooseDesignsRequest' }),
  answer: z
    .strictObject({
      ownerIds: ownerIdsField,
      value: z.int(),
      bound: z.int().meta({ description: 'No choice is worth more.' }),
      isProved: z.boolean(),
      endedBy: z.enum(['proof', 'time', 'stop', 'doubt']),
      pieces: z.array(
        z.strictObject({
          pieceId: z.string(),
          designs: z.array(
            z.strictObject({
              designId: z.string(),
              title: z.string(),
              listId: z.string(),
              xUm: z.int(),
              yUm: z.int(),
              widthUm: z.int(),
              heightUm: z.int(),
              isTurned: z.boolean(),
            }),
          ),
        }),
      ),
      leftOut: z
        .array(z.strictObject({ designId: z.string(), title: z.string(), why: z.array(z.string()) }))
        .meta({ description: 'Those that could be stitched by themselves.' }),
      never: z
        .array(z.strictObject({ designId: z.string(), title: z.string(), why: z.string() }))
        .meta({ description: 'Those that cannot, whatever else is chosen.' }),
      passedOver: z.strictObject({ designs: z.int(), pieces: z.int() }).meta({ description: 'More than are weighed at a time.' }),
    })
    .meta({ id: 'ChooseDesignsAnswer' }),
  answerMeans: 'What each piece becomes, and why the others are left out.',
  problems: ['refused'],
  example: {
    body: { from: 'ticked', designIds: ['d1', 'd2', 'd3'], pieceIds: ['c1'], values: { d1: 5 } },
    answer: {
      ownerIds: ['o1'],
      value: 5,
      bound: 5,
      isProved: true,
      endedBy: 'proof',
      pieces: [
        {
          pieceId: 'c1',
          designs: [
            {
              ...{ designId: 'd1', title: 'Rook Hill in Snow', listId: 'l1' },
              ...{ xUm: 0, yUm: 0, widthUm: 406_400, heightUm: 330_200, isTurned: false },
            },
          ],
        },
      ],
      leftOut: [{ designId: 'd2', title: 'Little Barge', why: ['No room on C1 beside what is cut from it.'] }],
      never: [{ designId: 'd3', title: 'Winter Post', why: 'It has no thread list yet.' }],
      passedOver: { designs: 0, pieces: 0 },
    },
  },
})
