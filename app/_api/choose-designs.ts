import { z } from 'zod'
import { choicePins } from '#lib/planning/together/choice-world'
import { choiceSources, mostStars, mostValueOfDesign } from '#lib/planning/together/wish-value'
import { ownerIdsField, ownerQuery } from './collection'
import { operation } from './operation'
import { projectAnswer, projectPath } from './projects'
import { idText, orNull } from './quantities'

const ids = z.array(idText).max(1_000)

const buyingSchema = z
  .discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('nothing') }),
    z.strictObject({ kind: z.literal('put-ups'), most: z.int().min(0).max(200) }),
    z.strictObject({ kind: z.literal('budget'), mostMinor: z.int().min(0).max(100_000_000) }),
  ])
  .meta({ id: 'Buying', description: 'Nothing; so many whole put-ups; or for so much money, threads without a price left out.' })

const bodyFields = {
  from: z.enum(choiceSources).default('wished').meta({
    description: 'The wishes (projects only wanted so far), all that is stitchable now and not under way, or the designs named.',
  }),
  designIds: ids.optional().meta({ description: 'With `ticked` those to choose from; else only these of them.' }),
  values: z.record(idText, z.int().min(1).max(mostValueOfDesign)).default({}).meta({
    description:
      'What a design counts, by its id. Else 1, or for a wish twice its stars (6 where none are given); and more for a near day, a near season and years since it was bought.',
  }),
  pins: z.record(idText, z.enum(choicePins)).default({}).meta({ description: 'Which must be in, and which may not; by design.' }),
  buying: buyingSchema.default({ kind: 'nothing' }),
  hasLadder: z.boolean().default(false).meta({ description: 'Also what other limits to buying bring, within the same time.' }),
  seconds: z.int().min(1).max(60).default(20),
  owner: z.array(idText).max(20).optional().meta({
    description: 'Whose cloth, thread and wishes; several may be named. The first owner of the collection when none is.',
  }),
}

const pieceIdsField = ids
  .optional()
  .meta({ description: 'Pieces that may be cut; every free one when left out. Reserved ones never are.' })

const boughtSchema = z.array(
  z.strictObject({
    ...{ threadId: z.string(), thread: z.string(), putUps: z.int() },
    minor: z.int().nullable().meta({ description: 'What they cost; null where no price is known.' }),
    isOneLot: z.boolean(),
  }),
)

const answerFields = {
  ownerIds: ownerIdsField,
  value: z.int(),
  bound: z.int().meta({ description: 'No choice is worth more.' }),
  isProved: z.boolean(),
  endedBy: z.enum(['proof', 'time', 'stop', 'doubt']),
  chosen: z
    .array(
      z.strictObject({
        ...{ designId: z.string(), title: z.string(), listId: z.string(), copies: z.int(), value: z.int() },
        why: z.string().meta({ description: 'The sum of what it counts by itself.' }),
      }),
    )
    .meta({ description: 'Worth most first.' }),
  bought: boughtSchema,
  pieces: z
    .array(
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
    )
    .meta({ description: 'How each piece is cut; none with cloth aside.' }),
  leftOut: z
    .array(
      z.strictObject({
        ...{ designId: z.string(), title: z.string(), why: z.array(z.string()) },
        threads: z.array(
          z.strictObject({
            ...{ threadId: z.string(), needStrandTenths: z.int(), leftStrandTenths: z.int(), morePutUps: z.int() },
            takenBy: z.array(z.strictObject({ designId: z.string(), strandTenths: z.int() })),
          }),
        ),
      }),
    )
    .meta({ description: 'Those that could be stitched by themselves, and the threads that keep them out.' }),
  never: z
    .array(z.strictObject({ designId: z.string(), title: z.string(), why: z.string() }))
    .meta({ description: 'Those that cannot, whatever else is chosen.' }),
  unlocks: z
    .array(
      z.strictObject({
        ...{ threadId: z.string(), thread: z.string(), priceMinor: z.int().nullable(), isOneLot: z.boolean() },
        steps: z.array(z.strictObject({ putUps: z.int(), designIds: z.array(z.string()) })),
      }),
    )
    .meta({ description: 'By thread, which designs buying so much of it alone makes stitchable, each by itself.' }),
  ladder: z
    .array(
      z.strictObject({
        buying: buyingSchema,
        ...{ value: z.int(), bound: z.int(), isProved: z.boolean(), designIds: z.array(z.string()), bought: boughtSchema },
      }),
    )
    .meta({ description: 'The best choice within each limit, the least first.' }),
  passedOver: z.strictObject({ designs: z.int(), pieces: z.int() }).meta({ description: 'More than are weighed at a time.' }),
}

const exampleAnswer = {
  ...{ ownerIds: ['o1'], value: 8, bound: 8, isProved: true, endedBy: 'proof' as const },
  chosen: [{ designId: 'd1', title: 'Rook Hill in Snow', listId: 'l1', copies: 1, value: 8, why: '4 stars → 8' }],
  bought: [{ threadId: 't1', thread: 'Larkholm 0742', putUps: 1, minor: 115, isOneLot: false }],
  leftOut: [
    {
      ...{ designId: 'd2', title: 'Little Barge' },
      why: ['Larkholm 0311: needs 6 m, 4 m is left: 2 m, 1 put-up, short; Rook Hill in Snow takes it.'],
      threads: [
        {
          ...{ threadId: 't2', needStrandTenths: 360_000, leftStrandTenths: 240_000, morePutUps: 1 },
          takenBy: [{ designId: 'd1', strandTenths: 240_000 }],
        },
      ],
    },
  ],
  never: [{ designId: 'd3', title: 'Winter Post', why: 'It has no thread list yet.' }],
  unlocks: [
    {
      ...{ threadId: 't1', thread: 'Larkholm 0742', priceMinor: 115, isOneLot: false },
      steps: [{ putUps: 1, designIds: ['d1', 'd4', 'd5'] }],
    },
  ],
  ladder: [],
  passedOver: { designs: 0, pieces: 0 },
}

const endings =
  'Nothing is written. It answers when nothing better can be, or when the time is up; then `bound` says what another choice could at most be worth. Refused while as many choices are being made as may be at a time, and where those that must be in cannot all be.'

export const chooseDesignsOperation = operation({
  method: 'post',
  path: '/cloth/choose',
  id: 'chooseDesigns',
  right: 'read',
  group: 'Designs',
  summary: 'Which designs some cloth can become',
  description: `The designs worth most together that can be stitched from free thread and what may be bought, and cut from these pieces, straight from edge to edge. ${endings}`,
  body: z.strictObject({ ...bodyFields, pieceIds: pieceIdsField }).meta({ id: 'ChooseDesignsRequest' }),
  answer: z.strictObject(answerFields).meta({ id: 'ChooseDesignsAnswer' }),
  answerMeans: 'What each piece becomes, and why the others are left out.',
  problems: ['refused'],
  example: {
    body: { from: 'ticked', designIds: ['d1', 'd2', 'd3'], pieceIds: ['c1'], values: { d1: 5 } },
    answer: {
      ...exampleAnswer,
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
    },
  },
})

export const chooseTogetherOperation = operation({
  method: 'post',
  path: '/projects/together',
  id: 'chooseTogether',
  right: 'read',
  group: 'Projects',
  summary: 'Which wishes can all be stitched together',
  description: `The designs worth most together that can all be stitched from free thread, with nothing bought or only so much; with cloth aside unless it is asked about. ${endings}`,
  body: z
    .strictObject({
      ...bodyFields,
      isClothAside: z.boolean().default(true).meta({ description: 'Whether thread alone decides.' }),
      pieceIds: pieceIdsField,
    })
    .meta({ id: 'ChooseTogetherRequest' }),
  answer: z.strictObject(answerFields).meta({ id: 'ChooseTogetherAnswer' }),
  answerMeans: 'What goes together, what is bought for it, why the others are left out, and what more buying would bring.',
  problems: ['refused'],
  example: {
    body: { buying: { kind: 'put-ups', most: 2 }, pins: { d1: 'in' }, hasLadder: true },
    answer: { ...exampleAnswer, pieces: [] },
  },
})

const pairedSchema = z.strictObject({
  ...{ projectId: z.string(), designId: z.string(), title: z.string(), status: z.enum(['wanted', 'planned']), threads: z.int() },
})

export const listKitPairsOperation = operation({
  method: 'get',
  path: '/projects/together/pairs',
  id: 'listKitPairs',
  group: 'Projects',
  summary: 'Which two to kit at once, by the threads they share',
  description:
    'Of what is wanted or planned. First those of which one has every colour of the other, then those that save most pulls.',
  query: z.strictObject({ ...ownerQuery, limit: z.coerce.number().int().min(1).max(1_000).default(100) }),
  answer: z
    .strictObject({
      ownerIds: ownerIdsField,
      total: z.int(),
      passedOver: z.int().meta({ description: 'Projects not looked at.' }),
      pairs: z.array(
        z.strictObject({
          projects: z
            .array(pairedSchema)
            .meta({ description: 'Two; of a pair of which one has every colour of the other, that one last.' }),
          ...{ sharedThreadIds: z.array(z.string()), isCovered: z.boolean() },
          pulls: z.int().meta({ description: 'Threads to pull for both at once.' }),
          pullsSaved: z.int(),
        }),
      ),
    })
    .meta({ id: 'KitPairs' }),
  answerMeans: 'The pairs, the best first.',
  example: {
    answer: {
      ...{ ownerIds: ['o1'], total: 1, passedOver: 0 },
      pairs: [
        {
          projects: [
            { projectId: 'j1', designId: 'd1', title: 'Little Barge', status: 'wanted', threads: 3 },
            { projectId: 'j2', designId: 'd2', title: 'Rook Hill in Snow', status: 'planned', threads: 8 },
          ],
          ...{ sharedThreadIds: ['t1', 't2', 't3'], isCovered: true, pulls: 8, pullsSaved: 3 },
        },
      ],
    },
  },
})

export const setStarsOperation = operation({
  method: 'post',
  path: '/projects/{projectId}/stars',
  id: 'setStars',
  group: 'Projects',
  summary: 'Say how much it is wished for',
  pathParameters: projectPath,
  body: z
    .strictObject({ stars: orNull(z.int().min(1).max(mostStars)).meta({ description: '1 to 5; null takes them off.' }) })
    .meta({ id: 'SetStarsRequest' }),
  answer: projectAnswer.schema,
  answerMeans: 'Said.',
  problems: ['not-found'],
  takesIdempotencyKey: true,
  example: { body: { stars: 4 }, answer: { ...projectAnswer.example, version: 1 } },
})
