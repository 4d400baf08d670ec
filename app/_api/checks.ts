import { z } from 'zod'
import { faultKinds, repairs } from '#lib/checking/fault'
import { checkSteps } from '#lib/db/checking/check-collection'
import { operation } from './operation'
import { idText, orNull } from './quantities'

const jobPath = z.strictObject({ jobId: idText })

const outcomeSchema = z
  .strictObject({
    repair: z.enum(repairs),
    isDone: z.boolean(),
    detail: z.string().meta({ description: 'What came of it, in words.' }),
  })
  .meta({ id: 'RepairOutcome' })

const faultSchema = z
  .strictObject({
    faultId: z.string(),
    kind: z.enum(faultKinds),
    weight: z.enum(['wrong', 'mind']).meta({ description: '`wrong` must not be; `mind` happens in a sound collection too.' }),
    noun: z.string(),
    nounId: z.string(),
    name: z.string(),
    page: orNull(z.string()).meta({ description: 'Where it is shown, under this server’s address.' }),
    detail: z.string().meta({ description: 'What is so, in a sentence.' }),
    repairs: z
      .array(z.strictObject({ repair: z.enum(repairs), preview: z.string() }))
      .meta({ description: 'What can be done about it, and what that would change.' }),
    outcome: orNull(outcomeSchema).meta({ description: 'What came of the repair asked for last.' }),
  })
  .meta({ id: 'Fault' })

const comparedSchema = z
  .strictObject({ looked: z.int(), of: z.int() })
  .meta({ id: 'DesignsCompared', description: 'Designs that were compared, and how many there are: fewer are a sample.' })

const checkSchema = z
  .strictObject({
    jobId: z.string(),
    state: z.enum(['running', 'ended', 'failed']),
    step: z.enum(checkSteps),
    startedAt: z.string().meta({ description: 'ISO 8601, UTC.' }),
    verdict: orNull(z.string()).meta({ description: 'How it stands, in one line; null while it runs.' }),
    isSound: orNull(z.boolean()).meta({ description: 'Nothing that must not be was found.' }),
    isWhole: orNull(z.boolean()).meta({ description: 'False where it was stopped, or the database is damaged.' }),
    seconds: orNull(z.number()),
    looked: orNull(
      z.strictObject({
        ...{ movements: z.int(), things: z.int(), places: z.int(), promises: z.int(), files: z.int() },
        ...{ snapshot: orNull(comparedSchema), answers: orNull(comparedSchema) },
      }),
    ),
    counts: z.array(z.strictObject({ kind: z.enum(faultKinds), count: z.int() })).meta({
      description: 'All that were found, by kind.',
    }),
    faults: z.array(faultSchema).meta({ description: 'Of each kind the first 500.' }),
  })
  .meta({ id: 'Check' })

const exampleFault = {
  ...{ faultId: 'stock-differs:b1', kind: 'stock-differs' as const, weight: 'wrong' as const },
  ...{ noun: 'batch', nounId: 'b1', name: 'Larkholm 0017, lot 22', page: '/threads/t1' },
  detail: 'The record says 5 put-ups; the journal adds up to 3 put-ups.',
  repairs: [
    {
      repair: 'trust-record' as const,
      preview: 'It stays as it is. A correction goes into the journal, so that it adds up to 5 put-ups.',
    },
    { repair: 'trust-journal' as const, preview: 'It is set to 3 put-ups. The journal gets a line that says so.' },
  ],
  outcome: null,
}
const exampleRunning = {
  ...{ jobId: 'j1', state: 'running' as const, step: 'damage' as const, startedAt: '2026-11-30T09:12:44.000Z' },
  ...{ verdict: null, isSound: null, isWhole: null, seconds: null, looked: null, counts: [], faults: [] },
}
const exampleEnded = {
  ...{ jobId: 'j1', state: 'ended' as const, step: 'answers' as const, startedAt: '2026-11-30T09:12:44.000Z' },
  ...{ verdict: 'Found 1 thing that must not be', isSound: false, isWhole: true, seconds: 1.4 },
  looked: {
    ...{ movements: 1_204, things: 960, places: 69, promises: 132, files: 42 },
    ...{ snapshot: null, answers: { looked: 158, of: 158 } },
  },
  ...{ counts: [{ kind: 'stock-differs' as const, count: 1 }], faults: [exampleFault] },
}

export const startCheckOperation = operation({
  method: 'post',
  path: '/checks',
  id: 'startCheck',
  right: 'keep',
  group: 'Service',
  summary: 'Look through the whole collection for what must not be',
  description: 'Goes on in the background, while others work, and changes nothing: ask for the check.',
  answer: checkSchema,
  answerMeans: 'Begun.',
  problems: ['refused'],
  example: { answer: exampleRunning },
})

export const getCheckOperation = operation({
  method: 'get',
  path: '/checks/{jobId}',
  id: 'getCheck',
  right: 'keep',
  group: 'Service',
  summary: 'How a check stands, and what it found',
  pathParameters: jobPath,
  answer: checkSchema,
  answerMeans: 'As it stands. Only the last one that was begun is known.',
  problems: ['not-found'],
  example: { answer: exampleEnded },
})

export const stopCheckOperation = operation({
  method: 'post',
  path: '/checks/{jobId}/stop',
  id: 'stopCheck',
  right: 'keep',
  group: 'Service',
  summary: 'Stop a check: what it has found by then stays',
  pathParameters: jobPath,
  answer: checkSchema,
  answerMeans: 'Ended.',
  problems: ['not-found'],
  example: { answer: { ...exampleEnded, verdict: 'Broken off before the end: nothing found by then', isWhole: false } },
})

export const repairFaultOperation = operation({
  method: 'post',
  path: '/checks/{jobId}/repairs',
  id: 'repairFault',
  right: 'keep',
  group: 'Service',
  summary: 'Do what can be done about one fault, or about all of a kind',
  description:
    'Each in a write of its own, in which the fault is looked for once more: one that is there no longer, or has other figures than were told, is left alone.',
  pathParameters: jobPath,
  body: z
    .union([
      z.strictObject({ repair: z.enum(repairs), faultId: z.string().min(1).max(400) }),
      z.strictObject({ repair: z.enum(repairs), kind: z.enum(faultKinds) }),
    ])
    .meta({ id: 'RepairRequest' }),
  answer: z
    .strictObject({ outcomes: z.array(z.strictObject({ faultId: z.string(), outcome: outcomeSchema })) })
    .meta({ id: 'RepairAnswer' }),
  answerMeans: 'What came of each.',
  problems: ['not-found'],
  example: {
    body: { repair: 'trust-journal', faultId: 'stock-differs:b1' },
    answer: {
      outcomes: [
        {
          faultId: 'stock-differs:b1',
          outcome: { repair: 'trust-journal' as const, isDone: true, detail: 'Done: the journal is right.' },
        },
      ],
    },
  },
})

export const listSetAsideOperation = operation({
  method: 'get',
  path: '/set-aside',
  id: 'listSetAside',
  right: 'keep',
  group: 'Service',
  summary: 'Files that were set aside because nothing names them, by day',
  answer: z
    .strictObject({ days: z.array(z.strictObject({ day: z.string(), files: z.int(), bytes: z.int() })) })
    .meta({ id: 'SetAsideList' }),
  answerMeans: 'Newest first.',
  example: { answer: { days: [{ day: '2026-11-30', files: 3, bytes: 412_388 }] } },
})

export const removeSetAsideOperation = operation({
  method: 'post',
  path: '/set-aside/{day}/remove',
  id: 'removeSetAside',
  right: 'keep',
  group: 'Service',
  summary: 'Take what was set aside on a day off the disk for good',
  pathParameters: z.strictObject({ day: z.string().max(10).meta({ description: 'YYYY-MM-DD' }) }),
  answer: z.strictObject({ removed: z.string() }).meta({ id: 'SetAsideRemoved' }),
  answerMeans: 'Gone.',
  problems: ['not-found'],
  example: { answer: { removed: '2026-11-30' } },
})

export const checkOperations = [
  startCheckOperation,
  getCheckOperation,
  stopCheckOperation,
  repairFaultOperation,
  listSetAsideOperation,
  removeSetAsideOperation,
] as const
