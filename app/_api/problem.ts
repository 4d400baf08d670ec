import { z } from 'zod'

/** Every problem the API answers with. The kind is the last part of the problem's `type`, and its heading on the reference page. */
export const problemKinds = {
  'bad-json': {
    status: 400,
    title: 'The body is not JSON',
    meaning: 'The body could not be read as JSON in UTF-8. Nothing was done.',
  },
  'bad-parameter': {
    status: 400,
    title: 'A parameter is not right',
    meaning: 'A part of the path, the query or a header is missing, unknown or out of its range; `errors` names it.',
  },
  'sign-in-needed': {
    status: 401,
    title: 'Sign in first',
    meaning:
      'Accounts exist here, and the request carried neither a device’s cookie nor a token that is good. Make a token on your account’s page and send it as Authorization: Bearer.',
  },
  'not-allowed': {
    status: 403,
    title: 'Not for this account',
    meaning:
      'The account’s role, or the scope of its token, does not reach so far: a looker changes nothing, and only a keeper keeps house. Nothing was done.',
  },
  'not-for-this-host': {
    status: 403,
    title: 'Not by this name',
    meaning:
      'Without accounts the program answers its own machine alone, by its own address; this came by another name or through another server.',
  },
  'cross-origin': {
    status: 403,
    title: 'Asked for by another site',
    meaning: 'A page of another site may not change anything here. Programs that send no Origin header are let through.',
  },
  'not-found': {
    status: 404,
    title: 'Not found',
    meaning: 'There is no such address, or nothing with that id. What was removed is not found either.',
  },
  'wrong-method': {
    status: 405,
    title: 'That cannot be done here',
    meaning: 'The address exists but not for this method; the Allow header names those it takes.',
  },
  refused: {
    status: 409,
    title: 'Refused',
    meaning:
      'The request can be read, but cannot be carried out on the collection as it stands: `detail` says why. Nothing was changed.',
  },
  'already-done': {
    status: 409,
    title: 'That was already done',
    meaning:
      'The same Idempotency-Key came before and the request was carried out, but what was answered is not known any more: the program was stopped in between, or it was too long to keep. Nothing was done again.',
  },
  'too-large': {
    status: 413,
    title: 'The body is too large',
    meaning: 'JSON may be up to 1 MB, a posted file up to 60 MB, of which 50 MiB of table can be brought in at once.',
  },
  'unsupported-media-type': {
    status: 415,
    title: 'The body is of a kind that is not taken',
    meaning: 'The Content-Type header is missing or is none of those the operation takes.',
  },
  invalid: {
    status: 422,
    title: 'The request does not hold together',
    meaning:
      'The body is JSON but not what the operation takes; `errors` names each field by JSON pointer and what would be accepted.',
  },
  'key-reused': {
    status: 422,
    title: 'The idempotency key was used for something else',
    meaning: 'The same Idempotency-Key came with another body before. Use a new key for a new request.',
  },
  'not-open': {
    status: 503,
    title: 'Not open yet',
    meaning: 'The program listens to a network and has no account that keeps it, so it lets nobody in.',
  },
  unavailable: {
    status: 503,
    title: 'The database cannot be reached just now',
    meaning:
      'It does not answer, or another program holds it. Ask again after as many seconds as the Retry-After header says; with the same Idempotency-Key nothing is done twice.',
  },
  'no-room': {
    status: 507,
    title: 'There is no room on the disk',
    meaning: 'Nothing was changed. Make room on the disk the collection is on, then ask again.',
  },
  internal: {
    status: 500,
    title: 'Something went wrong here',
    meaning: 'A fault of the program, not of the request. The log has the details beside the id in `instance`.',
  },
  'not-ready': {
    status: 503,
    title: 'Not ready yet',
    meaning: 'The program has started and cannot serve yet, or not just now. Retry-After says when to ask again.',
  },
} as const satisfies Record<string, { status: number; title: string; meaning: string }>

export type ProblemKind = keyof typeof problemKinds

export const problemErrorSchema = z
  .strictObject({
    field: z
      .string()
      .optional()
      .meta({ description: 'JSON pointer into the body: `/lines/0/strands`.', example: '/lines/0/strands' }),
    parameter: z.string().optional().meta({ description: 'Name of the path part, query parameter or header.' }),
    row: z.int().optional().meta({ description: 'Row of the file, the header being row 1.' }),
    column: z.string().optional().meta({ description: 'Head of the column in the file.' }),
    message: z.string(),
    accepted: z.string().optional().meta({ description: 'What would be accepted instead.' }),
  })
  .meta({ id: 'ProblemError' })

export type ProblemError = z.infer<typeof problemErrorSchema>

/** RFC 9457. `type` is a reference to this server's own page of problems. */
export const problemSchema = z
  .strictObject({
    type: z.string().meta({ example: '/reference#problem-invalid' }),
    title: z.string(),
    status: z.int(),
    detail: z.string(),
    instance: z.string().optional().meta({ description: 'An id to look for in the log.' }),
    errors: z.array(problemErrorSchema).optional(),
  })
  .meta({ id: 'Problem', description: 'What went wrong, as RFC 9457 has it.' })

/** What a handler returns instead of an answer. */
export class Problem {
  constructor(
    readonly kind: ProblemKind,
    readonly detail: string,
    readonly more: { errors?: ProblemError[]; instance?: string; headers?: Record<string, string> } = {},
  ) {}

  toResponse(): Response {
    const { status, title } = problemKinds[this.kind]
    const { errors, instance, headers } = this.more
    const body: z.input<typeof problemSchema> = { type: `/reference#problem-${this.kind}`, title, status, detail: this.detail }
    if (instance) body.instance = instance
    if (errors && errors.length > 0) body.errors = errors
    return new Response(JSON.stringify(body), {
      status,
      headers: { 'content-type': 'application/problem+json', 'cache-control': 'no-store', ...headers },
    })
  }
}

export const notFound = (what: string, id: string): Problem =>
  new Problem('not-found', `There is no ${what} with the id ${JSON.stringify(id.slice(0, 100))}.`)

/** A parameter that only the collection shows to be wrong. `message` begins small. */
export const badParameter = (parameter: string, message: string, accepted?: string): Problem =>
  new Problem('bad-parameter', `${parameter}: ${message}`, {
    errors: [{ parameter, message: message.replace(/^./, (letter) => letter.toUpperCase()), ...(accepted && { accepted }) }],
  })
