import { z } from 'zod'
import { operation } from './operation'

export const getHealth = operation({
  method: 'get',
  path: '/health',
  id: 'getHealth',
  isForAnybody: true,
  group: 'Service',
  summary: 'Whether the process answers',
  description:
    'Answers whenever the process does, whatever becomes of the database: a process that does not is to be started anew. Needs no sign-in, and says nothing of the collection.',
  answer: z.strictObject({ status: z.literal('ok') }).meta({ id: 'Health' }),
  answerMeans: 'It is up.',
  example: { answer: { status: 'ok' } },
})

export const getReady = operation({
  method: 'get',
  path: '/ready',
  id: 'getReady',
  isForAnybody: true,
  group: 'Service',
  summary: 'Whether it can serve',
  description:
    'Answers once the database does, is of this version, and what the screens answer from has been read. A proxy sends nobody to a process that is not ready. Needs no sign-in, and says nothing of the collection.',
  answer: z.strictObject({ status: z.literal('ready') }).meta({ id: 'Ready' }),
  answerMeans: 'It can serve.',
  problems: ['not-ready'],
  example: { answer: { status: 'ready' } },
})

export const getDocument = operation({
  method: 'get',
  path: '/openapi.json',
  id: 'getDocument',
  group: 'Service',
  summary: 'This description, for programs',
  answer: z.looseObject({ openapi: z.string() }).meta({ description: 'An OpenAPI 3.1 document.' }),
  answerMeans: 'The document.',
  example: { answer: { openapi: '3.1.0' } },
})
