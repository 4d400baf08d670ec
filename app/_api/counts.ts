import { z } from 'zod'
import { countStatuses, lineOutcomes } from '#lib/stock/stocktake'
import { ownerIdsField, ownerQuery, placeRefSchema } from './collection'
import { operation } from './operation'
import { idText, noteText, orNull, shortText } from './quantities'

const by = shortText.meta({ description: 'Who does it, by name.', example: 'Ines Coldwell' })
const putUps = z.int().min(0).max(1_000_000)
const pathParameters = z.strictObject({ countId: idText })

const countFields = {
  countId: z.string(),
  title: z.string(),
  place: placeRefSchema,
  status: z.enum(countStatuses),
  startedAt: z.string(),
  startedBy: z.string().nullable(),
  closedAt: z.string().nullable(),
  signedBy: z.string().nullable(),
}
const exampleCount = {
  ...{ countId: 'n1', title: 'T2.1', place: { placeId: 'p1', label: 'T2.1' } },
  ...{ startedAt: '2026-09-07T10:00:00.000Z', startedBy: 'Ines Coldwell', closedAt: null, signedBy: null },
}
const countedThread = z.strictObject({
  threadId: z.string(),
  maker: z.string(),
  line: z.string(),
  code: z.string(),
  name: z.string().nullable(),
})
const lineFields = {
  lineId: z.string(),
  place: placeRefSchema,
  thread: orNull(countedThread).meta({ description: 'Null for what was found where the record has nothing.' }),
  found: z.string().nullable(),
  lot: z.string().nullable(),
  owner: z.string().nullable(),
  counted: z.int().nullable(),
  countedAt: z.string().nullable(),
  countedBy: z.string().nullable(),
  outcome: orNull(z.enum(lineOutcomes)),
  note: z.string().nullable(),
}
const exampleLine = {
  ...{ lineId: 'n2', place: { placeId: 'p2', label: 'T2.1-14' }, found: null, lot: null, owner: 'The Oxmarsh Needle Room' },
  thread: { threadId: 't1', maker: 'Larkholm', line: 'stranded', code: '0311', name: null },
  ...{ counted: 8, countedAt: '2026-09-07T10:04:00.000Z', countedBy: 'Ines Coldwell', outcome: null, note: null },
}

const sheetSchema = z
  .strictObject({ ...countFields, lines: z.array(z.strictObject(lineFields)) })
  .meta({ id: 'CountSheet', description: 'What is to be counted, in walking order; what is expected is not among it.' })
const exampleSheet = { ...exampleCount, status: 'open' as const, lines: [exampleLine] }

const comparisonSchema = z
  .strictObject({
    ...countFields,
    accuracy: z.strictObject({
      lines: z.int(),
      linesCounted: z.int(),
      linesRight: z.int(),
      expected: z.int().meta({ description: 'On the shelf by the record, of the lines counted: owned less out.' }),
      counted: z.int(),
      grossError: z.int().meta({ description: 'Over and under added up, never set off against each other.' }),
    }),
    lines: z.array(
      z.strictObject({
        ...lineFields,
        batchId: z.string().nullable(),
        expected: z.int(),
        hasMoved: z.boolean().meta({ description: 'Stock moved since the record was read for it: count again.' }),
      }),
    ),
    suspects: z
      .array(
        z.strictObject({
          underLineId: z.string(),
          overLineId: z.string(),
          putUps: z.int(),
          nearness: z.enum(['same-thread', 'same-place', 'neighbouring-place', 'neighbouring-code']),
        }),
      )
      .meta({ description: 'One under and one over by as many, near each other: look before adjusting.' }),
    out: z
      .array(
        z.strictObject({
          batchId: z.string(),
          thread: z.string(),
          wholePutUps: z.int(),
          home: placeRefSchema,
          current: placeRefSchema,
        }),
      )
      .meta({ description: 'What lives there and is out: open questions, not errors.' }),
  })
  .meta({ id: 'CountComparison' })
const exampleComparison = {
  ...{ ...exampleCount, status: 'counted' as const },
  accuracy: { lines: 1, linesCounted: 1, linesRight: 0, expected: 10, counted: 8, grossError: 2 },
  lines: [{ ...exampleLine, batchId: 'b1', expected: 10, hasMoved: false }],
  ...{ suspects: [], out: [] },
}

const group = 'Stock' as const

export const listCountsOperation = operation({
  ...({ method: 'get', path: '/counts', id: 'listCounts', group } as const),
  summary: 'Counts of stock, and what was not counted for a year',
  description:
    'The newest hundred counts. `notCounted` names places that hold what was not counted for a year or never, of these owners, those with most threads of class A by use first.',
  query: z.strictObject(ownerQuery),
  answer: z
    .strictObject({
      ownerIds: ownerIdsField,
      total: z.int(),
      counts: z.array(z.strictObject({ ...countFields, lines: z.int(), linesCounted: z.int() })),
      notCounted: z.array(
        z.strictObject({ place: placeRefSchema, batches: z.int(), due: z.int(), never: z.int(), dueA: z.int() }),
      ),
    })
    .meta({ id: 'CountList' }),
  answerMeans: 'Both.',
  example: {
    answer: {
      ...{ ownerIds: ['o1'], total: 1, counts: [{ ...exampleCount, status: 'open', lines: 30, linesCounted: 12 }] },
      notCounted: [{ place: { placeId: 'p1', label: 'T2.2' }, batches: 30, due: 4, never: 1, dueA: 2 }],
    },
  },
})

export const startCountOperation = operation({
  ...({ method: 'post', path: '/counts', id: 'startCount', group } as const),
  summary: 'Begin to count a place with everything inside it',
  description: 'A line for every batch the record has there now; what is out is not expected on the shelf.',
  body: z.strictObject({ placeId: idText, title: shortText.optional(), by }).meta({ id: 'StartCountRequest' }),
  answer: sheetSchema,
  answerStatus: 201,
  answerMeans: 'The blind sheet.',
  problems: ['refused'],
  example: { body: { placeId: 'p1', by: 'Ines Coldwell' }, answer: exampleSheet },
})

export const getCountSheet = operation({
  ...({ method: 'get', path: '/counts/{countId}', id: 'getCountSheet', group } as const),
  summary: 'What is to be counted, blind',
  description: 'While a count is open, all of it; afterwards only what was sent to be counted again.',
  pathParameters,
  answer: sheetSchema,
  answerMeans: 'The sheet.',
  problems: ['not-found'],
  example: { answer: exampleSheet },
})

export const enterCountsOperation = operation({
  ...({ method: 'post', path: '/counts/{countId}/enter', id: 'enterCounts', group } as const),
  summary: 'Write down what was counted and what was found',
  description:
    'A figure somebody else wrote after `sawCountedAt` is not written over: it is given back among `conflicts`. What was found where the record has nothing is a line of its own; nought takes it off. Figures may wait on a device without a network: `countedAt` says when they were counted.',
  pathParameters,
  body: z
    .strictObject({
      by,
      lines: z
        .array(
          z.strictObject({
            lineId: idText,
            counted: putUps,
            sawCountedAt: orNull(z.iso.datetime()),
            countedAt: z.iso.datetime().optional(),
          }),
        )
        .max(1_000)
        .default([]),
      found: z
        .array(z.strictObject({ placeId: idText, found: shortText, counted: putUps.min(1) }))
        .max(100)
        .default([]),
      sentAt: z.iso
        .datetime()
        .optional()
        .meta({ description: 'What the clock of `countedAt` says now, so that one that is plainly wrong is put right.' }),
    })
    .meta({ id: 'EnterCountsRequest' }),
  answer: z
    .strictObject({
      written: z.int(),
      conflicts: z.array(
        z.strictObject({
          lineId: z.string(),
          counted: z.int(),
          countedAt: z.string().nullable(),
          countedBy: z.string().nullable(),
        }),
      ),
      foundLineIds: z.array(z.string()),
      entered: z
        .array(z.strictObject({ lineId: z.string(), countedAt: z.string() }))
        .meta({ description: 'Lines that now say what was sent, and since when: the next `sawCountedAt`.' }),
      unknownLineIds: z.array(z.string()).meta({ description: 'No longer on the sheet.' }),
    })
    .meta({ id: 'CountsEntered' }),
  answerMeans: 'How many lines were written, and what was counted otherwise meanwhile.',
  problems: ['not-found', 'refused'],
  example: {
    body: { by: 'Ines Coldwell', lines: [{ lineId: 'n2', counted: 8, sawCountedAt: null }], found: [] },
    answer: {
      ...{ written: 1, conflicts: [], foundLineIds: [] },
      ...{ entered: [{ lineId: 'n2', countedAt: '2026-09-07T10:04:00.000Z' }], unknownLineIds: [] },
    },
  },
})

export const finishCountOperation = operation({
  ...({ method: 'post', path: '/counts/{countId}/finish', id: 'finishCount', group } as const),
  summary: 'End the counting, to compare',
  description: 'Lines nobody counted stay uncounted and are left out of the figures.',
  pathParameters,
  answer: comparisonSchema,
  answerMeans: 'The comparison as it stands.',
  problems: ['not-found', 'refused'],
  example: { answer: exampleComparison },
})

export const dropCountOperation = operation({
  ...({ method: 'post', path: '/counts/{countId}/drop', id: 'dropCount', group } as const),
  summary: 'Give a count up',
  description: 'What was corrected by it stays corrected.',
  pathParameters,
  answer: comparisonSchema,
  answerMeans: 'The comparison as it stands.',
  problems: ['not-found', 'refused'],
  example: { answer: exampleComparison },
})

export const signCountOperation = operation({
  ...({ method: 'post', path: '/counts/{countId}/sign', id: 'signCount', group } as const),
  summary: 'Sign a count off',
  description: 'Nothing may be undecided, and who counted any of it does not sign.',
  pathParameters,
  body: z.strictObject({ by }).meta({ id: 'SignCountRequest' }),
  answer: comparisonSchema,
  answerMeans: 'The comparison as it stands.',
  problems: ['not-found', 'refused'],
  example: { body: { by: 'Hanne Drewitt' }, answer: { ...exampleComparison, lines: [] } },
})

export const getCountComparison = operation({
  ...({ method: 'get', path: '/counts/{countId}/comparison', id: 'getCountComparison', group } as const),
  summary: 'A count held against the record',
  description: 'Refused while it is being counted: nobody who counts sees what is expected.',
  pathParameters,
  answer: comparisonSchema,
  answerMeans: 'Lines, accuracy, and pairs that may be swapped.',
  problems: ['not-found', 'refused'],
  example: { answer: exampleComparison },
})

export const decideCountLine = operation({
  ...({ method: 'post', path: '/counts/{countId}/decide', id: 'decideCountLine', group } as const),
  summary: 'Decide on one line: correct the record, count again, or leave it',
  description: 'A correction is a movement. What moved since the count began is not corrected; count it again.',
  pathParameters,
  body: z
    .strictObject({
      lineId: idText,
      outcome: z.enum(lineOutcomes),
      counted: orNull(putUps).meta({ description: 'The figure decided on; null for a line nobody counted.' }),
      by,
      note: noteText.optional(),
    })
    .meta({ id: 'DecideCountLineRequest' }),
  answer: comparisonSchema,
  answerMeans: 'The comparison as it now stands.',
  problems: ['not-found', 'refused'],
  example: { body: { lineId: 'n2', outcome: 'accepted', counted: 8, by: 'Hanne Drewitt' }, answer: exampleComparison },
})

export const countOperations = [
  listCountsOperation,
  startCountOperation,
  getCountSheet,
  enterCountsOperation,
  finishCountOperation,
  getCountComparison,
  decideCountLine,
  signCountOperation,
  dropCountOperation,
] as const
