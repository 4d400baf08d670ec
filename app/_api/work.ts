import { z } from 'zod'
import { ownerIdsField, ownerQuery } from './collection'
import { operation } from './operation'
import { nextField, numberedPageQuery } from './paging'
import { projectAnswer, projectPath } from './projects'
import { dateText, idText, noteText, orNull, shortText } from './quantities'

const mostMinutes = 60_000
const minutes = z.int().min(0).max(mostMinutes)
const stitches = z.int().min(-10_000_000).max(10_000_000)
const donePerMille = z.int().min(0).max(1_000).nullable()
const version = z.int().min(0).optional().meta({ description: 'The version last seen; left out, it is taken as it stands.' })

const entrySchema = z
  .strictObject({
    entryId: z.string(),
    version: z.int(),
    day: z.string(),
    stitches: z.int().meta({
      description:
        'Less than nothing where some were unpicked. Of an entry with a percentage: what that adds to those before it.',
    }),
    minutes: z.int(),
    donePerMille: donePerMille.meta({
      description: 'How far it had come, in thousandths of the whole, said instead of stitches.',
    }),
    note: z.string().nullable(),
    photo: z.string().nullable().meta({ description: 'Under /photos.' }),
    who: z.string().nullable(),
  })
  .meta({ id: 'WorkEntry', description: 'One line of a project’s log. With no figure at all: it was worked on.' })

export type WorkEntryAnswer = z.input<typeof entrySchema>

const logSchema = z
  .strictObject({
    projectId: z.string(),
    hoursTenths: z.int().meta({ description: 'The project’s total, in tenths of an hour.' }),
    stitchesDone: z.int().meta({ description: 'The project’s total.' }),
    notInLog: z.strictObject({ stitches: z.int(), hoursTenths: z.int() }).meta({
      description: 'The part of the totals that no entry accounts for: done before the log began, or typed as a total.',
    }),
    timerSince: z.string().nullable().meta({ description: 'Somebody sits at it since then.' }),
    removed: orNull(entrySchema).meta({ description: 'What was taken out last; it can be restored.' }),
    total: z.int(),
    entries: z.array(entrySchema),
    next: nextField,
  })
  .meta({ id: 'WorkLog' })

const exampleEntry: WorkEntryAnswer = {
  ...{ entryId: 'w1', version: 0, day: '2026-09-08', stitches: 310, minutes: 150, donePerMille: null, note: null, photo: null },
  who: null,
}
const exampleLog: z.input<typeof logSchema> = {
  ...{ projectId: 'j1', hoursTenths: 340, stitchesDone: 3_460, notInLog: { stitches: 3_150, hoursTenths: 315 } },
  ...{ timerSince: null, removed: null, total: 1, entries: [exampleEntry], next: null },
}

const group = 'Projects' as const
const answersLog = {
  group,
  answer: logSchema,
  answerMeans: 'The latest of the log as it is now, and the totals.',
  problems: ['not-found', 'refused'],
} as const
const written = { ...answersLog, method: 'post', takesIdempotencyKey: true } as const
const entryPath = z.strictObject({ projectId: idText, entryId: idText })

export const workOperations = {
  log: operation({
    ...({ method: 'post', path: '/projects/{projectId}/work', id: 'logWork', group } as const),
    summary: 'Log what was stitched on a day',
    description:
      'Adds to the project’s totals. What was not begun is begun by it, and what rests is taken up when the day is today; that the last stitch is made is only ever said by moveProject.',
    pathParameters: projectPath,
    body: z
      .strictObject({
        day: dateText.optional().meta({ description: 'Today when left out.' }),
        stitches: stitches.default(0).meta({ description: 'Less than nothing where some were unpicked.' }),
        minutes: minutes.optional().meta({ description: 'With `stopsTimer`, left out: what the timer says.' }),
        hoursTenths: z.int().min(0).max(10_000).optional().meta({ description: 'Instead of minutes.' }),
        donePerMille: donePerMille
          .default(null)
          .meta({ description: 'How far it has come, in thousandths of the whole, instead of stitches.' }),
        note: noteText.nullable().default(null),
        isTick: z.boolean().default(false).meta({ description: 'Without any figure: it was worked on.' }),
        stopsTimer: z.boolean().default(false),
        who: shortText.nullable().default(null),
      })
      .refine((said) => said.minutes === undefined || said.hoursTenths === undefined, {
        path: ['hoursTenths'],
        message: 'The time is said twice.',
        params: { accepted: '`minutes` or `hoursTenths`' },
      })
      .meta({ id: 'LogWorkRequest' }),
    answer: projectAnswer.schema,
    answerMeans: 'Logged.',
    problems: ['not-found', 'refused'],
    takesIdempotencyKey: true,
    example: {
      body: { day: '2026-09-08', minutes: 150, stitches: 310 },
      answer: { ...projectAnswer.example, status: 'stitching', hoursTenths: 25, stitchesDone: 310, version: 2 },
    },
  }),
  list: operation({
    ...answersLog,
    ...({ method: 'get', path: '/projects/{projectId}/work', id: 'listWork' } as const),
    summary: 'The log of a project, the latest day first',
    pathParameters: projectPath,
    query: z.strictObject(numberedPageQuery),
    answerMeans: 'A page of the log.',
    problems: ['not-found'],
    example: { answer: exampleLog },
  }),
  change: operation({
    ...written,
    ...({ path: '/projects/{projectId}/work/{entryId}', id: 'changeWork' } as const),
    summary: 'Say otherwise what was done on a day',
    description: 'Fields left out stay as they are; a percentage takes the place of stitches, and stitches of a percentage.',
    pathParameters: entryPath,
    body: z
      .strictObject({ version, day: dateText, stitches, minutes, donePerMille, note: noteText.nullable() })
      .partial()
      .meta({ id: 'ChangeWorkRequest' }),
    example: { body: { stitches: 310 }, answer: exampleLog },
  }),
  remove: operation({
    ...written,
    ...({ path: '/projects/{projectId}/work/{entryId}/remove', id: 'removeWork' } as const),
    summary: 'Take an entry out of the log, and what it said off the totals',
    pathParameters: entryPath,
    body: z.strictObject({ version }).meta({ id: 'RemoveWorkRequest' }),
    example: {
      body: {},
      answer: {
        ...{ ...exampleLog, hoursTenths: 315, stitchesDone: 3_150, removed: { ...exampleEntry, version: 1 } },
        ...{ total: 0, entries: [] },
      },
    },
  }),
  restore: operation({
    ...written,
    ...({ path: '/projects/{projectId}/work/{entryId}/restore', id: 'restoreWork' } as const),
    summary: 'Put an entry that was taken out back',
    pathParameters: entryPath,
    body: z.strictObject({ version }).meta({ id: 'RestoreWorkRequest' }),
    example: { body: {}, answer: exampleLog },
  }),
  photo: operation({
    ...answersLog,
    ...({ method: 'post', path: '/projects/{projectId}/work/{entryId}/photo', id: 'setWorkPhoto' } as const),
    summary: 'Keep a photo of how it looked that day',
    description: 'Send it as the part `file` of a form: JPEG, PNG or WebP, up to 30 MB.',
    pathParameters: entryPath,
    takesFile: true,
    example: { answer: { ...exampleLog, entries: [{ ...exampleEntry, version: 1, photo: 'p.webp' }] } },
  }),
  startTimer: operation({
    ...written,
    ...({ path: '/projects/{projectId}/timer', id: 'startTimer' } as const),
    summary: 'Start a project’s timer',
    description: 'One that runs goes on. logWork with `stopsTimer` stops it.',
    pathParameters: projectPath,
    body: z.strictObject({ who: shortText.nullable().default(null) }).meta({ id: 'StartTimerRequest' }),
    example: { body: {}, answer: { ...exampleLog, timerSince: '2026-09-08T19:40:00.000Z' } },
  }),
  dropTimer: operation({
    ...written,
    ...({ path: '/projects/{projectId}/timer/drop', id: 'dropTimer' } as const),
    summary: 'Stop a project’s timer without logging anything',
    pathParameters: projectPath,
    body: z.strictObject({}).meta({ id: 'DropTimerRequest' }),
    example: { body: {}, answer: exampleLog },
  }),
  timers: operation({
    ...({ method: 'get', path: '/timers', id: 'listTimers', group } as const),
    summary: 'The timers that run',
    query: z.strictObject(ownerQuery),
    answer: z
      .strictObject({
        ownerIds: ownerIdsField,
        timers: z.array(z.strictObject({ projectId: z.string(), title: z.string(), startedAt: z.string() })),
      })
      .meta({ id: 'TimerList' }),
    answerMeans: 'The longest first.',
    example: {
      answer: {
        ownerIds: ['o1'],
        timers: [{ projectId: 'j1', title: 'Rook Hill in Snow', startedAt: '2026-09-08T19:40:00.000Z' }],
      },
    },
  }),
}
