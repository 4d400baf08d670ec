import { z } from 'zod'
import type { ProjectBulkRefused } from '#lib/db/project-bulk/apply-project-bulk'
import { mostProjects } from '#lib/db/project-bulk/read-project-bulk'
import type { ProjectBulkUndoRefused } from '#lib/db/project-bulk/undo-project-bulk'
import { mostStars } from '#lib/planning/together/wish-value'
import { operation } from './operation'
import { Problem } from './problem'
import { idText, shortText } from './quantities'

const day = z.iso.date()
const changeSchema = z
  .discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('due'), dueOn: day.nullable() }),
    z.strictObject({ kind: z.literal('planned'), plannedOn: day.nullable() }),
    z.strictObject({ kind: z.literal('for-whom'), forWhom: shortText.nullable() }),
    z.strictObject({ kind: z.literal('stars'), stars: z.int().min(1).max(mostStars).nullable() }),
  ])
  .meta({
    id: 'ProjectBulkChange',
    description: 'Null takes it off. A day they are due on puts an occasion they were due for out of force.',
  })

const requestFields = { projectIds: z.array(idText).min(1).max(mostProjects), change: changeSchema }
const exampleRequest = { projectIds: ['j1'], change: { kind: 'due' as const, dueOn: '2026-12-01' } }
const text = z.string().nullable()
const left = z.array(
  z.strictObject({ id: z.string(), why: z.enum(['changed-since', 'gone', 'place-gone']) }).meta({ id: 'ProjectBulkLeft' }),
)

export const previewProjectBulkOperation = operation({
  method: 'post',
  path: '/projects/bulk-edits/preview',
  id: 'previewProjectBulk',
  right: 'read',
  group: 'Projects',
  summary: 'What one change would do to many projects',
  description:
    'Nothing is written. Hand the `fingerprint` over with the change itself to be sure that it does what was seen here.',
  body: z.strictObject(requestFields).meta({ id: 'ProjectBulkPreviewRequest' }),
  answer: z
    .strictObject({
      fingerprint: z.string(),
      lines: z.array(
        z
          .strictObject({
            id: z.string(),
            before: z
              .strictObject({ dueOn: text, occasionKey: text, plannedOn: text, forWhom: text, stars: z.int().nullable() })
              .partial()
              .meta({ description: 'Only what the change writes.' }),
            outcome: z.enum(['changes', 'same', 'over']).meta({ description: 'over: finished or given up, and passed over.' }),
          })
          .meta({ id: 'ProjectBulkLine' }),
      ),
    })
    .meta({ id: 'ProjectBulkPreview' }),
  answerMeans: 'One by one; what is gone is left out.',
  example: {
    body: exampleRequest,
    answer: { fingerprint: 'Yq3…', lines: [{ id: 'j1', before: { dueOn: null, occasionKey: null }, outcome: 'changes' }] },
  },
})

export const applyProjectBulkOperation = operation({
  method: 'post',
  path: '/projects/bulk-edits',
  id: 'applyProjectBulk',
  group: 'Projects',
  summary: 'Make one change to many projects',
  description: 'All in one write; it can be taken back.',
  body: z
    .strictObject({
      ...requestFields,
      what: shortText.meta({ description: 'In a few words, for the list of changes.' }),
      fingerprint: z.string().max(100).optional().meta({ description: 'Of the preview.' }),
      who: shortText.nullable().default(null),
    })
    .meta({ id: 'ProjectBulkRequest' }),
  answerStatus: 201,
  answer: z
    .strictObject({ bulkEditId: z.string(), changed: z.int(), same: z.int(), over: z.int() })
    .meta({ id: 'ProjectBulkAnswer' }),
  answerMeans: 'Done; how many changed, were so already, and are over.',
  problems: ['refused'],
  takesIdempotencyKey: true,
  example: {
    body: { ...exampleRequest, what: 'Due on 1 December 2026' },
    answer: { bulkEditId: 'e1', changed: 1, same: 0, over: 0 },
  },
})

export const undoProjectBulkOperation = operation({
  method: 'post',
  path: '/projects/bulk-edits/{bulkEditId}/undo',
  id: 'undoProjectBulk',
  group: 'Projects',
  summary: 'Take a change of many projects back',
  description: 'In one write. What was changed since is left alone and named.',
  pathParameters: z.strictObject({ bulkEditId: idText }),
  answer: z.strictObject({ takenBack: z.int(), left }).meta({ id: 'ProjectBulkUndone' }),
  answerMeans: 'How many are as they were, and which are not.',
  problems: ['not-found', 'refused'],
  example: { answer: { takenBack: 1, left: [] } },
})

export const projectBulkOperations = [previewProjectBulkOperation, applyProjectBulkOperation, undoProjectBulkOperation]

export function describeProjectBulkRefusal(refusal: ProjectBulkRefused): Problem {
  switch (refusal.kind) {
    case 'changed-meanwhile':
      return new Problem('refused', 'It would now do something else than the preview said. Look at a new preview.')
    case 'nothing-changes':
      return new Problem('refused', 'Nothing would change: all of it is so already.')
    case 'too-many':
      return new Problem('refused', `${refusal.count} projects are named; at most ${refusal.most} can be changed at once.`)
  }
}

export function describeProjectBulkUndoRefusal(refusal: ProjectBulkUndoRefused): Problem {
  switch (refusal.kind) {
    case 'no-such-edit':
      return new Problem('not-found', 'There is no such change.')
    case 'already-undone':
      return new Problem('refused', 'It was taken back already.')
  }
}
