import type { z } from 'zod'
import type { Right } from '#lib/access/who'
import type { ProblemKind } from './problem'

export const groups = ['Calculators', 'Finding', 'Designs', 'Stock', 'Places', 'Projects', 'Bring in', 'Service'] as const
export type OperationGroup = (typeof groups)[number]

type Parameters = z.ZodObject | undefined
type Body = z.ZodType | undefined

/** One thing the API does, declared once: the handler checks against these schemas and the document is written from them. */
export type Operation<Path extends Parameters, Query extends Parameters, Json extends Body, Answer extends z.ZodType> = {
  method: 'get' | 'post'
  /** Under /api/v1, with `{name}` for the parts of the path. */
  path: `/${string}`
  id: string
  group: OperationGroup
  /** What somebody must be allowed to do; left out, a look reads and all else changes. */
  right?: Right
  /** Answers without anybody signing in. */
  isForAnybody?: boolean
  summary: string
  description?: string
  pathParameters?: Path
  query?: Query
  body?: Json
  /** Takes a file instead of JSON. */
  takesFile?: boolean
  answer: Answer
  answerStatus?: 200 | 201
  answerMeans: string
  /** Problems of its own, beside those that any operation may answer with. */
  problems?: readonly ProblemKind[]
  /** A repeat with the same Idempotency-Key header is answered as the first was. */
  takesIdempotencyKey?: boolean
  /** Both pass their schemas; a calculator answers its example's body with its example's answer. */
  example: { body?: unknown; answer: unknown }
}

/** What an operation asks of whoever asks for it. */
export const rightOf = ({ method, right }: { method: 'get' | 'post'; right?: Right }): Right =>
  right ?? (method === 'get' ? 'read' : 'change')

export type AnyOperation = Operation<Parameters, Parameters, Body, z.ZodType>

export function operation<
  Answer extends z.ZodType,
  Path extends Parameters = undefined,
  Query extends Parameters = undefined,
  Json extends Body = undefined,
>(declared: Operation<Path, Query, Json, Answer>): Operation<Path, Query, Json, Answer> {
  return declared
}
