import { z } from 'zod'
import type { ChartBulkLine, ChartBulkWhyNot } from '#lib/chart/plan-chart-bulk'
import type { ChartBulkRefused } from '#lib/db/chart-bulk/apply-chart-bulk'
import { mostDesigns } from '#lib/db/chart-bulk/read-chart-bulk'
import type { ChartBulkUndoRefused } from '#lib/db/chart-bulk/undo-chart-bulk'
import { mostTicked } from '#lib/listing/selection'
import { mostStars } from '#lib/planning/together/wish-value'
import { operation } from './operation'
import { Problem } from './problem'
import { idText, shortText } from './quantities'
import { noSuch } from './stock-refusal'

const changeSchema = z
  .discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('home'), toPlaceId: idText }),
    z.strictObject({ kind: z.literal('owner'), toOwnerId: idText }),
    z.strictObject({ kind: z.literal('gone'), ending: z.enum(['passed on', 'lost', 'slip']) }),
    z.strictObject({ kind: z.literal('add-theme'), axis: z.enum(['season', 'subject', 'form']), name: shortText.max(100) }),
    z.strictObject({ kind: z.literal('take-theme'), themeId: idText }),
    z.strictObject({ kind: z.literal('stars'), stars: z.int().min(1).max(mostStars).nullable() }),
  ])
  .meta({
    id: 'ChartBulkChange',
    description:
      'Of the charts the designs are in: where they live, whose they are, that they are no longer held. Of the designs themselves: a theme more or less. Of those of them that are wishes: how much they are wished for.',
  })

const chosenSchema = z
  .union([
    z.strictObject({ designIds: z.array(idText).min(1).max(mostTicked) }),
    z.strictObject({
      filter: z
        .string()
        .max(2_000)
        .meta({ description: 'As it stands in the address of the list of charts: stitchableNow=1&q=heron.' }),
      ownerIds: z.array(idText).min(1).max(20).meta({ description: 'Whose charts are meant where the filter names no owner.' }),
      exceptDesignIds: z.array(idText).max(mostTicked).default([]),
    }),
  ])
  .meta({ id: 'ChosenDesigns', description: 'Some designs by their ids, or all that a filter finds but some.' })
export type ChosenDesignsAsked = z.output<typeof chosenSchema>

const requestFields = { chosen: chosenSchema, change: changeSchema }

const placesSchema = z.strictObject({ homePlaceId: z.string().nullable(), currentPlaceId: z.string().nullable() })
const lineSchema = z
  .strictObject({
    id: z.string().meta({ description: 'Of the chart, the design or, for stars, the project.' }),
    chartId: z.string(),
    designId: z.string().nullable(),
    before: z.union([z.number(), z.string(), z.boolean(), z.null(), placesSchema]),
    isOut: z.boolean().meta({ description: 'Its home changes and it stays where it is.' }),
    outcome: z.enum(['changes', 'same', 'refused']),
    why: z.string().nullable().meta({ description: 'Why it is refused.' }),
  })
  .meta({ id: 'ChartBulkLine' })

const exampleRequest = { chosen: { designIds: ['d1'] }, change: { kind: 'home' as const, toPlaceId: 'p2' } }
const exampleLine = {
  ...{ id: 'c1', chartId: 'c1', designId: null, before: { homePlaceId: 'p1', currentPlaceId: 'p1' }, isOut: false },
  ...{ outcome: 'changes' as const, why: null },
}

export const previewChartBulkOperation = operation({
  method: 'post',
  path: '/charts/bulk-edits/preview',
  id: 'previewChartBulk',
  right: 'read',
  group: 'Designs',
  summary: 'What one change would do to many charts',
  description:
    'Nothing is written. Hand the `fingerprint` over with the change itself to be sure that it does what was seen here.',
  body: z.strictObject(requestFields).meta({ id: 'ChartBulkPreviewRequest' }),
  answer: z.strictObject({ fingerprint: z.string(), lines: z.array(lineSchema) }).meta({ id: 'ChartBulkPreview' }),
  answerMeans: 'Line by line: what changes, what is so already, what is refused.',
  problems: ['refused'],
  example: { body: exampleRequest, answer: { fingerprint: 'Yq3…', lines: [exampleLine] } },
})

export const applyChartBulkOperation = operation({
  method: 'post',
  path: '/charts/bulk-edits',
  id: 'applyChartBulk',
  group: 'Designs',
  summary: 'Make one change to many charts',
  description: `All in one write, with a line of the journal for each chart; what is refused keeps none of the others back. At most ${mostDesigns.toLocaleString('en-GB')} designs.`,
  body: z
    .strictObject({
      ...requestFields,
      what: shortText.meta({ description: 'In a few words, for the journal and the list of changes.' }),
      fingerprint: z.string().max(100).optional().meta({ description: 'Of the preview.' }),
      who: shortText.nullable().default(null),
    })
    .meta({ id: 'ChartBulkRequest' }),
  answerStatus: 201,
  answer: z
    .strictObject({ bulkEditId: z.string(), changed: z.int(), refused: z.int(), same: z.int() })
    .meta({ id: 'ChartBulkAnswer' }),
  answerMeans: 'Done; how many lines changed, were refused and were so already.',
  problems: ['refused'],
  takesIdempotencyKey: true,
  example: { body: { ...exampleRequest, what: 'New home B4' }, answer: { bulkEditId: 'e1', changed: 1, refused: 0, same: 0 } },
})

export const listChartBulksOperation = operation({
  method: 'get',
  path: '/charts/bulk-edits',
  id: 'listChartBulks',
  group: 'Designs',
  summary: 'Changes made to many charts, latest first',
  query: z.strictObject({ limit: z.coerce.number().int().min(1).max(200).default(50) }),
  answer: z
    .strictObject({
      bulkEdits: z.array(
        z
          .strictObject({
            bulkEditId: z.string(),
            at: z.string().meta({ description: 'ISO 8601, UTC.' }),
            who: z.string().nullable(),
            what: z.string(),
            isUndone: z.boolean(),
          })
          .meta({ id: 'ChartBulk' }),
      ),
    })
    .meta({ id: 'ChartBulkList' }),
  answerMeans: 'The latest.',
  example: {
    answer: {
      bulkEdits: [{ bulkEditId: 'e1', at: '2026-09-08T09:30:00.000Z', who: 'Nell Oxtoby', what: 'New home B4', isUndone: false }],
    },
  },
})

export const undoChartBulkOperation = operation({
  method: 'post',
  path: '/charts/bulk-edits/{bulkEditId}/undo',
  id: 'undoChartBulk',
  group: 'Designs',
  summary: 'Take a change of many charts back',
  description: 'In one write. What was changed since is left alone and named.',
  pathParameters: z.strictObject({ bulkEditId: idText }),
  body: z.strictObject({ who: shortText.nullable().default(null) }).meta({ id: 'ChartBulkUndo' }),
  answer: z
    .strictObject({
      takenBack: z.int(),
      left: z.array(
        z
          .strictObject({
            id: z.string(),
            chartId: z.string(),
            designId: z.string().nullable(),
            why: z.enum(['changed-since', 'gone', 'place-gone']),
          })
          .meta({ id: 'ChartBulkLeft' }),
      ),
    })
    .meta({ id: 'ChartBulkUndone' }),
  answerMeans: 'How many lines are as they were, and which are not.',
  problems: ['not-found', 'refused'],
  example: { body: {}, answer: { takenBack: 1, left: [] } },
})

export const chartBulkOperations = [
  previewChartBulkOperation,
  applyChartBulkOperation,
  listChartBulksOperation,
  undoChartBulkOperation,
]

function whyWords(why: ChartBulkWhyNot): string {
  switch (why.kind) {
    case 'in-work':
      return `${why.projects} projects under way are worked from it.`
    case 'is-a-file':
      return 'It is a file, and goes to nobody.'
    case 'not-wished':
      return 'It is not among the wishes.'
  }
}

export const describeChartBulkLine = ({ outcome, ...line }: ChartBulkLine): z.input<typeof lineSchema> => ({
  ...line,
  outcome: outcome.kind,
  why: outcome.kind === 'refused' ? whyWords(outcome.why) : null,
})

export function describeChartBulkRefusal(refusal: ChartBulkRefused): Problem {
  switch (refusal.kind) {
    case 'no-such-place':
      return noSuch('place', 'change/toPlaceId')
    case 'no-such-owner':
      return noSuch('owner', 'change/toOwnerId')
    case 'no-such-theme':
      return new Problem('refused', 'There is no such theme.')
    case 'kept-by-record':
      return new Problem('refused', 'Only the record puts things there: what was looked for in vain.')
    case 'changed-meanwhile':
      return new Problem('refused', 'It would now do something else than the preview said. Look at a new preview.')
    case 'nothing-changes':
      return new Problem('refused', 'Nothing would change: all is so already or is refused.')
    case 'too-many':
      return new Problem('refused', `${refusal.count} designs are chosen; at most ${refusal.most} can be changed at once.`)
  }
}

export function describeChartBulkUndoRefusal(refusal: ChartBulkUndoRefused): Problem {
  switch (refusal.kind) {
    case 'no-such-edit':
      return new Problem('not-found', 'There is no such change of many charts.')
    case 'already-undone':
      return new Problem('refused', 'It was taken back already.')
  }
}
