import { z } from 'zod'
import { todayKinds } from '#lib/planning/days/today'
import { ownerIdsField, ownerQuery } from './collection'
import { operation } from './operation'
import { dateText } from './quantities'

const group = 'Projects' as const
const work = { projectId: z.string(), title: z.string() }
const on = z.string().meta({ description: 'yyyy-mm-dd' })

const weekSchema = z
  .strictObject({
    ownerIds: ownerIdsField,
    day: z.string().meta({ description: 'The last of the seven days told of.' }),
    past: z.strictObject({
      ...{ fromOn: z.string(), toOn: z.string() },
      stitched: z.array(z.strictObject({ ...work, stitches: z.int(), minutes: z.int(), days: z.int() })),
      started: z.array(z.strictObject({ ...work, on })),
      finished: z.array(z.strictObject({ ...work, on, quantity: z.int() })),
      sums: z.strictObject({
        received: z
          .strictObject({ thread: z.int(), cloth: z.int(), chart: z.int(), notion: z.int() })
          .meta({ description: 'Put-ups, pieces, copies, notions.' }),
        ...{ takenOut: z.int().meta({ description: 'Different things.' }), cameBack: z.int() },
      }),
    }),
    next: z.strictObject({
      ...{ fromOn: z.string(), toOn: z.string() },
      due: z.array(z.strictObject({ ...work, on })),
      startBy: z
        .array(z.strictObject({ ...work, on }))
        .meta({ description: 'The last day to begin it by itself, at the slower pace.' }),
      loans: z.array(z.strictObject({ loanId: z.string(), label: z.string(), kind: z.string(), on })),
      parts: z.array(z.strictObject({ ...work, name: z.string(), on })),
      orders: z.array(z.strictObject({ orderId: z.string(), threadId: z.string(), threadName: z.string(), putUps: z.int(), on })),
      away: z.array(
        z.strictObject({
          ...{ timeAwayId: z.string(), ownerName: z.string(), what: z.string().nullable() },
          ...{ fromOn: z.string(), toOn: z.string() },
        }),
      ),
      occasions: z
        .array(z.strictObject({ key: z.string(), name: z.string(), on }))
        .meta({ description: 'Feasts of the country, and days these owners keep.' }),
    }),
  })
  .meta({ id: 'Week' })

export const todayOperations = {
  today: operation({
    ...({ method: 'get', path: '/today', id: 'getToday', group } as const),
    summary: 'What the day holds: due, overdue, to start, to put back, below the minimum, ready',
    query: z.strictObject(ownerQuery),
    answer: z
      .strictObject({
        ownerIds: ownerIdsField,
        lines: z.array(
          z.strictObject({
            kind: z.enum(todayKinds),
            count: z.int(),
            names: z.array(z.string()).meta({ description: 'The first of them.' }),
            id: z.string().nullable().meta({ description: 'Of the one thing there is; null where there are several.' }),
            on: z.string().nullable().meta({ description: 'The earliest of their days.' }),
          }),
        ),
      })
      .meta({ id: 'Today' }),
    answerMeans: 'The most pressing first; nothing where the day holds nothing.',
    example: {
      answer: {
        ownerIds: ['o1'],
        lines: [
          { kind: 'work-due', count: 1, names: ['Geese over Tarnbeck'], id: 'j1', on: '2026-12-01' },
          { kind: 'ready', count: 2, names: ['Nine Wrens', 'Seven Lanterns'], id: null, on: null },
        ],
      },
    },
  }),
  week: operation({
    ...({ method: 'get', path: '/week', id: 'getWeek', group } as const),
    summary: 'What happened in seven days, and what the seven after them bring',
    query: z.strictObject({
      ...ownerQuery,
      to: dateText.optional().meta({ description: 'The last of the seven days; today when left out.' }),
    }),
    answer: weekSchema,
    answerMeans: 'The week.',
    example: {
      answer: {
        ...{ ownerIds: ['o1'], day: '2026-09-08' },
        past: {
          ...{ fromOn: '2026-09-02', toOn: '2026-09-08' },
          stitched: [{ projectId: 'j1', title: 'Geese over Tarnbeck', stitches: 2_330, minutes: 1_420, days: 4 }],
          started: [],
          finished: [{ projectId: 'j2', title: 'Nine Wrens', on: '2026-09-05', quantity: 1 }],
          sums: { received: { thread: 6, cloth: 0, chart: 1, notion: 0 }, takenOut: 3, cameBack: 8 },
        },
        next: {
          ...{ fromOn: '2026-09-09', toOn: '2026-09-15' },
          due: [],
          startBy: [{ projectId: 'j3', title: 'Seven Lanterns', on: '2026-09-12' }],
          loans: [{ loanId: 'n1', label: 'Ines Coldwell', kind: 'lend', on: '2026-09-10' }],
          parts: [],
          orders: [],
          away: [],
          occasions: [],
        },
      },
    },
  }),
} as const
