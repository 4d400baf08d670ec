import { z } from 'zod'
import type { NewHomeRefused } from '#lib/db/new-home/apply-new-home'
import { homedNouns, mostThings } from '#lib/db/new-home/read-new-home'
import type { NewHomeUndoRefused } from '#lib/db/new-home/undo-new-home'
import { operation } from './operation'
import { Problem } from './problem'
import { idText, shortText } from './quantities'
import { noSuch } from './stock-refusal'

const requestFields = {
  noun: z.enum(homedNouns),
  ids: z.array(idText).min(1).max(mostThings),
  toPlaceId: idText,
}
const exampleRequest = { noun: 'cloth' as const, ids: ['k1'], toPlaceId: 'p2' }
const housing = z.strictObject({ homePlaceId: z.string().nullable(), currentPlaceId: z.string().nullable() })

export const previewNewHomeOperation = operation({
  method: 'post',
  path: '/new-homes/preview',
  id: 'previewNewHome',
  right: 'read',
  group: 'Places',
  summary: 'What another home would do to many pieces of cloth, or many notions',
  description:
    'Nothing is written. Hand the `fingerprint` over with the change itself to be sure that it does what was seen here.',
  body: z.strictObject(requestFields).meta({ id: 'NewHomePreviewRequest' }),
  answer: z
    .strictObject({
      fingerprint: z.string(),
      lines: z.array(
        z
          .strictObject({
            id: z.string(),
            before: housing,
            isChanged: z.boolean(),
            isOut: z.boolean().meta({ description: 'Its home changes and it stays where it is.' }),
          })
          .meta({ id: 'NewHomeLine' }),
      ),
    })
    .meta({ id: 'NewHomePreview' }),
  answerMeans: 'One by one; what is gone is left out.',
  example: {
    body: exampleRequest,
    answer: {
      fingerprint: 'Yq3…',
      lines: [{ id: 'k1', before: { homePlaceId: 'p1', currentPlaceId: 'p1' }, isChanged: true, isOut: false }],
    },
  },
})

export const applyNewHomeOperation = operation({
  method: 'post',
  path: '/new-homes',
  id: 'applyNewHome',
  group: 'Places',
  summary: 'Give many pieces of cloth, or many notions, another home',
  description: 'All in one write, with a line of the journal each. What is out stays out, and comes back to the new home.',
  body: z
    .strictObject({
      ...requestFields,
      what: shortText.meta({ description: 'In a few words, for the journal and the list of changes.' }),
      fingerprint: z.string().max(100).optional().meta({ description: 'Of the preview.' }),
      who: shortText.nullable().default(null),
    })
    .meta({ id: 'NewHomeRequest' }),
  answerStatus: 201,
  answer: z.strictObject({ bulkEditId: z.string(), changed: z.int(), same: z.int() }).meta({ id: 'NewHomeAnswer' }),
  answerMeans: 'Done; how many changed, and how many lived there already.',
  problems: ['refused'],
  takesIdempotencyKey: true,
  example: { body: { ...exampleRequest, what: 'New home C4' }, answer: { bulkEditId: 'e1', changed: 1, same: 0 } },
})

export const undoNewHomeOperation = operation({
  method: 'post',
  path: '/new-homes/{bulkEditId}/undo',
  id: 'undoNewHome',
  group: 'Places',
  summary: 'Take such a change back',
  description: 'In one write. What was changed since is left alone and named.',
  pathParameters: z.strictObject({ bulkEditId: idText }),
  body: z.strictObject({ who: shortText.nullable().default(null) }).meta({ id: 'NewHomeUndo' }),
  answer: z
    .strictObject({
      takenBack: z.int(),
      left: z.array(
        z.strictObject({ id: z.string(), why: z.enum(['changed-since', 'gone', 'place-gone']) }).meta({ id: 'NewHomeLeft' }),
      ),
    })
    .meta({ id: 'NewHomeUndone' }),
  answerMeans: 'How many are as they were, and which are not.',
  problems: ['not-found', 'refused'],
  example: { body: {}, answer: { takenBack: 1, left: [] } },
})

export const newHomeOperations = [previewNewHomeOperation, applyNewHomeOperation, undoNewHomeOperation]

export function describeNewHomeRefusal(refusal: NewHomeRefused): Problem {
  switch (refusal.kind) {
    case 'no-such-place':
      return noSuch('place', 'toPlaceId')
    case 'kept-by-record':
      return new Problem('refused', 'Only the record puts things there: what was looked for in vain.')
    case 'changed-meanwhile':
      return new Problem('refused', 'It would now do something else than the preview said. Look at a new preview.')
    case 'nothing-changes':
      return new Problem('refused', 'Nothing would change: all of them live there already.')
    case 'too-many':
      return new Problem('refused', `${refusal.count} things are named; at most ${refusal.most} can be changed at once.`)
  }
}

export function describeNewHomeUndoRefusal(refusal: NewHomeUndoRefused): Problem {
  switch (refusal.kind) {
    case 'no-such-edit':
      return new Problem('not-found', 'There is no such change.')
    case 'already-undone':
      return new Problem('refused', 'It was taken back already.')
  }
}
