import { z } from 'zod'
import { chartKinds } from '#lib/chart/design'
import { mergedFields, takes } from '#lib/chart/doubles-merged'
import type { BulkEditHead } from '#lib/db/bulk-edit/heads'
import type { HadChart } from '#lib/db/merging/had-before'
import { mergedNouns } from '#lib/db/merging/merging'
import type { MergingRefusal } from '#lib/db/merging/merging-refusal'
import { toldApartNouns } from '#lib/db/merging/tell-apart'
import { operation } from './operation'
import { notFound, Problem } from './problem'
import { idText, orNull, shortText } from './quantities'

/** A refused merge, as a problem. */
export function mergingProblem(refusal: MergingRefusal): Problem {
  switch (refusal.kind) {
    case 'no-such-thing':
      return notFound(refusal.noun, refusal.id)
    case 'no-such-merging':
      return notFound('merge', refusal.id)
    case 'same-thing':
      return new Problem('refused', 'Name two things, not one twice.')
    case 'changed-meanwhile':
      return new Problem('refused', 'One was changed meanwhile: read both again and use their present versions.')
    case 'other-owner':
      return new Problem('refused', `One belongs to ${refusal.ownerName}, the other to ${refusal.otherOwnerName}.`)
    case 'file-and-paper':
      return new Problem('refused', 'One is a file and the other is on paper.')
    case 'is-out':
      return new Problem(
        'refused',
        `${JSON.stringify(refusal.title)} lies in ${JSON.stringify(refusal.label)}: put it back first.`,
      )
    case 'is-missing':
      return new Problem('refused', `${JSON.stringify(refusal.title)} is being looked for: settle that first.`)
    case 'strands-differ':
      return new Problem('refused', `One line has ${refusal.strands} strands, the other ${refusal.otherStrands}.`)
    case 'other-maker':
      return new Problem('refused', 'The lines are of two makers.')
    case 'already-undone':
      return new Problem('refused', 'It was taken back already.')
    case 'changed-since':
      return new Problem('refused', `A row the merge wrote (${refusal.table}) was changed since.`)
  }
}

const whoField = shortText.optional().meta({ description: 'Who did it, for the journal.' })

const pairSchema = z
  .strictObject({
    firstId: z.string(),
    firstName: z.string(),
    secondId: z.string(),
    secondName: z.string(),
    reasons: z
      .array(z.string())
      .meta({ description: 'What speaks for it, surest kinds first: `same-title`, `same-cover`, `near-name` …' }),
    doubts: z.array(z.string()).meta({ description: 'What speaks against it.' }),
  })
  .meta({ id: 'SuggestedDouble' })

export const doubleNouns = ['chart', 'designer', 'thread', 'maker', 'line'] as const

export const listDoublesOperation = operation({
  method: 'get',
  path: '/doubles',
  id: 'listDoubles',
  group: 'Designs',
  summary: 'What may be one thing entered twice',
  description:
    'Charts of each owner, designers, threads of a line, makers, and lines of a maker. What was told apart is left out.',
  query: z.strictObject({ noun: z.enum(doubleNouns) }),
  answer: z.strictObject({ pairs: z.array(pairSchema), found: z.int() }).meta({ id: 'SuggestedDoubles' }),
  answerMeans: 'The surest 200, and how many there are.',
  example: {
    answer: {
      pairs: [
        {
          ...{ firstId: 'c1', firstName: 'Rook Hill in Snow', secondId: 'c2', secondName: 'Rook Hill in the Snow' },
          ...{ reasons: ['same-title', 'same-designer', 'same-size'], doubts: [] },
        },
      ],
      found: 1,
    },
  },
})

export const tellApartOperation = operation({
  method: 'post',
  path: '/doubles/tell-apart',
  id: 'tellDoublesApart',
  group: 'Designs',
  summary: 'Say that two things are not the same',
  description: 'They are not suggested again. A line is told apart as its maker is.',
  body: z
    .strictObject({
      noun: z.enum(toldApartNouns),
      firstId: idText,
      secondId: idText,
      forget: z.boolean().default(false).meta({ description: 'Forget that they were told apart: they may be suggested again.' }),
      who: whoField,
    })
    .meta({ id: 'TellApartRequest' }),
  answer: z.strictObject({ firstId: z.string(), secondId: z.string() }).meta({ id: 'ToldApart' }),
  answerMeans: 'The two.',
  problems: ['not-found', 'refused'],
  example: { body: { noun: 'chart', firstId: 'c1', secondId: 'c2' }, answer: { firstId: 'c1', secondId: 'c2' } },
})

export const mergeDoublesOperation = operation({
  method: 'post',
  path: '/doubles/merge',
  id: 'mergeDoubles',
  group: 'Designs',
  summary: 'Make one of two',
  description:
    'The one given up is part of the kept one from then on, with stock, lists, projects, loans and files; its name finds the kept one. Sums of stock stay as they were.',
  body: z
    .strictObject({
      noun: z.enum(mergedNouns),
      keptId: idText,
      goneId: idText,
      keptVersion: z.int().min(0).optional().meta({ description: 'Of charts and threads: as they were seen.' }),
      goneVersion: z.int().min(0).optional(),
      choices: z
        .partialRecord(z.enum(mergedFields), z.enum(takes))
        .optional()
        .meta({ description: 'Of charts: whose word stands where the two differ. `both` for designers and notes.' }),
      factsOfDesignIds: z
        .array(idText)
        .max(500)
        .optional()
        .meta({ description: 'Of charts: designs of the one given up whose size, cloth and notes stand where they become one.' }),
      who: whoField,
    })
    .meta({ id: 'MergeDoublesRequest' }),
  answer: z.strictObject({ mergingId: z.string(), keptId: z.string() }).meta({ id: 'DoublesMerged' }),
  answerMeans: 'The merge, for taking it back.',
  problems: ['not-found', 'refused'],
  takesIdempotencyKey: true,
  example: {
    body: { noun: 'chart', keptId: 'c1', goneId: 'c2', choices: { note: 'both' } },
    answer: { mergingId: 'm1', keptId: 'c1' },
  },
})

const mergingSchema = z
  .strictObject({
    mergingId: z.string(),
    at: z.string(),
    who: z.string().nullable(),
    what: z.string(),
    isUndone: z.boolean(),
  })
  .meta({ id: 'Merging' })

export const describeMerging = ({ id, at, ...head }: BulkEditHead): z.input<typeof mergingSchema> => ({
  mergingId: id,
  at: at.toISOString(),
  ...head,
})

export const listMergingsOperation = operation({
  method: 'get',
  path: '/doubles/merged',
  id: 'listMergings',
  group: 'Designs',
  summary: 'What was merged, latest first',
  answer: z.strictObject({ merged: z.array(mergingSchema) }).meta({ id: 'MergingList' }),
  answerMeans: 'At most 200 of them.',
  example: {
    answer: {
      merged: [
        {
          ...{ mergingId: 'm1', at: '2026-03-03T09:00:00.000Z', who: null, isUndone: false },
          what: 'Rook Hill in the Snow merged into Rook Hill in Snow',
        },
      ],
    },
  },
})

export const undoMergingOperation = operation({
  method: 'post',
  path: '/doubles/merged/{mergingId}/undo',
  id: 'undoMerging',
  group: 'Designs',
  summary: 'Take a merge back',
  description:
    'Refused, with nothing done, when a row the merge wrote was changed since. What came since stays with the kept one.',
  pathParameters: z.strictObject({ mergingId: idText }),
  body: z.strictObject({ who: whoField }).meta({ id: 'UndoMergingRequest' }),
  answer: z.strictObject({ goneId: z.string() }).meta({ id: 'MergingUndone' }),
  answerMeans: 'What is there again.',
  problems: ['not-found', 'refused'],
  example: { body: {}, answer: { goneId: 'c2' } },
})

const hadSchema = z
  .strictObject({
    chartId: z.string(),
    designId: orNull(z.string()).meta({ description: 'The design that is meant, where the chart has several.' }),
    title: z.string(),
    kind: z.enum(chartKinds),
    designers: z.array(z.string()),
    edition: z.string().nullable(),
    ownerName: z.string(),
    copies: z.int(),
    place: orNull(z.strictObject({ placeId: z.string(), label: z.string() })),
    lentTo: z.array(z.strictObject({ label: z.string(), dueOn: z.string().nullable(), copies: z.int() })),
    isMissing: z.boolean(),
    finishedOn: z.array(z.string().nullable()),
    isHeld: z.boolean().meta({ description: 'False: it was held once.' }),
    leftBecause: z.string().nullable(),
    reason: z.string().meta({
      description: 'Why it may be meant: `title`, `near-title`, `other-title`, `design`, `designer`, `words`, `cover`.',
    }),
  })
  .meta({ id: 'HadChart' })

export const describeHad = (chart: HadChart): z.input<typeof hadSchema> => {
  const { place, left, reason, coverFile: _cover, ...rest } = chart
  return {
    ...rest,
    place: place && { placeId: place.id, label: place.label },
    isHeld: left === null,
    leftBecause: left?.reason ?? null,
    reason: reason.kind,
  }
}

const hadAnswer = z
  .strictObject({
    sure: z.array(hadSchema).meta({ description: 'The title itself, or as good as the same cover.' }),
    near: z.array(hadSchema).meta({ description: 'What comes near, the nearest first.' }),
    covers: z.int().meta({ description: 'Charts that have a cover to be found by.' }),
  })
  .meta({ id: 'HadAnswer' })

const exampleHad = {
  ...{ chartId: 'c1', designId: null, title: 'Rook Hill in Snow', kind: 'leaflet' as const, designers: ['Mirabel Stoat'] },
  ...{ edition: null, ownerName: 'Hanne Drewitt', copies: 1, place: { placeId: 'p1', label: 'R2-3' }, lentTo: [] },
  ...{ isMissing: false, finishedOn: ['2024-11-02'], isHeld: true, leftBecause: null, reason: 'title' },
}

export const findHadOperation = operation({
  method: 'get',
  path: '/charts/had',
  id: 'findHadBefore',
  group: 'Finding',
  summary: 'Have I bought this before?',
  description:
    'By a half-remembered title, a design in a booklet or a designer; slips are forgiven, and what was passed on is remembered.',
  query: z.strictObject({ q: z.string().trim().min(1).max(200) }),
  answer: hadAnswer,
  answerMeans: 'What is held, and where, or what became of it.',
  example: { answer: { sure: [exampleHad], near: [], covers: 12 } },
})

export const findHadByCoverOperation = operation({
  method: 'post',
  path: '/charts/had/by-cover',
  id: 'findHadByCover',
  right: 'read',
  group: 'Finding',
  summary: 'Have I bought this before, by a photo of its cover',
  description: 'JPEG, PNG or WebP, up to 30 MB. The photo is looked at and not kept.',
  takesFile: true,
  answer: hadAnswer,
  answerMeans: 'Charts whose cover is near it.',
  problems: ['refused'],
  example: { answer: { sure: [{ ...exampleHad, reason: 'cover' }], near: [], covers: 12 } },
})

export const doublesOperations = [
  listDoublesOperation,
  tellApartOperation,
  mergeDoublesOperation,
  listMergingsOperation,
  undoMergingOperation,
  findHadOperation,
  findHadByCoverOperation,
]
