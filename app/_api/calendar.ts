import { z } from 'zod'
import { projectStatuses } from '#lib/project/life-cycle'
import { namedSchema, ownerIdsField, ownerQuery } from './collection'
import { operation } from './operation'
import { dateText, idText } from './quantities'

export const group = 'Projects' as const
export const writes = { method: 'post', group, takesIdempotencyKey: true } as const
export const day = z.string().nullable()
export const version = z.int().min(0).optional().meta({ description: 'The version last seen.' })
const paceKind = z.enum(['stitched-weeks', 'all-weeks', 'said'])
const perWeek = z.coerce
  .number()
  .positive()
  .max(1_000_000)
  .optional()
  .meta({ description: 'And if it were so many stitches a week.' })

const scheduleSchema = z
  .strictObject({
    ownerIds: ownerIdsField,
    schedules: z.array(
      z.strictObject({
        owner: namedSchema,
        paces: z.array(
          z.strictObject({
            ...{ kind: paceKind, stitchesPerWeek: z.number() },
            gaps: z
              .array(z.strictObject({ fromOn: z.string(), toOn: z.string() }))
              .meta({ description: 'When nothing that is due can be worked on.' }),
          }),
        ),
        works: z.array(
          z.strictObject({
            ...{ projectId: z.string(), title: z.string(), status: z.enum(projectStatuses), dueOn: day, occasionKey: day },
            stitchedBy: day.meta({ description: 'When its last stitch has to be made: due − finishing − buffer.' }),
            left: z.int().nullable().meta({ description: 'Null where nobody knows how many stitches it has.' }),
            atPaces: z.array(
              z.strictObject({
                kind: paceKind,
                startBy: day.meta({ description: 'By itself, the last day to begin or to go on.' }),
                latestStart: day.meta({ description: 'The same where the others are begun as late as they can be too.' }),
                beginsOn: day.meta({ description: 'In its turn, the one due first first.' }),
                endsOn: day,
                daysLate: z.int().nullable().meta({ description: 'Nought or less: in time.' }),
              }),
            ),
          }),
        ),
      }),
    ),
  })
  .meta({ id: 'LevelSchedule' })

const eventSchema = z
  .strictObject({
    ...{ uid: z.string(), on: z.string(), toOn: z.string(), summary: z.string() },
    kind: z.enum(['due', 'start-by', 'planned', 'part-out', 'part-due', 'clash', 'occasion', 'away', 'loan', 'order']),
    projectId: z.string().nullable(),
  })
  .meta({ id: 'CalendarEvent' })

const feedsSchema = z
  .strictObject({
    feeds: z.array(
      z.strictObject({
        owner: namedSchema,
        path: z
          .string()
          .nullable()
          .meta({ description: 'Where the calendar is served. Whoever knows it can read the calendar.' }),
      }),
    ),
  })
  .meta({ id: 'CalendarFeeds' })
const exampleFeeds = {
  feeds: [{ owner: { id: 'o1', name: 'Hanne Drewitt' }, path: '/calendar/feed/2cJr0o1P3yqH5nK8vQ7wXz9aB4dE6fG1hI2jL3mN5oR.ics' }],
}
const answersFeeds = { answer: feedsSchema, answerMeans: 'The feeds as they are now.' } as const
const feedPath = z.strictObject({ ownerId: idText })

const readySchema = z
  .strictObject({
    ...{ dueOn: z.string(), stitchedBy: z.string() },
    rooms: z.array(
      z.strictObject({
        ...{ kind: paceKind, weeks: z.int(), stitches: z.int() },
        spokenFor: z.int().meta({ description: 'What is due by then already needs so many, which may be more.' }),
        free: z.int(),
      }),
    ),
    designs: z
      .array(
        z.strictObject({
          ...{ designId: z.string(), title: z.string(), stitches: z.int(), isEstimated: z.boolean() },
          fitsAt: z.array(paceKind),
          isStitchable: z.boolean().meta({ description: 'All its threads are there.' }),
        }),
      )
      .meta({ description: 'Those that can be, the best covered first; at most 200.' }),
    ...{ fitting: z.int(), tooLarge: z.int(), unknown: z.int() },
  })
  .meta({ id: 'ReadyBy' })

export const calendarOperations = {
  schedule: operation({
    ...({ method: 'get', path: '/schedule', id: 'getSchedule', group } as const),
    summary: 'What is to be stitched, shared out over each owner’s weeks, the one due first first',
    description:
      'At each pace: the mean of the weeks stitched, of all weeks, and what is said. If any order keeps all dates, this one does; what slips says by how many days.',
    query: z.strictObject({ ...ownerQuery, 'per-week': perWeek }),
    answer: scheduleSchema,
    answerMeans: 'The schedule.',
    example: {
      answer: {
        ownerIds: ['o1'],
        schedules: [
          {
            owner: { id: 'o1', name: 'Hanne Drewitt' },
            paces: [{ kind: 'stitched-weeks' as const, stitchesPerWeek: 2_300, gaps: [] }],
            works: [
              {
                ...{ projectId: 'j1', title: 'Geese over Tarnbeck', status: 'planned' as const, dueOn: '2026-12-01' },
                ...{ occasionKey: null, stitchedBy: '2026-10-27', left: 11_270 },
                atPaces: [
                  {
                    ...{ kind: 'stitched-weeks' as const, startBy: '2026-09-22', latestStart: '2026-09-22' },
                    ...{ beginsOn: '2026-09-08', endsOn: '2026-10-13', daysLate: -14 },
                  },
                ],
              },
            ],
          },
        ],
      },
    },
  }),
  calendar: operation({
    ...({ method: 'get', path: '/calendar', id: 'getCalendar', group } as const),
    summary:
      'What falls on the days of a span: due days, last days to begin, parts, loans, orders, occasions, times away, clashes',
    query: z.strictObject({
      ...ownerQuery,
      from: dateText.optional().meta({ description: 'yyyy-mm-dd; today when left out.' }),
      to: dateText.optional().meta({ description: 'yyyy-mm-dd, at most 800 days on; 60 days on when left out.' }),
    }),
    answer: z
      .strictObject({ ownerIds: ownerIdsField, fromOn: z.string(), toOn: z.string(), events: z.array(eventSchema) })
      .meta({ id: 'Calendar' }),
    answerMeans: 'The events, by day.',
    example: {
      answer: {
        ...{ ownerIds: ['o1'], fromOn: '2026-11-30', toOn: '2027-01-29' },
        events: [
          {
            ...{ uid: 'due-j1@chart-larder', on: '2026-12-01', toOn: '2026-12-01', kind: 'due' as const, projectId: 'j1' },
            summary: 'Geese over Tarnbeck: due',
          },
        ],
      },
    },
  }),
  file: operation({
    ...({ method: 'get', path: '/calendar/file', id: 'getCalendarFile', group } as const),
    summary: 'The calendar as an iCalendar file (RFC 5545)',
    query: z.strictObject(ownerQuery),
    answer: z.strictObject({ fileName: z.string(), text: z.string() }).meta({ id: 'CalendarFile' }),
    answerMeans: 'The file: no people, prices or notes.',
    example: { answer: { fileName: 'by-when.ics', text: 'BEGIN:VCALENDAR\r\nVERSION:2.0\r\nEND:VCALENDAR\r\n' } },
  }),
  ready: operation({
    ...({ method: 'get', path: '/calendar/ready', id: 'listReadyBy', group } as const),
    summary: 'Designs that can be stitched and finished by a day, beside what is due already',
    query: z.strictObject({
      owner: idText.optional().meta({ description: 'The first owner of the collection when none is named.' }),
      by: dateText,
      theme: idText.optional().meta({ description: 'The id of a season’s, subject’s or form’s theme.' }),
      q: z.string().trim().max(200).optional().meta({ description: 'Words to find designs by.' }),
      'finishing-weeks': z.coerce.number().int().min(0).max(104).optional(),
      'may-wait': z
        .enum(['true', 'false'])
        .optional()
        .meta({ description: 'What is due already may wait: then all the time counts as free.' }),
      'per-week': perWeek,
    }),
    answer: readySchema,
    answerMeans: 'What fits.',
    example: {
      answer: {
        ...{ dueOn: '2027-05-15', stitchedBy: '2027-04-10', fitting: 1, tooLarge: 12, unknown: 3 },
        rooms: [{ kind: 'stitched-weeks' as const, weeks: 18, stitches: 41_400, spokenFor: 11_270, free: 30_130 }],
        designs: [
          {
            ...{ designId: 'd1', title: 'Nine Wrens', stitches: 7_056, isEstimated: false },
            ...{ fitsAt: ['stitched-weeks' as const], isStitchable: true },
          },
        ],
      },
    },
  }),
  wishes: operation({
    ...({ method: 'get', path: '/calendar/wishes', id: 'listThemedWishes', group } as const),
    summary: 'Wishes without a day whose season’s theme falls in a span, and by when they would have to be begun',
    query: z.strictObject({
      ...ownerQuery,
      from: dateText,
      to: dateText.meta({ description: 'yyyy-mm-dd, that day counted; at most 800 days on.' }),
      'per-week': perWeek,
    }),
    answer: z
      .strictObject({
        ownerIds: ownerIdsField,
        wishes: z.array(
          z.strictObject({
            ...{ projectId: z.string(), designId: z.string(), title: z.string(), theme: z.string() },
            occasion: z.strictObject({ key: z.string(), on: z.string() }),
            left: z.int().nullable().meta({ description: 'Null where nobody knows how many stitches it has.' }),
            startBy: z.array(z.strictObject({ kind: paceKind, on: z.string() })),
            isStitchable: z.boolean().meta({ description: 'All its threads are there.' }),
            buyPutUps: z.int().nullable().meta({ description: 'Put-ups to buy first; null without a thread list.' }),
          }),
        ),
      })
      .meta({ id: 'ThemedWishes' }),
    answerMeans: 'The wishes, the oldest first.',
    example: {
      answer: {
        ownerIds: ['o1'],
        wishes: [
          {
            ...{ projectId: 'j7', designId: 'd7', title: 'Winter Post', theme: 'Christmas', left: 400 },
            ...{ occasion: { key: 'christmas', on: '2026-12-25' }, isStitchable: false, buyPutUps: 2 },
            startBy: [{ kind: 'stitched-weeks' as const, on: '2026-11-13' }],
          },
        ],
      },
    },
  }),
  feeds: operation({
    ...answersFeeds,
    ...({ method: 'get', path: '/calendar/feeds', id: 'listCalendarFeeds', group } as const),
    summary: 'Addresses at which calendars can be followed',
    query: z.strictObject(ownerQuery),
    example: { answer: exampleFeeds },
  }),
  renewFeed: operation({
    ...writes,
    ...answersFeeds,
    ...({ path: '/calendar/feeds/{ownerId}/renew', id: 'renewCalendarFeed' } as const),
    summary: 'Give an owner’s calendar an address, or another one',
    description: 'The one it had is answered no more.',
    pathParameters: feedPath,
    body: z.strictObject({}).meta({ id: 'RenewCalendarFeedRequest' }),
    problems: ['not-found'],
    example: { body: {}, answer: exampleFeeds },
  }),
  removeFeed: operation({
    ...writes,
    ...answersFeeds,
    ...({ path: '/calendar/feeds/{ownerId}/remove', id: 'removeCalendarFeed' } as const),
    summary: 'Take the address away',
    pathParameters: feedPath,
    body: z.strictObject({}).meta({ id: 'RemoveCalendarFeedRequest' }),
    problems: ['not-found'],
    example: { body: {}, answer: { feeds: [{ owner: { id: 'o1', name: 'Hanne Drewitt' }, path: null }] } },
  }),
}
