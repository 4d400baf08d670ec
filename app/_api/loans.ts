import { z } from 'zod'
import { chartKinds } from '#lib/chart/design'
import { loanKinds } from '#lib/loan/loan'
import { peopleKinds } from '#lib/place/place'
import { projectStatuses } from '#lib/project/life-cycle'
import { namedSchema, ownerIdsField, ownerQuery, placeRefSchema } from './collection'
import { operation } from './operation'
import { nextField, numberedPageQuery } from './paging'
import { dateText, idText, noteText, orNull, shortText } from './quantities'

const standingSchema = z
  .strictObject({
    kind: z.enum(['overdue', 'due-soon', 'out', 'no-day', 'closed']),
    days: z.int().nullable().meta({ description: 'Days left to the day it is due, or days past it; null without one.' }),
  })
  .meta({ id: 'LoanStanding' })

const lineSchema = z
  .strictObject({
    lineId: z.string(),
    noun: z.enum(['chart', 'batch', 'cloth', 'notion', 'project', 'text']),
    thingId: z.string().nullable().meta({ description: 'Null for what is only told in words.' }),
    name: z.string(),
    count: z.int().meta({ description: 'Copies, put-ups, pieces.' }),
    backOn: z.string().nullable(),
    backNote: z.string().nullable(),
    isElsewhere: z.boolean().meta({ description: 'Not back by this loan, and yet no longer with them.' }),
  })
  .meta({ id: 'LoanLine' })

const loanSchema = z
  .strictObject({
    loanId: z.string(),
    version: z.int().meta({ description: 'Hand it back with a change, to be told when somebody else changed it first.' }),
    kind: z.enum(loanKinds),
    with: placeRefSchema.meta({ description: 'Who has it, or from whom it is.' }),
    owner: namedSchema,
    reason: z.string(),
    fromOn: z.string(),
    dueOn: z.string().nullable(),
    closedOn: z.string().nullable(),
    standing: standingSchema,
    project: orNull(z.strictObject({ projectId: z.string(), title: z.string() })).meta({ description: 'Whose work was sent.' }),
    priceMinor: z.int().nullable().meta({ description: 'What was agreed; pence or cents.' }),
    note: z.string().nullable(),
    lines: z.array(lineSchema),
  })
  .meta({ id: 'Loan' })

const clashSchema = z
  .strictObject({
    projectId: z.string(),
    title: z.string(),
    ownerName: z.string(),
    status: z.enum(projectStatuses),
    plannedOn: z.string().nullable().meta({ description: 'Null for what is being stitched now.' }),
    fromOn: z.string(),
    untilOn: z.string().nullable(),
    days: z.int().nullable().meta({ description: 'First and last day counted; null when nobody knows the last.' }),
  })
  .meta({ id: 'LoanClash', description: 'A plan that wants a chart while it is away.' })

const exampleLoan: z.input<typeof loanSchema> = {
  ...{ loanId: 'n1', version: 0, kind: 'lend', with: { placeId: 'p8', label: 'Ines Coldwell' } },
  ...{ owner: { id: 'o1', name: 'Hanne Drewitt' }, reason: 'to stitch the alphabet', fromOn: '2026-03-03', dueOn: '2026-04-28' },
  ...{ closedOn: null, standing: { kind: 'out', days: 56 }, project: null, priceMinor: null, note: null },
  lines: [
    {
      ...{ lineId: 'l1', noun: 'chart', thingId: 'h1', name: 'Hollin Staithe Alphabets', count: 1 },
      ...{ backOn: null, backNote: null, isElsewhere: false },
    },
  ],
}

const version = z.int().min(0).optional().meta({ description: 'The version last seen; left out, it is taken as it stands.' })
const count = z.int().min(1).max(1_000_000).default(1)
const who = shortText.nullable().default(null).meta({ description: 'Who did it, for the journal.' })

const thingSchema = z
  .discriminatedUnion('noun', [
    z.strictObject({ noun: z.literal('chart'), id: idText, version, count }),
    z.strictObject({
      noun: z.literal('batch'),
      id: idText,
      version,
      wholePutUps: z.int().min(0).max(1_000_000).default(0),
      takesPart: z.boolean().default(false),
    }),
    z.strictObject({ noun: z.literal('cloth'), id: idText, version }),
    z.strictObject({ noun: z.literal('notion'), id: idText, version, count }),
    z.strictObject({ noun: z.literal('text'), text: shortText, count }),
  ])
  .meta({ id: 'LoanThing', description: 'One thing that goes along; `text` is for what the collection does not hold.' })

const agreed = {
  with: shortText.meta({ description: 'A name; one that is new becomes a place of that kind.' }),
  ownerId: idText,
  reason: shortText,
  fromOn: dateText,
  note: noteText.nullable().default(null),
  who,
}
const acceptsClash = z
  .boolean()
  .default(false)
  .meta({ description: 'It goes although somebody means to stitch from it meanwhile.' })

const opened = {
  method: 'post',
  group: 'Places',
  answer: loanSchema,
  answerStatus: 201,
  answerMeans: 'The loan.',
  problems: ['refused'],
  takesIdempotencyKey: true,
} as const

const exampleAgreed = {
  ...{ with: 'Ines Coldwell', ownerId: 'o1', reason: 'to stitch the alphabet', fromOn: '2026-03-03', dueOn: '2026-04-28' },
  things: [{ noun: 'chart', id: 'h1' }],
}

const listLoansOperation = operation({
  method: 'get',
  path: '/loans',
  id: 'listLoans',
  group: 'Places',
  summary: 'What is lent, sent away and borrowed',
  description: 'Open loans by urgency, the longest overdue first; closed ones by the day they were closed, the last first.',
  query: z.strictObject({
    ...ownerQuery,
    ...numberedPageQuery,
    state: z.enum(['open', 'closed']).default('open'),
    kind: z.enum(loanKinds).optional(),
    with: idText.optional().meta({ description: 'Only with this person: the id of their place.' }),
    project: idText.optional().meta({ description: 'Only this project’s work.' }),
    chart: idText.optional().meta({ description: 'Only loans this chart went with.' }),
  }),
  answer: z
    .strictObject({ ownerIds: ownerIdsField, total: z.int(), loans: z.array(loanSchema), next: nextField })
    .meta({ id: 'LoanList' }),
  answerMeans: 'A page of loans.',
  example: { answer: { ownerIds: ['o1'], total: 1, loans: [exampleLoan], next: null } },
})

const lendOperation = operation({
  ...opened,
  path: '/loans/lend',
  id: 'lendThings',
  summary: 'Lend things to somebody until a day',
  description:
    'All of them or none. Refused for a file, for what is out, promised, kept or in use, and for the last copy of a chart that a plan wants meanwhile.',
  body: z
    .strictObject({ ...agreed, dueOn: dateText, things: z.array(thingSchema).min(1).max(200), acceptsClash })
    .meta({ id: 'LendRequest' }),
  example: { body: exampleAgreed, answer: exampleLoan },
})

const sendOperation = operation({
  ...opened,
  path: '/loans/send',
  id: 'sendAway',
  summary: 'Send a project’s work, or goods, to be framed, made up or stitched',
  description: 'The project is then where they are. What lies in its bag may go along.',
  body: z
    .strictObject({
      ...agreed,
      withKind: z.enum(peopleKinds).default('framer'),
      dueOn: dateText.nullable().default(null),
      projectId: idText.nullable().default(null),
      priceMinor: z.int().min(0).max(100_000_000).nullable().default(null),
      things: z.array(thingSchema).max(500).default([]),
      acceptsClash,
    })
    .meta({ id: 'SendRequest' }),
  example: {
    body: {
      with: 'Maud Ferriby',
      ownerId: 'o1',
      reason: 'to be framed',
      fromOn: '2026-03-03',
      projectId: 'j1',
      priceMinor: 14_000,
    },
    answer: {
      ...exampleLoan,
      ...{ kind: 'send', with: { placeId: 'p9', label: 'Maud Ferriby' }, reason: 'to be framed', dueOn: null },
      ...{ standing: { kind: 'no-day', days: null }, project: { projectId: 'j1', title: 'Winter Post' }, priceMinor: 14_000 },
      lines: [
        {
          ...{ lineId: 'l2', noun: 'project', thingId: 'j1', name: 'Winter Post', count: 1 },
          ...{ backOn: null, backNote: null, isElsewhere: false },
        },
      ],
    },
  },
})

const borrowOperation = operation({
  ...opened,
  path: '/loans/borrow',
  id: 'borrowThings',
  summary: 'Write down what was borrowed',
  description: 'In words, or a thing of another owner of this collection, which is then out where it is kept.',
  body: z
    .strictObject({
      ...agreed,
      ownerId: idText.meta({ description: 'Who borrowed it.' }),
      dueOn: dateText.nullable().default(null),
      keptInLabel: shortText.nullable().default(null).meta({ description: 'Needed for things of another owner.' }),
      things: z.array(thingSchema).min(1).max(200),
    })
    .meta({ id: 'BorrowRequest' }),
  example: {
    body: {
      ...{ with: 'Ines Coldwell', ownerId: 'o1', reason: 'too big a piece for mine', fromOn: '2026-03-03' },
      things: [{ noun: 'text', text: 'her scroll frame' }],
    },
    answer: {
      ...exampleLoan,
      ...{ kind: 'borrow', reason: 'too big a piece for mine', dueOn: null, standing: { kind: 'no-day', days: null } },
      lines: [
        {
          ...{ lineId: 'l3', noun: 'text', thingId: null, name: 'her scroll frame', count: 1 },
          ...{ backOn: null, backNote: null, isElsewhere: false },
        },
      ],
    },
  },
})

const mayLendOperation = operation({
  method: 'get',
  path: '/loans/may-lend',
  id: 'mayLend',
  group: 'Places',
  summary: 'Can I lend this chart?',
  description: 'Whether it is a file, is out, or is wanted meanwhile; and for a file, what there is on paper.',
  query: z.strictObject({
    chart: idText,
    copies: z.coerce.number().int().min(1).max(10_000).default(1),
    from: dateText,
    until: dateText.optional().meta({ description: 'Left out, plans are held against no end.' }),
  }),
  answer: z
    .strictObject({
      chart: z.strictObject({ chartId: z.string(), title: z.string(), kind: z.enum(chartKinds), copies: z.int() }),
      atHome: z.int().meta({ description: 'Copies that are where they live.' }),
      because: z
        .enum(['is-a-file', 'no-home', 'is-out', 'not-so-many'])
        .nullable()
        .meta({ description: 'Null: it may be lent.' }),
      says: z.string().nullable().meta({ description: 'The same in a sentence.' }),
      leavesNone: z.boolean().meta({ description: 'Then all its designs are out.' }),
      clashes: z.array(clashSchema),
      onPaper: z.array(z.strictObject({ chartId: z.string(), title: z.string(), ownerName: z.string() })),
    })
    .meta({ id: 'LendingAnswer' }),
  answerMeans: 'The answer.',
  problems: ['not-found'],
  example: {
    answer: {
      ...{ chart: { chartId: 'h2', title: 'Wick Lane', kind: 'file', copies: 1 }, atHome: 1, because: 'is-a-file' },
      says: 'This is a file for one person; lend the bought paper copy or suggest they buy it.',
      ...{ leavesNone: false, clashes: [], onPaper: [{ chartId: 'h3', title: 'Wick Lane', ownerName: 'Hanne Drewitt' }] },
    },
  },
})

const one = {
  pathParameters: z.strictObject({ loanId: idText }),
  group: 'Places',
  answer: loanSchema,
  problems: ['not-found', 'refused'] as const,
} as const
const written = { ...one, method: 'post', answerMeans: 'The loan as it is now.', takesIdempotencyKey: true } as const
const closedLoan: z.input<typeof loanSchema> = {
  ...exampleLoan,
  ...{ version: 1, closedOn: '2026-04-20', standing: { kind: 'closed', days: null } },
  lines: exampleLoan.lines.map((line) => ({ ...line, backOn: '2026-04-20' })),
}

const getLoan = operation({
  ...one,
  method: 'get',
  path: '/loans/{loanId}',
  id: 'getLoan',
  summary: 'One loan, line by line',
  answerMeans: 'The loan.',
  problems: ['not-found'],
  example: { answer: exampleLoan },
})

const takeBackOperation = operation({
  ...written,
  path: '/loans/{loanId}/take-back',
  id: 'takeBack',
  summary: 'Take things back, or give back what was borrowed',
  description:
    'Each goes where it lives, or into the bag of its kit while that is in work. Once nothing is out, the loan is closed.',
  body: z
    .strictObject({
      version,
      lineIds: z.array(idText).min(1).max(1_000).nullable().default(null).meta({ description: 'Null: all that is not back.' }),
      on: dateText,
      note: shortText.nullable().default(null),
      placeLabel: shortText.nullable().default(null).meta({ description: 'Where a project’s work is now.' }),
      who,
    })
    .meta({ id: 'TakeBackRequest' }),
  example: { body: { on: '2026-04-20' }, answer: closedLoan },
})

const extendOperation = operation({
  ...written,
  path: '/loans/{loanId}/extend',
  id: 'extendLoan',
  summary: 'Agree on another day for it to be back by',
  body: z
    .strictObject({
      version,
      dueOn: dateText.nullable().meta({ description: 'What is lent always has a day.' }),
      acceptsClash,
      who,
    })
    .meta({ id: 'ExtendLoanRequest' }),
  example: {
    body: { dueOn: '2026-05-12' },
    answer: { ...exampleLoan, version: 1, dueOn: '2026-05-12', note: 'was due 2026-04-28, now 2026-05-12' },
  },
})

const closeOperation = operation({
  ...written,
  path: '/loans/{loanId}/close',
  id: 'closeLoan',
  summary: 'Settle it though not everything is back',
  description: 'What is not back stays on record with them; of a chart in several copies, those that went are no longer counted.',
  body: z.strictObject({ version, on: dateText, note: shortText, who }).meta({ id: 'CloseLoanRequest' }),
  example: {
    body: { on: '2026-04-20', note: 'lost in the post' },
    answer: { ...closedLoan, lines: exampleLoan.lines.map((line) => ({ ...line, backNote: 'lost in the post' })) },
  },
})

export const listProjectClashesOperation = operation({
  method: 'get',
  path: '/projects/{projectId}/clashes',
  id: 'listProjectClashes',
  group: 'Projects',
  summary: 'Whether its chart is with somebody when it is to be begun',
  pathParameters: z.strictObject({ projectId: idText }),
  answer: z
    .strictObject({
      plannedOn: z.string().nullable(),
      clashes: z.array(
        z.strictObject({
          loanId: z.string(),
          with: placeRefSchema,
          dueOn: z.string().nullable(),
          fromOn: z.string(),
          untilOn: z.string().nullable(),
          days: z.int().nullable().meta({ description: 'First and last day counted; null when nobody knows the last.' }),
        }),
      ),
    })
    .meta({ id: 'ProjectClashes' }),
  answerMeans: 'The loans in its way; none while no day is planned.',
  problems: ['not-found'],
  example: {
    answer: {
      plannedOn: '2026-04-20',
      clashes: [
        {
          ...{ loanId: 'n1', with: { placeId: 'p8', label: 'Ines Coldwell' }, dueOn: '2026-04-28' },
          ...{ fromOn: '2026-04-20', untilOn: '2026-04-28', days: 9 },
        },
      ],
    },
  },
})

export const loanOperations = {
  list: listLoansOperation,
  mayLend: mayLendOperation,
  lend: lendOperation,
  send: sendOperation,
  borrow: borrowOperation,
  get: getLoan,
  takeBack: takeBackOperation,
  extend: extendOperation,
  close: closeOperation,
} as const
