import { z } from 'zod'
import { catalogueOrders } from '#lib/chart/catalogue-orders'
import { chartKinds, coverKinds } from '#lib/chart/design'
import { weaves } from '#lib/cloth/cloth-piece'
import { searchNouns } from '#lib/search/search-index'
import { flagQuery, namedSchema, ownerIdsField, ownerQuery, placeRefSchema, whereaboutsFields } from './collection'
import { coverSchema, listAnswerFields } from './cover'
import { operation } from './operation'
import { nextField, pageQuery } from './paging'
import { countSchema, idText, orNull } from './quantities'

const idsQuery = (what: string) =>
  z
    .array(idText)
    .max(100)
    .optional()
    .meta({ description: `${what}; any of those named.` })

const listAnswerSchema = z
  .strictObject(listAnswerFields)
  .meta({ id: 'ListAnswer', description: 'How the best of its thread lists is covered.' })

export const stitchesSchema = z
  .strictObject({ width: z.int(), height: z.int(), isEstimated: z.boolean() })
  .meta({ id: 'Stitches', description: 'Estimated when worked out from a size in inches or centimetres.' })

const designSchema = z
  .strictObject({
    designId: z.string(),
    title: z.string(),
    chart: z.strictObject({ chartId: z.string(), title: z.string(), kind: z.enum(chartKinds) }),
    designers: z.array(namedSchema),
    seasons: z.array(namedSchema),
    subjects: z.array(namedSchema),
    forms: z.array(namedSchema),
    ownerId: z.string().meta({ description: 'Whose chart it is.' }),
    copies: z.int(),
    ...whereaboutsFields,
    stitches: orNull(stitchesSchema),
    boughtOn: z.string().nullable(),
    threads: orNull(listAnswerSchema).meta({ description: 'Null for a design without a thread list.' }),
    cloth: z.enum(['fits', 'smaller-margin', 'none']).meta({ description: 'The best piece of the advised cloth.' }),
  })
  .meta({ id: 'Design' })

export const exampleDesign = {
  designId: '0199a1c2-7c1e-7d10-9c55-0d6f1a2b3c4d',
  title: 'Rook Hill in Snow',
  chart: { chartId: '0199a1c2-7c1e-7d10-9c55-0d6f1a2b3c4e', title: 'Rook Hill in Snow', kind: 'leaflet' },
  designers: [{ id: 'd1', name: 'Mirabel Stoat' }],
  seasons: [{ id: 's1', name: 'Winter' }],
  subjects: [{ id: 's2', name: 'Birds' }],
  forms: [{ id: 's3', name: 'Picture' }],
  ownerId: 'o1',
  copies: 1,
  home: { placeId: 'p1', label: 'Rack 3' },
  current: { placeId: 'p1', label: 'Rack 3' },
  stitches: { width: 140, height: 98, isEstimated: false },
  boughtOn: '2026-03-01',
  threads: {
    status: 'enough',
    threadCount: 8,
    readyCount: 8,
    swapCount: 0,
    elsewhereCount: 0,
    unknownCount: 0,
    lotsCount: 0,
    shortCount: 0,
    shortPutUps: 0,
    lotPutUps: 0,
    isIncomplete: false,
    isStitchable: true,
    isStitchableWithSwaps: true,
  },
  cloth: 'fits',
}

const facetSchema = z.array(z.strictObject({ id: z.string(), name: z.string(), count: z.int() }))

export const listDesigns = operation({
  method: 'get',
  path: '/designs',
  id: 'listDesigns',
  group: 'Designs',
  summary: 'Designs, by the same filters as the Charts screen',
  description:
    'Every design is answered from the stock of the owners named. Filters narrow one another; the values of one widen it. `facets=true` counts beside each value how many designs it would leave.',
  query: z.strictObject({
    q: z.string().max(200).optional().meta({ description: 'Words of titles, designers and themes; forgiving of typos.' }),
    designer: idsQuery('Ids of designers'),
    season: idsQuery('Ids of seasons'),
    subject: idsQuery('Ids of subjects'),
    form: idsQuery('Ids of forms'),
    place: idsQuery('Ids of places the chart lives in, at any depth'),
    chartOwner: idsQuery('Ids of owners of the chart, or `any`; the owners whose stock counts when left out'),
    kind: z.array(z.enum(chartKinds)).max(10).optional(),
    clothCount: z
      .array(z.string().max(50))
      .max(50)
      .optional()
      .meta({ description: 'Fits cloth on hand of this kind: `single 28`, `block 14`.' }),
    stitchableNow: flagQuery.optional(),
    withSwaps: flagQuery.optional().meta({ description: 'Stitchable now or with swaps.' }),
    shortByAtMost: z.coerce.number().int().min(0).max(1_000).optional().meta({ description: 'Put-ups to buy.' }),
    clothFits: flagQuery.optional(),
    order: z.enum(catalogueOrders).default('bestCovered'),
    facets: flagQuery.optional(),
    ...ownerQuery,
    ...pageQuery,
  }),
  answer: z
    .strictObject({
      ownerIds: ownerIdsField,
      total: z.int(),
      designs: z.array(designSchema),
      next: nextField,
      facets: z
        .strictObject({
          designer: facetSchema,
          season: facetSchema,
          subject: facetSchema,
          form: facetSchema,
          place: facetSchema,
          chartOwner: facetSchema,
          kind: facetSchema,
          clothCount: facetSchema,
          stitchableNow: z.int(),
          withSwaps: z.int(),
          clothFits: z.int(),
          shortByAtMost: z.array(z.int()).meta({ description: 'Entry n is for at most n put-ups.' }),
        })
        .optional(),
    })
    .meta({ id: 'DesignList' }),
  answerMeans: 'A page of the designs found.',
  example: { answer: { ownerIds: ['o1'], total: 1, designs: [exampleDesign], next: null } },
})

export const designPath = z.strictObject({ designId: idText })

const advisedSchema = z
  .strictObject({
    count: countSchema,
    countText: z.string(),
    over: z.literal([1, 2]),
    weave: z.enum(weaves).nullable(),
    name: z.string().nullable(),
    insists: z.boolean().meta({ description: 'It may be worked on no other weave.' }),
  })
  .meta({ id: 'AdvisedCloth' })

export const getDesign = operation({
  method: 'get',
  path: '/designs/{designId}',
  id: 'getDesign',
  group: 'Designs',
  summary: 'One design, its chart and its thread lists',
  pathParameters: designPath,
  query: z.strictObject(ownerQuery),
  answer: designSchema
    .extend({
      ownerIds: ownerIdsField,
      advised: orNull(advisedSchema),
      coverKind: z.enum(coverKinds).nullable(),
      lists: z.array(z.strictObject({ listId: z.string(), name: z.string(), keyLineCount: z.int() })),
      projects: z.array(z.strictObject({ projectId: z.string(), status: z.string(), finishedOn: z.string().nullable() })),
    })
    .meta({ id: 'DesignDetail' }),
  answerMeans: 'The design.',
  problems: ['not-found'],
  example: {
    answer: {
      ...exampleDesign,
      ownerIds: ['o1'],
      advised: {
        count: { threads: 28, perUm: 25_400 },
        countText: '28 count',
        over: 2,
        weave: 'single',
        name: null,
        insists: false,
      },
      coverKind: 'picture',
      lists: [{ listId: 'l1', name: 'Cotton', keyLineCount: 8 }],
      projects: [],
    },
  },
})

const exampleLength = { strandTenths: 772_645, strandMm: 77_264.5, strandMetres: 77.2645, text: '77.26 m of one strand' }

export const getDesignCoverage = operation({
  method: 'get',
  path: '/designs/{designId}/coverage',
  id: 'getDesignCoverage',
  group: 'Designs',
  summary: 'Whether a design can be stitched from stock, thread by thread',
  description: 'Needs, free stock and status of every thread of a thread list, with the arithmetic of each need.',
  pathParameters: designPath,
  query: z.strictObject({
    list: z
      .string()
      .min(1)
      .max(100)
      .optional()
      .meta({ description: 'Id of the thread list; the one nearest to stitching when left out.' }),
    piece: z
      .string()
      .min(1)
      .max(100)
      .optional()
      .meta({ description: 'Id of a piece of cloth to reckon on instead of the advised one.' }),
    over: z.enum(['1', '2']).transform(Number).optional(),
    ...ownerQuery,
  }),
  answer: z
    .strictObject({
      ownerIds: ownerIdsField,
      designId: z.string(),
      list: namedSchema,
      otherLists: z.array(z.strictObject({ id: z.string(), name: z.string(), threads: listAnswerSchema })),
      allowance: z.number().meta({ description: 'The design’s own, else that of the settings.' }),
      beadCount: z.int().meta({ description: 'Beads to be counted out, of all key lines.' }),
      workedOn: orNull(
        z.strictObject({ ends: countSchema, picks: countSchema, over: z.literal([1, 2]), isTurned: z.boolean() }),
      ).meta({ description: 'Null for the chart’s own advice.' }),
      cover: coverSchema,
    })
    .meta({ id: 'DesignCoverage' }),
  answerMeans: 'The cover of one thread list.',
  problems: ['not-found'],
  example: {
    answer: {
      ownerIds: ['o1'],
      designId: exampleDesign.designId,
      list: { id: 'l1', name: 'Cotton' },
      otherLists: [],
      allowance: 1.5,
      beadCount: 0,
      workedOn: null,
      cover: {
        ...exampleDesign.threads,
        threadCount: 1,
        readyCount: 1,
        threads: [
          {
            thread: { threadId: 't1', maker: 'Larkholm', line: 'Stranded cotton', code: '0017', name: 'Rook Grey' },
            status: 'enough',
            certainty: 'label',
            need: exampleLength,
            leastStrandTenths: 772_645,
            putUpStrandTenths: 480_000,
            needPutUps: 2,
            ownedStrandTenths: 960_000,
            outStrandTenths: 0,
            promisedStrandTenths: 0,
            freeStrandTenths: 960_000,
            shortStrandTenths: 0,
            shortPutUps: 0,
            isSomeHeld: false,
            lots: [{ lot: null, ownedStrandTenths: 960_000, freeStrandTenths: 960_000 }],
            lotToBuy: null,
            elsewhere: [],
            standIn: null,
            arithmetic: [
              {
                symbol: 'x',
                kind: 'tally',
                strandTenths: 772_645,
                steps: [
                  '2,940 full crosses × 4.828 pitches of 1.814 mm × 2 strands = 51,509.661 mm',
                  '51,509.661 mm × 1.5 allowance = 77,264.491 mm',
                ],
              },
            ],
          },
        ],
        toBuy: [],
      },
    },
  },
})

export const searchEverything = operation({
  method: 'get',
  path: '/search',
  id: 'search',
  group: 'Finding',
  summary: 'Find designs, threads, cloth, places and projects',
  description:
    'All words are wanted, and any of them where that finds nothing; a word may have a wrong letter in five. Best first.',
  query: z.strictObject({
    q: z.string().min(1).max(200),
    noun: z.enum(searchNouns).optional().meta({ description: 'Only these.' }),
    owner: z.array(idText).max(20).optional().meta({
      description: 'A thread’s places are those where batches of these owners lie; of everybody seen when none is named.',
    }),
    limit: pageQuery.limit,
  }),
  answer: z
    .strictObject({
      found: z.int().meta({ description: 'How many there are, also beyond the limit.' }),
      hasAllWords: z.boolean().meta({ description: 'False when nothing had all the words and any was enough.' }),
      hits: z.array(
        z.strictObject({
          noun: z.enum(searchNouns),
          id: z.string(),
          title: z.string(),
          label: orNull(z.string()).meta({
            description: 'What is written on it: of a place, or of a piece of cloth that has one.',
          }),
          match: z.enum(['exact', 'close', 'words']),
          places: z.array(placeRefSchema).meta({ description: 'Where it is now, as far as one place or few say it.' }),
        }),
      ),
    })
    .meta({ id: 'SearchAnswer' }),
  answerMeans: 'The best hits.',
  example: {
    answer: {
      found: 1,
      hasAllWords: true,
      hits: [
        {
          noun: 'design',
          id: exampleDesign.designId,
          title: 'Rook Hill in Snow',
          label: null,
          match: 'words',
          places: [{ placeId: 'p1', label: 'Rack 3' }],
        },
      ],
    },
  },
})
