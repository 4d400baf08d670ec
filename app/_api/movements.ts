import { z } from 'zod'
import { partCertainties } from '#lib/stock/batch'
import { movementKinds } from '#lib/stock/stock-change'
import { namedSchema, placeRefSchema } from './collection'
import { threadRefSchema } from './cover'
import { operation } from './operation'
import { nextField, pageQuery } from './paging'
import { idText, orNull, putUpStrandTenths, shortText } from './quantities'
import { exampleHome, exampleThread } from './stock'

const movementSchema = z
  .strictObject({
    movementId: z.string(),
    revision: z.int().meta({ description: 'Lines of one change share it.' }),
    at: z.string().meta({ description: 'ISO 8601, UTC.' }),
    kind: z.enum(movementKinds),
    batch: orNull(z.strictObject({ batchId: z.string(), lot: z.string().nullable(), thread: threadRefSchema })),
    cloth: orNull(z.strictObject({ clothPieceId: z.string(), label: z.string().nullable(), name: z.string() })),
    chart: orNull(z.strictObject({ chartId: z.string(), title: z.string() })),
    notion: orNull(z.strictObject({ notionId: z.string(), name: z.string(), size: z.string().nullable() })),
    wholeDelta: z.int().meta({ description: 'Whole put-ups, pieces, copies or notions gained or lost.' }),
    partDeltaStrandTenths: z.int(),
    from: orNull(placeRefSchema),
    to: orNull(placeRefSchema),
    fromOwner: orNull(namedSchema),
    toOwner: orNull(namedSchema),
    project: orNull(z.strictObject({ projectId: z.string(), title: z.string() })),
    importId: z.string().nullable(),
    who: z.string().nullable(),
    reason: z.string().nullable(),
  })
  .meta({ id: 'Movement' })

const exampleMovement = {
  movementId: 'm1',
  revision: 413,
  at: '2026-09-08T09:30:00.000Z',
  kind: 'receive',
  batch: { batchId: 'b1', lot: null, thread: exampleThread },
  cloth: null,
  chart: null,
  notion: null,
  wholeDelta: 2,
  partDeltaStrandTenths: 0,
  from: null,
  to: exampleHome,
  fromOwner: null,
  toOwner: { id: 'o1', name: 'The Oxmarsh Needle Room' },
  project: null,
  importId: null,
  who: 'Nell Oxtoby',
  reason: null,
}

export const listMovementsOperation = operation({
  method: 'get',
  path: '/movements',
  id: 'listMovements',
  group: 'Stock',
  summary: 'The journal, latest first',
  query: z.strictObject({
    batch: idText.optional(),
    thread: idText.optional(),
    cloth: idText.optional(),
    chart: idText.optional(),
    notion: idText.optional(),
    project: idText.optional(),
    since: z
      .union([z.iso.date(), z.iso.datetime({ offset: true })])
      .transform((text) => new Date(text))
      .optional()
      .meta({ type: 'string', description: 'A day (from its start, UTC) or a moment, ISO 8601.' }),
    ...pageQuery,
  }),
  answer: z.strictObject({ movements: z.array(movementSchema), next: nextField }).meta({ id: 'MovementList' }),
  answerMeans: 'A page of the journal.',
  example: { answer: { movements: [exampleMovement], next: null } },
})

const putUpsHeld = z.int().min(0).max(10_000)
/** Ten kilometres of strand: more than any part of a put-up. */
const partStrandTenths = z.int().min(0).max(100_000_000)
const common = {
  who: shortText.nullable().default(null).meta({ description: 'Who did it, for the journal.' }),
  reason: shortText.nullable().default(null),
}
const batchEdit = {
  batchId: idText,
  version: z.int().min(0).optional().meta({ description: 'The version last seen; left out, the batch is taken as it stands.' }),
  ...common,
}
const part = shortText.optional().meta({
  description:
    'The part as one says it, instead of its length and certainty: `2.5 m` (measured), `1/2` (a guess), `3.1 g` (measured, where a full one’s weight is on record), `some`.',
  example: '1/2',
})
type SaidPart = { part?: string | undefined; partStrandTenths: number; partCertainty: string }
const partMatches = ({ part: said, partStrandTenths: length, partCertainty }: SaidPart): boolean =>
  said === undefined
    ? length > 0 === (partCertainty !== 'none' && partCertainty !== 'some')
    : length === 0 && partCertainty === 'none'
const parting = { wholePutUps: putUpsHeld.default(0), takesPart: z.boolean().default(false) }
const partRefusal = {
  path: ['partCertainty'],
  message: 'It contradicts the part length.',
  params: { accepted: 'none or some without a length; measured, label or guess with one; neither beside `part`' },
}

export const addMovement = operation({
  method: 'post',
  path: '/movements',
  id: 'addMovement',
  group: 'Stock',
  summary: 'Receive, use, move, take, return, correct, relabel, pass on, part or lay together thread',
  description:
    'The verb is `kind`. Receive lays thread with an equal batch at its home or makes a new one. Use draws a length from a batch, the part first, or uses up all of it. Move takes the whole batch, for a while or to live there. Take carries some put-ups out. Return puts a batch back where it lives. Correct sets what was counted, relabel what the label says. Transfer passes a batch, or some of it, to another owner. Split parts a batch in two, merge lays two equal ones together.',
  body: z
    .discriminatedUnion('kind', [
      z
        .strictObject({
          kind: z.literal('receive'),
          threadId: idText,
          ownerId: idText,
          lot: shortText.nullable().default(null),
          putUpWord: shortText.nullable().default(null).meta({ description: 'Null for the line’s own word.' }),
          putUpStrandTenths: putUpStrandTenths.nullable().default(null).meta({ description: 'Null for the line’s own put-up.' }),
          wholePutUps: putUpsHeld.default(0),
          partStrandTenths: partStrandTenths.default(0),
          partCertainty: z.enum(partCertainties).default('none'),
          part,
          homePlaceId: idText.nullable(),
          ...common,
        })
        .refine(partMatches, partRefusal),
      z.strictObject({
        kind: z.literal('use'),
        ...batchEdit,
        strandTenths: z.union([z.int().min(1).max(1_000_000_000), z.literal('all')]),
        projectId: idText.nullable().default(null),
      }),
      z.strictObject({ kind: z.literal('move'), ...batchEdit, toPlaceId: idText, becomesHome: z.boolean() }),
      z
        .strictObject({
          kind: z.literal('take'),
          ...batchEdit,
          wholePutUps: putUpsHeld.default(0),
          takesPart: z.boolean().default(false),
          toPlaceId: idText,
          projectId: idText.nullable().default(null),
        })
        .refine((take) => take.wholePutUps > 0 || take.takesPart, {
          path: ['wholePutUps'],
          message: 'Nothing is taken.',
          params: { accepted: 'at least 1, or takesPart' },
        }),
      z.strictObject({ kind: z.literal('return'), ...batchEdit, projectId: idText.nullable().default(null) }),
      z
        .strictObject({
          kind: z.literal('correct'),
          ...batchEdit,
          reason: shortText,
          wholePutUps: putUpsHeld,
          partStrandTenths: partStrandTenths.default(0),
          partCertainty: z.enum(partCertainties).default('none'),
          part,
        })
        .refine(partMatches, partRefusal),
      z.strictObject({
        kind: z.literal('relabel'),
        ...batchEdit,
        reason: shortText,
        lot: shortText.nullable(),
        putUpWord: shortText.nullable().optional().meta({ description: 'Left out: as it was. Null: as the line says.' }),
        putUpStrandTenths,
      }),
      z.strictObject({
        kind: z.literal('transfer'),
        ...batchEdit,
        toOwnerId: idText,
        parting: orNull(z.strictObject(parting)).default(null).meta({ description: 'What of it; null for all.' }),
      }),
      z.strictObject({
        kind: z.literal('split'),
        ...batchEdit,
        ...parting,
        homePlaceId: idText
          .nullable()
          .optional()
          .meta({ description: 'Where the new batch is to live; as the old one when left out.' }),
        currentPlaceId: idText.nullable().optional().meta({ description: 'Where it is; in its new home when left out.' }),
      }),
      z.strictObject({
        kind: z.literal('merge'),
        ...batchEdit,
        intoBatchId: idText,
        intoVersion: z.int().min(0).optional(),
      }),
    ])
    .meta({ id: 'MovementRequest' }),
  answerStatus: 201,
  answer: z
    .strictObject({
      batchId: z.string().meta({ description: 'The batch split off, the one it was laid with, or the one changed.' }),
      revision: z.int(),
      movements: z.array(movementSchema),
    })
    .meta({ id: 'MovementAnswer' }),
  answerMeans: 'Done, with its lines of the journal.',
  problems: ['refused'],
  takesIdempotencyKey: true,
  example: {
    body: { kind: 'receive', threadId: 't1', ownerId: 'o1', wholePutUps: 2, homePlaceId: 'p2', who: 'Nell Oxtoby' },
    answer: { batchId: 'b1', revision: 413, movements: [exampleMovement] },
  },
})
