import { z } from 'zod'
import { day, group, version, writes } from './calendar'
import { namedSchema, ownerIdsField, ownerQuery } from './collection'
import { operation } from './operation'
import { idText, shortText } from './quantities'

const occasionsSchema = z
  .strictObject({
    ownerIds: ownerIdsField,
    country: z.string().meta({ description: 'Whose feasts are known; see the planning settings.' }),
    occasions: z
      .array(z.strictObject({ key: z.string(), name: z.string(), isOwn: z.boolean(), nextOn: day }))
      .meta({ description: 'What a project can be due for, own days first. `nextOn` is null for a day that came once.' }),
    own: z.array(
      z.strictObject({ occasionId: z.string(), version: z.int(), owner: namedSchema, name: z.string(), rule: z.string() }),
    ),
  })
  .meta({ id: 'OccasionList' })
const exampleOccasions: z.input<typeof occasionsSchema> = {
  ...{ ownerIds: ['o1'], country: 'GB' },
  occasions: [
    { key: 'q1', name: 'Guild fair', isOwn: true, nextOn: '2027-09-25' },
    { key: 'easter', name: 'Easter', isOwn: false, nextOn: '2027-03-28' },
  ],
  own: [
    {
      ...{ occasionId: 'q1', version: 0, owner: { id: 'o1', name: 'Hanne Drewitt' }, name: 'Guild fair' },
      rule: 'last saturday of 9',
    },
  ],
}
const answersOccasions = { answer: occasionsSchema, answerMeans: 'The occasions as they are now.' } as const
const occasionPath = z.strictObject({ occasionId: idText })
const occasionFields = {
  name: shortText,
  rule: z.string().min(1).max(60).meta({
    description:
      '`12-24`; `easter+39`; `last monday of 5`; `sunday nearest 11-30`, or so many days from that with `-7`; `2027-05-14`.',
  }),
}

export const occasionOperations = {
  occasions: operation({
    ...({ method: 'get', path: '/occasions', id: 'listOccasions', group } as const),
    ...answersOccasions,
    summary: 'What a project can be due for: feasts, seasons and days of one’s own',
    query: z.strictObject(ownerQuery),
    example: { answer: exampleOccasions },
  }),
  addOccasion: operation({
    ...writes,
    ...answersOccasions,
    ...({ path: '/occasions', id: 'addOccasion', answerStatus: 201 } as const),
    summary: 'Keep a day besides the known feasts',
    body: z.strictObject({ ownerId: idText, ...occasionFields }).meta({ id: 'AddOccasionRequest' }),
    problems: ['refused'],
    example: { body: { ownerId: 'o1', name: 'Guild fair', rule: 'last saturday of 9' }, answer: exampleOccasions },
  }),
  changeOccasion: operation({
    ...writes,
    ...answersOccasions,
    ...({ path: '/occasions/{occasionId}', id: 'changeOccasion' } as const),
    summary: 'Say it otherwise',
    description: 'Projects that are due on a day of its old rule follow to the next of the new one.',
    pathParameters: occasionPath,
    body: z.strictObject({ version, ...occasionFields }).meta({ id: 'ChangeOccasionRequest' }),
    problems: ['not-found', 'refused'],
    example: { body: { name: 'Guild fair', rule: 'last saturday of 9' }, answer: exampleOccasions },
  }),
  removeOccasion: operation({
    ...writes,
    ...answersOccasions,
    ...({ path: '/occasions/{occasionId}/remove', id: 'removeOccasion' } as const),
    summary: 'Keep it no longer',
    description: 'Projects that were due for it stay due on their day.',
    pathParameters: occasionPath,
    body: z.strictObject({}).meta({ id: 'RemoveOccasionRequest' }),
    problems: ['not-found'],
    example: { body: {}, answer: { ...exampleOccasions, occasions: exampleOccasions.occasions.slice(1), own: [] } },
  }),
}
