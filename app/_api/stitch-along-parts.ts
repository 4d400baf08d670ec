import { z } from 'zod'
import { mostPartsMade } from '#lib/planning/pace/schedule-jobs'
import { day, group, version, writes } from './calendar'
import { operation } from './operation'
import { projectPath } from './projects'
import { dateText, idText, orNull, shortText } from './quantities'

const partSchema = z
  .strictObject({
    ...{ partId: z.string(), version: z.int(), name: z.string(), comesOn: day, dueOn: day },
    ...{ stitches: z.int().nullable(), doneOn: day },
  })
  .meta({ id: 'StitchAlongPart' })
const partsSchema = z.strictObject({ projectId: z.string(), parts: z.array(partSchema) }).meta({ id: 'StitchAlongParts' })
const examplePart = {
  ...{ partId: 'a1', version: 0, name: 'Part 1', comesOn: '2027-01-01', dueOn: '2027-01-31', stitches: 900, doneOn: null },
}
const exampleParts = { projectId: 'j1', parts: [examplePart] }
const answersParts = { answer: partsSchema, answerMeans: 'The parts in their order.' } as const
const partPath = z.strictObject({ projectId: idText, partId: idText })
const stitches = z.int().min(0).max(10_000_000).nullable().default(null)
const partFields = {
  ...{ name: shortText, comesOn: dateText.nullable().default(null), dueOn: dateText.nullable().default(null), stitches },
}

export const partOperations = {
  parts: operation({
    ...answersParts,
    ...({ method: 'get', path: '/projects/{projectId}/parts', id: 'listParts', group } as const),
    summary: 'A stitch-along’s parts',
    pathParameters: projectPath,
    problems: ['not-found'],
    example: { answer: exampleParts },
  }),
  addPart: operation({
    ...writes,
    ...answersParts,
    ...({ path: '/projects/{projectId}/parts', id: 'addPart', answerStatus: 201 } as const),
    summary: 'Add a part, the last of them',
    pathParameters: projectPath,
    body: z.strictObject(partFields).meta({ id: 'AddPartRequest' }),
    problems: ['not-found', 'refused'],
    example: { body: { name: 'Part 1', comesOn: '2027-01-01', dueOn: '2027-01-31', stitches: 900 }, answer: exampleParts },
  }),
  makeParts: operation({
    ...writes,
    ...answersParts,
    ...({ path: '/projects/{projectId}/make-parts', id: 'makeParts', answerStatus: 201 } as const),
    summary: 'Add parts by a rule: on a day of every month, or every so many days',
    pathParameters: projectPath,
    body: z
      .strictObject({
        name: shortText.default('Part').meta({ description: 'Their numbers come after it.' }),
        from: dateText,
        count: z.int().min(1).max(mostPartsMade),
        everyDays: z
          .int()
          .min(1)
          .max(400)
          .nullable()
          .default(null)
          .meta({ description: 'Null: every month on the day of `from`, on its last where a month has fewer.' }),
        dueAfterDays: z.int().min(0).max(400).nullable().default(null),
        stitches,
      })
      .meta({ id: 'MakePartsRequest' }),
    problems: ['not-found', 'refused'],
    example: { body: { from: '2027-01-01', count: 1, dueAfterDays: 30, stitches: 900 }, answer: exampleParts },
  }),
  changePart: operation({
    ...writes,
    ...answersParts,
    ...({ path: '/projects/{projectId}/parts/{partId}', id: 'changePart' } as const),
    summary: 'Say a part otherwise',
    pathParameters: partPath,
    body: z.strictObject({ version, ...partFields }).meta({ id: 'ChangePartRequest' }),
    problems: ['not-found', 'refused'],
    example: { body: { name: 'Part 1', comesOn: '2027-01-01', dueOn: '2027-01-31', stitches: 900 }, answer: exampleParts },
  }),
  tickPart: operation({
    ...writes,
    ...answersParts,
    ...({ path: '/projects/{projectId}/parts/{partId}/tick', id: 'tickPart' } as const),
    summary: 'Say on which day it was done; or, with null, that it is not',
    pathParameters: partPath,
    body: z.strictObject({ version, doneOn: orNull(dateText) }).meta({ id: 'TickPartRequest' }),
    problems: ['not-found', 'refused'],
    example: {
      body: { doneOn: '2027-01-20' },
      answer: { projectId: 'j1', parts: [{ ...examplePart, version: 1, doneOn: '2027-01-20' }] },
    },
  }),
  movePart: operation({
    ...writes,
    ...answersParts,
    ...({ path: '/projects/{projectId}/parts/{partId}/move', id: 'movePart' } as const),
    summary: 'Let it change places with the one before or after it',
    pathParameters: partPath,
    body: z.strictObject({ to: z.enum(['earlier', 'later']) }).meta({ id: 'MovePartRequest' }),
    problems: ['not-found'],
    example: { body: { to: 'earlier' }, answer: exampleParts },
  }),
  removePart: operation({
    ...writes,
    ...answersParts,
    ...({ path: '/projects/{projectId}/parts/{partId}/remove', id: 'removePart' } as const),
    summary: 'Take a part out',
    pathParameters: partPath,
    body: z.strictObject({}).meta({ id: 'RemovePartRequest' }),
    problems: ['not-found'],
    example: { body: {}, answer: { projectId: 'j1', parts: [] } },
  }),
}
