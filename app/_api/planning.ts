import { z } from 'zod'
import { countryCodes } from '#lib/planning/days/occasions'
import { rotationRules } from '#lib/planning/pace/rotation'
import { projectStatuses } from '#lib/project/life-cycle'
import { namedSchema, ownerIdsField, ownerQuery } from './collection'
import { operation } from './operation'
import { projectPath } from './projects'
import { dateText, idText, orNull, shortText } from './quantities'

const group = 'Projects' as const

const paceSchema = z
  .strictObject({
    projectId: z.string(),
    unit: z
      .enum(['stitches', 'per-mille'])
      .meta({ description: 'What amounts are in: thousandths of the whole where only percentages are known.' }),
    done: z.int(),
    total: z.int().nullable().meta({ description: 'Null where nobody can say how many there are.' }),
    totalHow: z.enum(['counted', 'estimated']).nullable().meta({ description: 'By the key, or by size and kind of cover.' }),
    left: z.int().nullable(),
    source: z
      .enum(['project', 'owner'])
      .meta({ description: 'Whose log the pace is of: its own, or all of its owner’s works where that says nothing yet.' }),
    perHour: z.number().nullable().meta({ description: 'By what was logged with both.' }),
    log: z.strictObject({
      ...{ entries: z.int(), days: z.int(), minutes: z.int() },
      ...{ firstDay: z.string().nullable(), lastDay: z.string().nullable() },
    }),
    isPartial: z.boolean().meta({ description: 'Only the week under way is logged.' }),
    weeks: z
      .array(z.strictObject({ startsOn: z.string(), amount: z.int(), minutes: z.int(), isAway: z.boolean() }))
      .meta({ description: 'The whole weeks the pace is reckoned from, the earliest first.' }),
    deadline: orNull(z.strictObject({ dueOn: z.string(), finishingWeeks: z.int(), bufferWeeks: z.int() })),
    outlooks: z
      .array(
        z.strictObject({
          kind: z.enum(['stitched-weeks', 'all-weeks', 'said']),
          amountPerWeek: z.number(),
          weeks: z.int().meta({ description: 'Whole weeks for what is left.' }),
          daysAway: z.int(),
          stitchedOn: z.string(),
          due: orNull(
            z.strictObject({
              startBy: z.string().meta({ description: 'Due − finishing − buffer − weeks − days away.' }),
              daysAway: z.int(),
              readyOn: z.string().meta({ description: 'Started today, with finishing and buffer.' }),
              daysLate: z.int().meta({ description: 'Nought or less: in time.' }),
            }),
          ),
        }),
      )
      .meta({ description: 'At each pace from today.' }),
  })
  .meta({ id: 'ProjectPace' })

const examplePace: z.input<typeof paceSchema> = {
  ...{ projectId: 'j1', unit: 'stitches', done: 0, total: 11_270, totalHow: 'counted', left: 11_270, source: 'owner' },
  ...{ perHour: 98.5, isPartial: false },
  log: { entries: 0, days: 0, minutes: 0, firstDay: null, lastDay: null },
  weeks: [
    { startsOn: '2026-08-10', amount: 2_450, minutes: 1_490, isAway: false },
    { startsOn: '2026-08-17', amount: 2_120, minutes: 1_290, isAway: false },
    { startsOn: '2026-08-24', amount: 0, minutes: 0, isAway: true },
    { startsOn: '2026-08-31', amount: 2_330, minutes: 1_420, isAway: false },
  ],
  deadline: { dueOn: '2026-12-01', finishingWeeks: 4, bufferWeeks: 1 },
  outlooks: [
    {
      ...{ kind: 'stitched-weeks', amountPerWeek: 2_300, weeks: 5, daysAway: 0, stitchedOn: '2026-10-12' },
      due: { startBy: '2026-09-22', daysAway: 0, readyOn: '2026-11-16', daysLate: -15 },
    },
    {
      ...{ kind: 'all-weeks', amountPerWeek: 1_725, weeks: 7, daysAway: 0, stitchedOn: '2026-10-26' },
      due: { startBy: '2026-09-08', daysAway: 0, readyOn: '2026-11-30', daysLate: -1 },
    },
  ],
}

const weekdays = z
  .array(z.int().min(1).max(7))
  .max(7)
  .meta({ description: 'Its days of the week, where the rule goes by them: 1 Monday to 7 Sunday.' })
const turnSchema = z.strictObject({ projectId: z.string(), done: z.number(), of: z.number() })
const rotationSchema = z
  .strictObject({
    ownerIds: ownerIdsField,
    rule: z.strictObject({ by: z.enum(rotationRules), days: z.int(), hours: z.int(), stitches: z.int() }),
    next: z
      .strictObject({
        kind: z.enum(['empty', 'stays', 'turn', 'today', 'free-day', 'no-days']),
        projectIds: z.array(z.string()).meta({ description: 'What is next; several where a day of the week has several.' }),
        on: z.string().nullable().meta({ description: 'Of a `free-day`: when they are.' }),
        had: orNull(turnSchema).meta({
          description: 'The turn under way, or the one that is over: so much of so much, by the rule.',
        }),
      })
      .meta({ description: 'By the log: the turn is that of the project last worked on.' }),
    members: z.array(
      z.strictObject({
        ...{ projectId: z.string(), title: z.string(), status: z.enum(projectStatuses), weekdays },
        ...{ lastWorkedOn: z.string().nullable(), takesPart: z.boolean() },
      }),
    ),
  })
  .meta({ id: 'Rotation' })
const exampleRotation: z.input<typeof rotationSchema> = {
  ownerIds: ['o1'],
  rule: { by: 'days', days: 10, hours: 10, stitches: 500 },
  next: { kind: 'stays', projectIds: ['j1'], on: null, had: { projectId: 'j1', done: 4, of: 10 } },
  members: [
    {
      ...{ projectId: 'j1', title: 'Rook Hill in Snow', status: 'stitching', weekdays: [] },
      ...{ lastWorkedOn: '2026-09-08', takesPart: true },
    },
  ],
}
const inRotation = {
  method: 'post',
  group,
  answer: rotationSchema,
  answerMeans: 'The rotation of its owner as it is now.',
  problems: ['not-found', 'refused'],
  takesIdempotencyKey: true,
} as const

const timeAwaySchema = z
  .strictObject({
    ...{ timeAwayId: z.string(), version: z.int(), owner: namedSchema, fromOn: z.string(), toOn: z.string() },
    what: z.string().nullable(),
  })
  .meta({ id: 'TimeAway', description: 'Days on which an owner does not stitch, the first and the last of them.' })
const exampleTimeAway = {
  ...{ timeAwayId: 'a1', version: 0, owner: { id: 'o1', name: 'Hanne Drewitt' }, fromOn: '2026-08-24', toOn: '2026-08-30' },
  what: 'at the sea',
}
const timesAwaySchema = z.strictObject({ timesAway: z.array(timeAwaySchema) }).meta({ id: 'TimeAwayList' })
const answersTimes = { group, answer: timesAwaySchema, answerMeans: 'The times away, the earliest first.' } as const
const exampleTimes = { timesAway: [exampleTimeAway] }
const timeAwayPath = z.strictObject({ timeAwayId: idText })
const span = { fromOn: dateText, toOn: dateText, what: shortText.nullable().default(null) }

const ruleFields = {
  by: z.enum(rotationRules),
  days: z.int().min(1).max(365).meta({ description: 'Days on which it was stitched.' }),
  hours: z.int().min(1).max(1_000),
  stitches: z.int().min(1).max(1_000_000),
}
const planningFields = {
  firstWeekday: z.int().min(1).max(7).meta({ description: '1 Monday to 7 Sunday.' }),
  untouchedDays: z.int().min(1).max(3_650).meta({ description: 'A work begun is raised after so many.' }),
  finishingWeeks: z.int().min(0).max(104).meta({ description: 'Where a project does not say.' }),
  bufferWeeks: z.int().min(0).max(52).meta({ description: 'Kept in hand before the day it is due.' }),
  country: z.enum(countryCodes).meta({ description: 'Whose feasts and customary days are known.' }),
}
const planningAnswer = z
  .strictObject({ ...planningFields, rotation: z.strictObject(ruleFields) })
  .meta({ id: 'PlanningSettings' })
const examplePlanning = {
  ...{ firstWeekday: 1, untouchedDays: 90, finishingWeeks: 4, bufferWeeks: 1, country: 'GB' as const },
  rotation: { by: 'days' as const, days: 10, hours: 10, stitches: 500 },
}

export const planningOperations = {
  pace: operation({
    ...({ method: 'get', path: '/projects/{projectId}/pace', id: 'getProjectPace', group } as const),
    summary: 'How far a project has come, at what pace, when it will be done and by when it must be begun',
    description:
      'Two means, apart: of the weeks in which was stitched, and of all weeks. Dates are at each of them from today, with the times away in between.',
    pathParameters: projectPath,
    query: z.strictObject({
      'per-week': z.coerce
        .number()
        .positive()
        .max(1_000_000)
        .optional()
        .meta({ description: 'And if it were so many stitches a week; per cent, where the unit is per-mille.' }),
    }),
    answer: paceSchema,
    answerMeans: 'Progress and pace.',
    problems: ['not-found'],
    example: { answer: examplePace },
  }),
  rotation: operation({
    ...({ method: 'get', path: '/rotation', id: 'getRotation', group } as const),
    summary: 'The projects taken in turn, and what is next',
    query: z.strictObject(ownerQuery),
    answer: rotationSchema,
    answerMeans: 'The rotation.',
    example: { answer: exampleRotation },
  }),
  join: operation({
    ...inRotation,
    ...({ path: '/rotation/join', id: 'joinRotation' } as const),
    summary: 'Take a project in turn with the others, or say on which days of the week',
    body: z.strictObject({ projectId: idText, weekdays: weekdays.optional() }).meta({ id: 'JoinRotationRequest' }),
    example: { body: { projectId: 'j1' }, answer: exampleRotation },
  }),
  leave: operation({
    ...inRotation,
    ...({ path: '/rotation/leave', id: 'leaveRotation' } as const),
    summary: 'Take a project in turn no longer',
    body: z.strictObject({ projectId: idText }).meta({ id: 'LeaveRotationRequest' }),
    example: { body: { projectId: 'j2' }, answer: exampleRotation },
  }),
  move: operation({
    ...inRotation,
    ...({ path: '/rotation/move', id: 'moveInRotation' } as const),
    summary: 'Let it change places with the one before or after it',
    body: z.strictObject({ projectId: idText, to: z.enum(['earlier', 'later']) }).meta({ id: 'MoveInRotationRequest' }),
    example: { body: { projectId: 'j1', to: 'earlier' }, answer: exampleRotation },
  }),
  begun: operation({
    ...({ method: 'get', path: '/works-begun', id: 'listWorksBegun', group } as const),
    summary: 'What is begun and not done, and what of it was not touched for long',
    query: z.strictObject(ownerQuery),
    answer: z
      .strictObject({
        ownerIds: ownerIdsField,
        limitDays: z.int().meta({ description: 'By the settings.' }),
        works: z.array(
          z.strictObject({
            ...{ projectId: z.string(), title: z.string(), status: z.enum(projectStatuses) },
            ...{ startedOn: z.string().nullable(), lastWorkedOn: z.string().nullable() },
          }),
        ),
        untouched: z
          .array(z.strictObject({ projectId: z.string(), since: z.string(), days: z.int() }))
          .meta({ description: 'The longest first.' }),
      })
      .meta({ id: 'WorksBegun' }),
    answerMeans: 'The works begun.',
    example: {
      answer: {
        ...{ ownerIds: ['o1'], limitDays: 90 },
        works: [
          {
            ...{ projectId: 'j4', title: 'Map of Upper Quennow', status: 'resting' as const },
            ...{ startedOn: '2023-02-18', lastWorkedOn: '2025-03-30' },
          },
        ],
        untouched: [{ projectId: 'j4', since: '2025-03-30', days: 610 }],
      },
    },
  }),
  timesAway: operation({
    ...answersTimes,
    ...({ method: 'get', path: '/times-away', id: 'listTimesAway' } as const),
    summary: 'When nobody stitches',
    query: z.strictObject(ownerQuery),
    example: { answer: exampleTimes },
  }),
  addTimeAway: operation({
    ...answersTimes,
    ...({ method: 'post', path: '/times-away', id: 'addTimeAway', takesIdempotencyKey: true, answerStatus: 201 } as const),
    summary: 'Say when an owner is away',
    body: z.strictObject({ ownerId: idText, ...span }).meta({ id: 'AddTimeAwayRequest' }),
    problems: ['refused'],
    example: { body: { ownerId: 'o1', fromOn: '2026-08-24', toOn: '2026-08-30', what: 'at the sea' }, answer: exampleTimes },
  }),
  changeTimeAway: operation({
    ...answersTimes,
    ...({ method: 'post', path: '/times-away/{timeAwayId}', id: 'changeTimeAway', takesIdempotencyKey: true } as const),
    summary: 'Say it otherwise',
    pathParameters: timeAwayPath,
    body: z
      .strictObject({ version: z.int().min(0).optional().meta({ description: 'The version last seen.' }), ...span })
      .meta({ id: 'ChangeTimeAwayRequest' }),
    problems: ['not-found', 'refused'],
    example: { body: { fromOn: '2026-08-24', toOn: '2026-08-30', what: 'at the sea' }, answer: exampleTimes },
  }),
  removeTimeAway: operation({
    ...answersTimes,
    ...({ method: 'post', path: '/times-away/{timeAwayId}/remove', id: 'removeTimeAway', takesIdempotencyKey: true } as const),
    summary: 'Not away then after all',
    pathParameters: timeAwayPath,
    body: z.strictObject({}).meta({ id: 'RemoveTimeAwayRequest' }),
    problems: ['not-found'],
    example: { body: {}, answer: { timesAway: [] } },
  }),
  settings: operation({
    ...({ method: 'get', path: '/settings/planning', id: 'getPlanningSettings', group } as const),
    summary: 'How work is planned: the week’s first day, what counts as untouched, finishing and buffer, the rotation’s rule',
    answer: planningAnswer,
    answerMeans: 'The settings.',
    example: { answer: examplePlanning },
  }),
  saveSettings: operation({
    ...({
      method: 'post',
      path: '/settings/planning',
      id: 'savePlanningSettings',
      group,
      right: 'keep',
      takesIdempotencyKey: true,
    } as const),
    summary: 'Plan otherwise',
    description: 'What is left out stays as it is.',
    body: z
      .strictObject({ ...planningFields, rotation: z.strictObject(ruleFields).partial() })
      .partial()
      .meta({ id: 'PlanningSettingsRequest' }),
    answer: planningAnswer,
    answerMeans: 'The settings as they are now.',
    example: { body: { rotation: { by: 'hours', hours: 12 } }, answer: examplePlanning },
  }),
}
