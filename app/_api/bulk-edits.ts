import { z } from 'zod'
import type { BulkRefused } from '#lib/db/bulk-edit/apply-bulk-edit'
import { mostThreads } from '#lib/db/bulk-edit/read-bulk-edit'
import type { BulkUndoRefused } from '#lib/db/bulk-edit/undo-bulk-edit'
import type { BulkLine, WhyNot } from '#lib/stock/plan-bulk-edit'
import { operation } from './operation'
import { Problem } from './problem'
import { idText, shortText } from './quantities'
import { noSuch } from './stock-refusal'

const changeSchema = z
  .discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('minimum'), putUps: z.int().min(0).max(100_000).nullable() }),
    z.strictObject({ kind: z.literal('family'), family: z.string().trim().min(1).max(40).nullable() }),
    z.strictObject({ kind: z.literal('leaving'), isLeaving: z.boolean() }),
    z.strictObject({ kind: z.literal('home'), toPlaceId: idText }),
    z.strictObject({ kind: z.literal('owner'), toOwnerId: idText }),
    z.strictObject({ kind: z.literal('lot'), lot: shortText }),
  ])
  .meta({
    id: 'BulkChange',
    description:
      'Of the threads: the least number to keep, the colour family they are filed under, whether they are no longer made. Of their batches: where they live, whose they are, the lot of those without a lot mark.',
  })

const requestFields = {
  threadIds: z.array(idText).min(1).max(mostThreads),
  ownerIds: z.array(idText).min(1).max(20).meta({ description: 'Whose batches are changed.' }),
  change: changeSchema,
}

const lineSchema = z
  .strictObject({
    threadId: z.string(),
    batchId: z.string().nullable(),
    before: z.union([
      z.number(),
      z.string(),
      z.boolean(),
      z.null(),
      z.strictObject({ homePlaceId: z.string().nullable(), currentPlaceId: z.string().nullable() }),
    ]),
    isOut: z.boolean().meta({ description: 'Its home changes and it stays where it is.' }),
    outcome: z.enum(['changes', 'same', 'refused']),
    why: z.string().nullable().meta({ description: 'Why it is refused.' }),
  })
  .meta({ id: 'BulkLine' })

const exampleLine = {
  threadId: 't1',
  batchId: 'b1',
  before: { homePlaceId: 'p1', currentPlaceId: 'p1' },
  isOut: false,
  outcome: 'changes' as const,
  why: null,
}
const exampleRequest = { threadIds: ['t1'], ownerIds: ['o1'], change: { kind: 'home' as const, toPlaceId: 'p2' } }

export const previewBulkEditOperation = operation({
  method: 'post',
  path: '/bulk-edits/preview',
  id: 'previewBulkEdit',
  right: 'read',
  group: 'Stock',
  summary: 'What one change would do to many threads',
  description:
    'Nothing is written. Hand the `fingerprint` over with the change itself to be sure that it does what was seen here.',
  body: z.strictObject(requestFields).meta({ id: 'BulkEditPreviewRequest' }),
  answer: z.strictObject({ fingerprint: z.string(), lines: z.array(lineSchema) }).meta({ id: 'BulkEditPreview' }),
  answerMeans: 'Line by line: what changes, what is so already, what is refused.',
  example: { body: exampleRequest, answer: { fingerprint: 'Yq3…', lines: [exampleLine] } },
})

export const applyBulkEditOperation = operation({
  method: 'post',
  path: '/bulk-edits',
  id: 'applyBulkEdit',
  group: 'Stock',
  summary: 'Make one change to many threads',
  description: 'All in one write, with a line of the journal for each batch; what is refused keeps none of the others back.',
  body: z
    .strictObject({
      ...requestFields,
      what: shortText.meta({ description: 'In a few words, for the journal and the list of changes.' }),
      fingerprint: z.string().max(100).optional().meta({ description: 'Of the preview.' }),
      who: shortText.nullable().default(null),
    })
    .meta({ id: 'BulkEditRequest' }),
  answerStatus: 201,
  answer: z
    .strictObject({ bulkEditId: z.string(), changed: z.int(), refused: z.int(), same: z.int() })
    .meta({ id: 'BulkEditAnswer' }),
  answerMeans: 'Done; how many lines changed, were refused and were so already.',
  problems: ['refused'],
  takesIdempotencyKey: true,
  example: {
    body: { ...exampleRequest, what: 'New home T3.1' },
    answer: { bulkEditId: 'e1', changed: 1, refused: 0, same: 0 },
  },
})

const headSchema = z
  .strictObject({
    bulkEditId: z.string(),
    at: z.string().meta({ description: 'ISO 8601, UTC.' }),
    who: z.string().nullable(),
    what: z.string(),
    isUndone: z.boolean(),
  })
  .meta({ id: 'BulkEdit' })

const exampleHead = {
  bulkEditId: 'e1',
  at: '2026-09-08T09:30:00.000Z',
  who: 'Nell Oxtoby',
  what: 'New home T3.1',
  isUndone: false,
}

export const listBulkEditsOperation = operation({
  method: 'get',
  path: '/bulk-edits',
  id: 'listBulkEdits',
  group: 'Stock',
  summary: 'Changes made to many threads, latest first',
  query: z.strictObject({ limit: z.coerce.number().int().min(1).max(200).default(50) }),
  answer: z.strictObject({ bulkEdits: z.array(headSchema) }).meta({ id: 'BulkEditList' }),
  answerMeans: 'The latest.',
  example: { answer: { bulkEdits: [exampleHead] } },
})

const leftSchema = z
  .strictObject({
    threadId: z.string(),
    batchId: z.string().nullable(),
    why: z.enum(['changed-since', 'gone', 'place-gone']),
  })
  .meta({ id: 'BulkLeft' })

export const undoBulkEditOperation = operation({
  method: 'post',
  path: '/bulk-edits/{bulkEditId}/undo',
  id: 'undoBulkEdit',
  group: 'Stock',
  summary: 'Take a change of many threads back',
  description: 'In one write. What was changed since is left alone and named.',
  pathParameters: z.strictObject({ bulkEditId: idText }),
  body: z.strictObject({ who: shortText.nullable().default(null) }).meta({ id: 'BulkEditUndo' }),
  answer: z.strictObject({ takenBack: z.int(), left: z.array(leftSchema) }).meta({ id: 'BulkEditUndone' }),
  answerMeans: 'How many lines are as they were, and which are not.',
  problems: ['not-found', 'refused'],
  example: { body: {}, answer: { takenBack: 1, left: [] } },
})

function whyWords(why: WhyNot): string {
  switch (why.kind) {
    case 'promised':
      return 'It is promised to projects of its owner.'
    case 'has-lot':
      return `It is of lot ${why.lot}.`
    case 'nothing-held':
      return 'Nothing is left of it.'
    case 'no-stock':
      return 'These owners hold none of it.'
  }
}

export const describeBulkLine = ({ outcome, ...line }: BulkLine): z.input<typeof lineSchema> => ({
  ...line,
  outcome: outcome.kind,
  why: outcome.kind === 'refused' ? whyWords(outcome.why) : null,
})

export function describeBulkRefusal(refusal: BulkRefused): Problem {
  switch (refusal.kind) {
    case 'no-such-place':
      return noSuch('place', 'change/toPlaceId')
    case 'no-such-owner':
      return noSuch('owner', 'change/toOwnerId')
    case 'changed-meanwhile':
      return new Problem('refused', 'It would now do something else than the preview said. Look at a new preview.')
    case 'nothing-changes':
      return new Problem('refused', 'Nothing would change: all is so already or is refused.')
    case 'too-many':
      return new Problem('refused', `${refusal.count} threads are named; at most ${refusal.most} can be changed at once.`)
  }
}

export function describeBulkUndoRefusal(refusal: BulkUndoRefused): Problem {
  switch (refusal.kind) {
    case 'no-such-edit':
      return new Problem('not-found', 'There is no such change of many threads.')
    case 'already-undone':
      return new Problem('refused', 'It was taken back already.')
    case 'changed-meanwhile':
      return new Problem('refused', 'Somebody changed some of it this moment. Try again.')
  }
}
