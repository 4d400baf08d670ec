import { OpenAPIRegistry, OpenApiGeneratorV31, type RouteConfig } from '@asteasolutions/zod-to-openapi'
import { z } from 'zod'
import { sessionCookieName } from '#lib/access/session'
import type { Right } from '#lib/access/who'
import { type AnyOperation, groups, rightOf } from './operation'
import { operations } from './operations'
import { type ProblemKind, problemKinds, problemSchema } from './problem'
import type { fileMediaTypes } from './read-body'

export type ApiDocument = ReturnType<OpenApiGeneratorV31['generateDocument']>

const idempotencyHeader = z.object({
  'Idempotency-Key': z.string().min(1).max(200).optional().meta({
    description:
      'Your own name for this request. A repeat with the same key and body is answered as the first was and does nothing again, for a day, whatever becomes of the server in between. Keys are each account’s own.',
  }),
})

const fileBody = {
  'multipart/form-data': {
    schema: {
      type: 'object' as const,
      properties: { file: { type: 'string' as const, contentMediaType: 'text/csv' } },
      required: ['file'],
    },
  },
  'text/csv': { schema: { type: 'string' as const } },
} satisfies Record<(typeof fileMediaTypes)[number], unknown>

/** The problems an operation may answer with: its own, and those that follow from what it takes. */
export function problemsOf(declared: AnyOperation): ProblemKind[] {
  const kinds = new Set<ProblemKind>(declared.problems ?? [])
  if (declared.pathParameters || declared.query || declared.takesIdempotencyKey) kinds.add('bad-parameter')
  if (declared.method === 'post') kinds.add('cross-origin')
  if (declared.body) for (const kind of ['bad-json', 'too-large', 'unsupported-media-type', 'invalid'] as const) kinds.add(kind)
  if (declared.takesFile) for (const kind of ['too-large', 'unsupported-media-type', 'invalid'] as const) kinds.add(kind)
  if (declared.takesIdempotencyKey) for (const kind of ['key-reused', 'already-done'] as const) kinds.add(kind)
  if (!declared.isForAnybody) for (const kind of ['sign-in-needed', 'not-allowed'] as const) kinds.add(kind)
  for (const kind of ['unavailable', 'no-room', 'internal'] as const) kinds.add(kind)
  return (Object.keys(problemKinds) as ProblemKind[]).filter((kind) => kinds.has(kind))
}

function problemResponses(declared: AnyOperation): RouteConfig['responses'] {
  const byStatus = new Map<number, string[]>()
  for (const kind of problemsOf(declared)) {
    const { status, title } = problemKinds[kind]
    byStatus.set(status, [...(byStatus.get(status) ?? []), title])
  }
  return Object.fromEntries(
    [...byStatus].map(([status, titles]) => [
      status,
      { description: `${titles.join('; or ')}.`, content: { 'application/problem+json': { schema: problemSchema } } },
    ]),
  )
}

/** Said of every operation, by what it asks of whoever asks for it. */
const rightWords: Record<Right, string> = {
  read: 'Any account may; a token needs the scope read.',
  change: 'A helper or a keeper may; a token needs the scope change.',
  keep: 'A keeper may; a token needs the scope keep.',
}

function routeOf(declared: AnyOperation): RouteConfig {
  const { example, body } = declared
  return {
    method: declared.method,
    path: declared.path,
    operationId: declared.id,
    tags: [declared.group],
    summary: declared.summary,
    description: [declared.description, declared.isForAnybody ? null : rightWords[rightOf(declared)]].filter(Boolean).join(' '),
    security: declared.isForAnybody ? [] : [{ device: [] }, { token: [] }],
    request: {
      params: declared.pathParameters,
      query: declared.query,
      headers: declared.takesIdempotencyKey ? idempotencyHeader : undefined,
      body: body
        ? { required: true, content: { 'application/json': { schema: body, example: example.body } } }
        : declared.takesFile
          ? { required: true, content: fileBody }
          : undefined,
    },
    responses: {
      [declared.answerStatus ?? 200]: {
        description: declared.answerMeans,
        content: { 'application/json': { schema: declared.answer, example: example.answer } },
      },
      ...problemResponses(declared),
    },
  }
}

let known: ApiDocument | undefined

/** The OpenAPI 3.1 document, written from the schemas the handlers check against: once, since it says the same to everybody. */
export function apiDocument(): ApiDocument {
  known ??= writeDocument()
  return known
}

function writeDocument(): ApiDocument {
  const registry = new OpenAPIRegistry()
  registry.registerComponent('securitySchemes', 'device', {
    type: 'apiKey',
    in: 'cookie',
    name: sessionCookieName(false),
    description: `A device somebody signed in on; over HTTPS the cookie is ${sessionCookieName(true)}. Where no account exists, nothing is asked for.`,
  })
  registry.registerComponent('securitySchemes', 'token', {
    type: 'http',
    scheme: 'bearer',
    description: 'A token made on one’s own account page: it may what its scope says, and never more than its account.',
  })
  for (const declared of operations) registry.registerPath(routeOf(declared))
  return new OpenApiGeneratorV31(registry.definitions, { sortComponents: 'alphabetically' }).generateDocument({
    openapi: '3.1.0',
    info: {
      title: 'Chart Larder',
      version: '1',
      description:
        'What can be stitched from stash, what cloth to cut for it, and where each thing is. Thread is in whole tenths of a millimetre of one strand (…StrandTenths: 8 m of six strands is 480,000), cloth in micrometres (…Um: one inch is 25,400). Problems come as application/problem+json.',
    },
    servers: [{ url: '/api/v1' }],
    tags: groups.map((name) => ({ name })),
  })
}
