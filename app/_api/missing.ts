import { z } from 'zod'
import { clueKinds } from '#lib/stock/missing-clues'
import { movementKinds } from '#lib/stock/stock-change'
import { ownerIdsField, ownerQuery, placeRefSchema } from './collection'
import { threadRefSchema } from './cover'
import { operation } from './operation'
import { nextField, numberedPageQuery } from './paging'
import { idText, noteText, orNull, shortText } from './quantities'
import { exampleThread } from './stock'

const who = shortText.nullable().default(null).meta({ description: 'Who says so, for the journal.' })
const version = z.int().min(0).optional().meta({ description: 'The version last seen; left out, it is taken as it stands.' })
const missingPath = z.strictObject({ missingId: idText })

const questionFields = {
  missingId: z.string(),
  version: z.int(),
  status: z.enum(['open', 'found', 'given up']),
  noun: z.enum(['thread', 'cloth', 'chart', 'notion']),
  thingId: z.string().meta({ description: 'The batch, piece, chart or notion it is about.' }),
  name: z.string(),
  thread: orNull(threadRefSchema),
  lot: z.string().nullable(),
  wholePutUps: z.int().nullable().meta({ description: 'Of thread.' }),
  partStrandTenths: z.int().nullable(),
  owner: z.string(),
  home: orNull(placeRefSchema),
  current: orNull(placeRefSchema),
  lastSeen: orNull(placeRefSchema),
  project: orNull(z.strictObject({ projectId: z.string(), title: z.string() })),
  askedAt: z.string(),
  askedBy: z.string().nullable(),
  note: z.string().nullable(),
  settledAt: z.string().nullable(),
  settledBy: z.string().nullable(),
}
const exampleQuestion = {
  ...{ missingId: 'm1', version: 0, status: 'open' as const, noun: 'thread' as const, thingId: 'b1', name: 'Larkholm 1204' },
  ...{ thread: { ...exampleThread, code: '1204' }, lot: null, wholePutUps: 1, partStrandTenths: 0 },
  ...{ owner: 'The Oxmarsh Needle Room', home: { placeId: 'p2', label: 'T3.1-01' }, current: { placeId: 'p9', label: 'K-07' } },
  ...{ lastSeen: { placeId: 'p9', label: 'K-07' }, project: { projectId: 'j1', title: 'Kettle at Wend Cross' } },
  ...{ askedAt: '2026-09-07T10:00:00.000Z', askedBy: 'Nell Oxtoby', note: null, settledAt: null, settledBy: null },
}

const group = 'Stock' as const

export const listMissingOperation = operation({
  ...({ method: 'get', path: '/missing', id: 'listMissingThings', group } as const),
  summary: 'What was looked for and is not there',
  description:
    'Open questions, asked longest ago first; or those that were settled, the latest first. What is missing is out, never free.',
  query: z.strictObject({ ...ownerQuery, ...numberedPageQuery, status: z.enum(['open', 'settled']).default('open') }),
  answer: z
    .strictObject({
      ownerIds: ownerIdsField,
      total: z.int(),
      questions: z.array(z.strictObject(questionFields)),
      next: nextField,
    })
    .meta({ id: 'MissingThingList' }),
  answerMeans: 'A page of questions.',
  example: { answer: { ownerIds: ['o1'], total: 1, questions: [exampleQuestion], next: null } },
})

const placesField = z
  .array(
    z.strictObject({
      place: placeRefSchema,
      why: z.array(z.strictObject({ kind: z.enum(clueKinds), text: z.string().nullable(), at: z.string().nullable() })),
    }),
  )
  .meta({ description: 'Where to look, the likeliest first.' })
const questionSchema = z
  .strictObject({
    ...questionFields,
    places: placesField,
    lastHands: z
      .array(
        z.strictObject({
          at: z.string(),
          kind: z.enum(movementKinds),
          who: z.string().nullable(),
          from: z.string().nullable(),
          to: z.string().nullable(),
          project: z.string().nullable(),
        }),
      )
      .meta({ description: 'Who had it last, the latest first.' }),
  })
  .meta({ id: 'MissingQuestion' })
const exampleFull = {
  ...exampleQuestion,
  places: [{ place: { placeId: 'p3', label: 'T3.1-02' }, why: [{ kind: 'next-to' as const, text: 'T3.1-01', at: null }] }],
  lastHands: [
    {
      ...{ at: '2026-09-01T10:00:00.000Z', kind: 'take' as const, who: 'Joss Tarrow', from: 'T3.1-01', to: 'K-07' },
      project: 'Kettle at Wend Cross',
    },
  ],
}

export const getMissing = operation({
  ...({ method: 'get', path: '/missing/{missingId}', id: 'getMissingThing', group } as const),
  summary: 'One question: where it may be, and who had it last',
  pathParameters: missingPath,
  answer: questionSchema,
  answerMeans: 'The question.',
  problems: ['not-found'],
  example: { answer: exampleFull },
})

export const reportMissingOperation = operation({
  ...({ method: 'post', path: '/missing', id: 'reportMissing', group } as const),
  summary: 'Say that a thing is not where the record has it',
  description:
    'What is missing is parted off and goes on record as not found: out, not free, its home kept. Promises stay with what is left, where they may be seen to be broken.',
  body: z
    .strictObject({
      noun: z.enum(['thread', 'cloth', 'chart', 'notion']),
      id: idText.meta({ description: 'Of the batch, piece, chart or notion.' }),
      version,
      wholePutUps: z.int().min(0).max(1_000_000).default(0).meta({ description: 'Of thread: how many are missing.' }),
      takesPart: z.boolean().default(false).meta({ description: 'Of thread: the part is missing too.' }),
      projectId: idText.nullable().default(null).meta({ description: 'What it was wanted for.' }),
      note: noteText.nullable().default(null),
      who,
    })
    .meta({ id: 'ReportMissingRequest' }),
  answer: questionSchema,
  answerStatus: 201,
  answerMeans: 'The question that was opened.',
  problems: ['refused'],
  takesIdempotencyKey: true,
  example: { body: { noun: 'thread', id: 'b1', wholePutUps: 1, who: 'Nell Oxtoby' }, answer: exampleFull },
})

const settle = {
  ...({ method: 'post', group, pathParameters: missingPath } as const),
  answer: questionSchema,
  problems: ['not-found', 'refused'],
  takesIdempotencyKey: true,
} as const

export const foundMissingOperation = operation({
  ...settle,
  path: '/missing/{missingId}/found',
  id: 'foundMissing',
  summary: 'It is found: at home, where it was seen last, or somewhere else',
  description: 'The record follows to where it is. When only some of a batch turned up, the question stays open for the rest.',
  body: z
    .strictObject({
      version,
      where: z.enum(['home', 'last-seen', 'place']),
      placeLabel: shortText.optional().meta({ description: 'With `place`: its label; a new one is made.' }),
      found: z
        .strictObject({ wholePutUps: z.int().min(0).max(1_000_000), takesPart: z.boolean().default(false) })
        .optional()
        .meta({ description: 'Of thread, when not all of it turned up.' }),
      note: noteText.nullable().default(null),
      who,
    })
    .refine((found) => found.where !== 'place' || found.placeLabel !== undefined, {
      path: ['placeLabel'],
      message: 'Where it was found is missing.',
      params: { accepted: 'the label of a place' },
    })
    .meta({ id: 'FoundMissingRequest' }),
  answerMeans: 'The question as it now stands.',
  example: { body: { where: 'home', who: 'Joss Tarrow' }, answer: { ...exampleFull, status: 'found' } },
})

export const giveUpMissingOperation = operation({
  ...settle,
  path: '/missing/{missingId}/give-up',
  id: 'giveUpMissing',
  summary: 'Look no longer: write it off',
  description: 'A correction with the reason; the question stays to be read.',
  body: z.strictObject({ version, reason: shortText, who }).meta({ id: 'GiveUpMissingRequest' }),
  answerMeans: 'The question, given up.',
  example: { body: { reason: 'looked everywhere' }, answer: { ...exampleFull, status: 'given up' } },
})

export const missingOperations = [
  listMissingOperation,
  reportMissingOperation,
  getMissing,
  foundMissingOperation,
  giveUpMissingOperation,
] as const
