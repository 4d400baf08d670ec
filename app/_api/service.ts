import { z } from 'zod'
import { operation } from './operation'

export const getHealth = operation({
  method: 'get',
  path: '/health',
  id: 'getHealth',
  isForAnybody: true,
  group: 'Service',
  summary: 'Whether it answers',
  description: 'Answers once the database can be read. The revision is raised by every write.',
  answer: z.strictObject({ status: z.literal('ok'), revision: z.int().min(0) }).meta({ id: 'Health' }),
  answerMeans: 'It is up.',
  example: { answer: { status: 'ok', revision: 412 } },
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
