import { z } from 'zod'
import { cutObjectives } from '#lib/cloth/cut-plan'
import { cutPriorities, mostCopies, mostCutPieces, mostWishes, mostWorth, widestCutMarginUm } from '#lib/coverage/asked-cut'
import { cutPlanStatuses } from '#lib/db/cut-plan/queries'
import { mostCutSeconds } from '#lib/db/cut-plan/start-cut'
import { operation } from './operation'
import { idText, noteText, orNull, shortText, sideUm } from './quantities'

const common = {
  copies: z.int().min(1).max(mostCopies).default(1),
  priority: z.enum(cutPriorities).default('wanted').meta({
    description: 'One copy of an earlier kind counts more than all of the later ones together.',
  }),
  worth: z.int().min(1).max(mostWorth).default(1).meta({ description: 'What a copy counts beside others of its priority.' }),
}

const margin = z.int().min(0).max(widestCutMarginUm)

const wishSchema = z.discriminatedUnion('kind', [
  z
    .strictObject({
      kind: z.literal('design'),
      designId: idText,
      projectId: idText.nullable().default(null).meta({
        description: 'The project it is cut for: what is cut is kept for it, and pieces that are kept for it may be cut.',
      }),
      over: z.literal([1, 2]).nullable().default(null).meta({ description: 'Threads to a stitch; null as the chart advises.' }),
      finishing: shortText
        .optional()
        .meta({ description: 'Gives the margins; the one in force when it and `margins` are left out.' }),
      margins: z
        .strictObject({ leftUm: margin, rightUm: margin, topUm: margin, bottomUm: margin })
        .optional()
        .meta({ description: 'Instead of those of a finishing.' }),
      cloth: z
        .enum(['advised', 'any'])
        .default('advised')
        .meta({ description: 'Only cloth of the kind its chart advises, or any that takes it.' }),
      ...common,
    })
    .meta({ id: 'CutDesignWish' }),
  z
    .strictObject({
      kind: z.literal('size'),
      widthUm: sideUm.meta({ description: 'Along the weft.' }),
      heightUm: sideUm,
      mayTurn: z.boolean().default(true),
      ...common,
    })
    .meta({ id: 'CutSizeWish' }),
])

const cutPartSchema = z
  .strictObject({
    key: z.string().meta({ description: 'Names it when the plan is carried out.' }),
    kind: z.enum(['wanted', 'offcut']),
    wish: z.int().nullable().meta({ description: 'Which of the wishes it is of, counted from 0; null for an offcut.' }),
    title: z.string(),
    isTurned: z.boolean(),
    xUm: z.int().meta({ description: 'From the piece’s lower left corner, along the weft.' }),
    yUm: z.int().meta({ description: 'Up the warp.' }),
    widthUm: z.int(),
    heightUm: z.int(),
    sizeText: z.string(),
  })
  .meta({ id: 'CutPart' })

const foundSchema = z
  .strictObject({
    copies: z.int().meta({ description: 'Asked for.' }),
    cutCopies: z.int(),
    cutCount: z.int(),
    wasteUm2: z.number(),
    isProved: z.boolean().meta({ description: 'No plan is better.' }),
    boundText: z.string().meta({ description: 'How near it is to the best that could be.' }),
    leftOut: z.array(z.strictObject({ wish: z.int(), title: z.string(), copies: z.int(), why: z.string() })),
    pieces: z.array(
      z.strictObject({
        clothPieceId: z.string(),
        label: z.string().nullable(),
        name: z.string(),
        widthUm: z.int(),
        heightUm: z.int(),
        steps: z.array(z.string()).meta({ description: 'The cuts in order, each straight through from edge to edge.' }),
        parts: z.array(cutPartSchema),
      }),
    ),
  })
  .meta({ id: 'FoundCuts' })

const jobSchema = z
  .strictObject({
    jobId: z.string(),
    state: z.enum(['running', 'searched', 'out-of-time', 'stopped', 'failed']).meta({
      description: '`searched`: the search came to its end; whether the plan is proved, it says itself.',
    }),
    seconds: z.number().meta({ description: 'How long it has run, or ran.' }),
    timeLimitSeconds: z.int(),
    found: orNull(foundSchema).meta({ description: 'The best so far; null until there is a first.' }),
  })
  .meta({ id: 'CutJob' })

const planRow = {
  cutPlanId: z.string(),
  version: z.int(),
  title: z.string(),
  status: z.enum(cutPlanStatuses).meta({ description: '`kept` sets its pieces aside, until it is `cut` or `dropped`.' }),
  createdAt: z.string().meta({ description: 'ISO 8601, UTC.' }),
  closedAt: z.string().nullable(),
}

const planSchema = z
  .strictObject({
    ...planRow,
    objective: z.enum(cutObjectives),
    gapUm: z.int(),
    leastOffcutUm: z.int(),
    seed: z.int(),
    found: foundSchema,
    made: z
      .array(
        z.strictObject({
          clothPieceId: z.string(),
          parentId: z.string().nullable(),
          label: z.string().nullable(),
          widthUm: z.int(),
          heightUm: z.int(),
        }),
      )
      .meta({ description: 'The pieces that were cut, as measured, once it was carried out.' }),
  })
  .meta({ id: 'CutPlan' })

const jobPath = z.strictObject({ jobId: idText })
const planPath = z.strictObject({ cutPlanId: idText })
const version = z.int().min(0).optional().meta({ description: 'As it was read; left out, it is taken as it stands.' })

const inch = 25_400
const exampleParts = [
  { key: 'w1-1', kind: 'wanted' as const, wish: 0, title: 'Seven Lanterns', isTurned: false, xUm: 0, yUm: 0 },
  { key: 'offcut-1', kind: 'offcut' as const, wish: null, title: 'offcut 1', isTurned: false, xUm: 0, yUm: 10 * inch },
]
const exampleFound = {
  copies: 1,
  cutCopies: 1,
  cutCount: 1,
  wasteUm2: 0,
  isProved: true,
  boundText: 'Proved: nothing better exists.',
  leftOut: [],
  pieces: [
    {
      clothPieceId: 'c1',
      label: 'L-12',
      name: 'Harrowmere linen',
      widthUm: 10 * inch,
      heightUm: 18 * inch,
      steps: [
        'Cut straight across, 10 in from the foot. The lower part, 10 × 10 in, is A, Seven Lanterns. The upper part, 10 × 8 in, is offcut 1: keep it.',
      ],
      parts: [
        {
          ...(exampleParts[0] as (typeof exampleParts)[number]),
          widthUm: 10 * inch,
          heightUm: 10 * inch,
          sizeText: '10 × 10 in',
        },
        { ...(exampleParts[1] as (typeof exampleParts)[number]), widthUm: 10 * inch, heightUm: 8 * inch, sizeText: '10 × 8 in' },
      ],
    },
  ],
}
const exampleJob = { jobId: 'j1', state: 'searched' as const, seconds: 0.4, timeLimitSeconds: 20, found: exampleFound }
const exampleRow = {
  cutPlanId: 'k1',
  version: 0,
  title: 'Autumn class',
  status: 'kept' as const,
  createdAt: '2026-09-08T09:30:00.000Z',
  closedAt: null,
}
const exampleSettings = { objective: 'largest offcut' as const, gapUm: 0, leastOffcutUm: 5 * inch, seed: 1 }
const examplePlan = { ...exampleRow, ...exampleSettings, found: exampleFound, made: [] }

export const startCutJobOperation = operation({
  method: 'post',
  path: '/cut-jobs',
  id: 'startCutJob',
  right: 'read',
  group: 'Stock',
  summary: 'Begin to search for a way to cut several things from cloth on hand',
  description:
    'By straight cuts from edge to edge. As much as can be is cut; of the ways that cut as much, the best by the objective is sought, until it is proved or the time is up. The search runs in the background and lives in memory: ask for it by its id, and keep what it finds.',
  body: z
    .strictObject({
      wishes: z.array(wishSchema).min(1).max(mostWishes),
      pieceIds: z.array(idText).max(mostCutPieces).nullable().default(null).meta({
        description: 'Pieces to cut from; null for those that suit best: of the advised kind, offcuts and smaller ones first.',
      }),
      objective: z.enum(cutObjectives).default('largest offcut'),
      gapUm: z.int().min(0).max(50_000).optional().meta({
        description: 'Lost along each cut, where edges are pinked or torn; as the settings have it when left out.',
      }),
      leastOffcutUm: z.int().min(0).max(1_000_000).optional().meta({
        description:
          'A leftover at least so long both ways is an offcut, a smaller one waste; as the settings have it when left out.',
      }),
      seed: z.int().min(0).max(1_000_000_000).default(1).meta({ description: 'Equal seeds search in the same order.' }),
      timeLimitSeconds: z.int().min(1).max(mostCutSeconds).default(20),
      owner: z.array(idText).max(20).optional().meta({
        description: 'Whose cloth is cut; several may be named. The first owner of the collection when none is.',
      }),
    })
    .meta({ id: 'StartCutJobRequest' }),
  answer: jobSchema,
  answerStatus: 201,
  answerMeans: 'Begun.',
  problems: ['refused'],
  example: {
    body: { wishes: [{ kind: 'design', designId: 'd1', finishing: 'ornament' }], pieceIds: ['c1'] },
    answer: { ...exampleJob, state: 'running', seconds: 0, found: null },
  },
})

export const getCutJob = operation({
  method: 'get',
  path: '/cut-jobs/{jobId}',
  id: 'getCutJob',
  group: 'Stock',
  summary: 'How far a search for a plan of cuts is, with the best so far',
  pathParameters: jobPath,
  answer: jobSchema,
  answerMeans: 'The search and what it has found.',
  problems: ['not-found'],
  example: { answer: exampleJob },
})

export const stopCutJobOperation = operation({
  method: 'post',
  path: '/cut-jobs/{jobId}/stop',
  id: 'stopCutJob',
  right: 'read',
  group: 'Stock',
  summary: 'End a search with the best it has found',
  pathParameters: jobPath,
  answer: jobSchema,
  answerMeans: 'Ended.',
  problems: ['not-found'],
  example: { answer: { ...exampleJob, state: 'stopped' } },
})

export const keepCutPlanOperation = operation({
  method: 'post',
  path: '/cut-plans',
  id: 'keepCutPlan',
  group: 'Stock',
  summary: 'Keep what a search found',
  description: 'Its pieces are set aside for it, until it is carried out or given up. Refused when one changed meanwhile.',
  body: z.strictObject({ jobId: idText, title: shortText }).meta({ id: 'KeepCutPlanRequest' }),
  answer: planSchema,
  answerStatus: 201,
  answerMeans: 'Kept.',
  problems: ['refused'],
  example: { body: { jobId: 'j1', title: 'Autumn class' }, answer: examplePlan },
})

export const listCutPlansOperation = operation({
  method: 'get',
  path: '/cut-plans',
  id: 'listCutPlans',
  group: 'Stock',
  summary: 'Plans of cuts',
  query: z.strictObject({
    owner: z.array(idText).max(20).optional().meta({
      description: 'Whose cloth they cut; several may be named. The first owner of the collection when none is.',
    }),
  }),
  answer: z
    .strictObject({
      cutPlans: z.array(
        z.strictObject({
          ...planRow,
          pieces: z.array(z.strictObject({ clothPieceId: z.string(), label: z.string().nullable(), name: z.string() })),
        }),
      ),
    })
    .meta({ id: 'CutPlanList' }),
  answerMeans: 'All that are kept, then those carried out or given up last.',
  example: {
    answer: { cutPlans: [{ ...exampleRow, pieces: [{ clothPieceId: 'c1', label: 'L-12', name: 'Harrowmere linen' }] }] },
  },
})

export const getCutPlan = operation({
  method: 'get',
  path: '/cut-plans/{cutPlanId}',
  id: 'getCutPlan',
  group: 'Stock',
  summary: 'One plan of cuts, piece by piece',
  pathParameters: planPath,
  answer: planSchema,
  answerMeans: 'The plan.',
  problems: ['not-found'],
  example: { answer: examplePlan },
})

export const giveUpCutPlanOperation = operation({
  method: 'post',
  path: '/cut-plans/{cutPlanId}/give-up',
  id: 'giveUpCutPlan',
  group: 'Stock',
  summary: 'Give a plan of cuts up: its pieces are free again',
  pathParameters: planPath,
  body: z.strictObject({ version }).meta({ id: 'GiveUpCutPlanRequest' }),
  answer: planSchema,
  answerMeans: 'Given up; it stays to be seen.',
  problems: ['not-found', 'refused'],
  example: {
    body: { version: 0 },
    answer: { ...examplePlan, version: 1, status: 'dropped', closedAt: '2026-09-09T09:30:00.000Z' },
  },
})

export const carryOutCutPlanOperation = operation({
  method: 'post',
  path: '/cut-plans/{cutPlanId}/carry-out',
  id: 'carryOutCutPlan',
  group: 'Stock',
  summary: 'Write down that a plan of cuts was carried out',
  description:
    'In one change: each piece named is gone, and each of its parts named is a new piece with it as parent, of the size it measures. Parts left out are waste; pieces left out were not cut and are free again. What was cut for a project is kept for it, and is its cloth where it had none or the piece that was cut.',
  pathParameters: planPath,
  body: z
    .strictObject({
      version,
      pieces: z
        .array(
          z.strictObject({
            clothPieceId: idText,
            parts: z
              .array(
                z.strictObject({
                  key: idText,
                  widthUm: sideUm,
                  heightUm: sideUm,
                  label: shortText.nullable().default(null),
                  placeLabel: shortText.nullable().default(null).meta({ description: 'Where the piece lived when left out.' }),
                }),
              )
              .max(1_000),
          }),
        )
        .min(1)
        .max(mostCutPieces),
      note: noteText.nullable().default(null),
      who: shortText.nullable().default(null),
    })
    .meta({ id: 'CarryOutCutPlanRequest' }),
  answer: z
    .strictObject({
      cutPlan: planSchema,
      pieces: z.array(
        z.strictObject({
          clothPieceId: z.string(),
          wasteUm2: z.number(),
          parts: z.array(z.strictObject({ key: z.string(), clothPieceId: z.string() })),
        }),
      ),
    })
    .meta({ id: 'CarriedOutCutPlan' }),
  answerMeans: 'Written down.',
  problems: ['not-found', 'refused'],
  example: {
    body: {
      version: 0,
      pieces: [
        {
          clothPieceId: 'c1',
          parts: [{ key: 'w1-1', widthUm: 10 * inch, heightUm: 10 * inch, label: 'L-12-1', placeLabel: null }],
        },
      ],
    },
    answer: {
      cutPlan: {
        ...{ ...examplePlan, version: 1, status: 'cut', closedAt: '2026-09-09T09:30:00.000Z' },
        made: [{ clothPieceId: 'c2', parentId: 'c1', label: 'L-12-1', widthUm: 10 * inch, heightUm: 10 * inch }],
      },
      pieces: [{ clothPieceId: 'c1', wasteUm2: 80 * inch * inch, parts: [{ key: 'w1-1', clothPieceId: 'c2' }] }],
    },
  },
})

export const cutPlanOperations = [
  startCutJobOperation,
  getCutJob,
  stopCutJobOperation,
  listCutPlansOperation,
  keepCutPlanOperation,
  getCutPlan,
  giveUpCutPlanOperation,
  carryOutCutPlanOperation,
] as const
