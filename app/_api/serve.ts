import { randomUUID } from 'node:crypto'
import type { z } from 'zod'
import { isNotAllowed } from '#lib/access/not-allowed'
import { mayDo, type Right } from '#lib/access/who'
import { who } from '#lib/db/access/asking'
import { doerName } from '#lib/db/access/doer'
import { isAlreadyDone } from '#lib/db/access/once'
import { isNotSeen } from '#lib/db/sight/not-seen'
import { troubleOf } from '#lib/db/trouble'
import { log } from '#lib/log/log'
import { describeNotAllowed } from '#words/sign-in'
import { describeTrouble } from '#words/trouble'
import { describeIssues } from './describe-issues'
import { answerOnce } from './idempotency'
import { type Operation, rightOf } from './operation'
import { Problem } from './problem'
import { type PostedFile, readFile, readJson } from './read-body'
import { refuseOtherSites } from './same-origin'

type Context = { params: Promise<Record<string, string | string[] | undefined>> }
export type Handler = (request: Request, context?: Context) => Promise<Response>

type Out<Schema> = Schema extends z.ZodType ? z.output<Schema> : undefined

type Asked<Path, Query, Json> = {
  path: Out<Path>
  query: Out<Query>
  body: Out<Json>
  /** Empty but for operations that take a file. */
  file: PostedFile
  request: Request
}

const noFile: PostedFile = { bytes: new Uint8Array(), name: '', fields: {} }

/** Query parameters by name: a list where the schema has one, else a text; one given twice is refused as a list where none is taken. */
function readQuery(schema: z.ZodObject, searchParams: URLSearchParams): Record<string, string | string[]> {
  const query: Record<string, string | string[]> = {}
  for (const name of new Set(searchParams.keys())) {
    const values = searchParams.getAll(name)
    const takesList = isList(schema.shape[name])
    query[name] = takesList || values.length > 1 ? values : (values[0] as string)
  }
  return query
}

function isList(schema: unknown): boolean {
  const { def } = (schema as z.ZodType | undefined) ?? {}
  if (!def) return false
  return def.type === 'array' || ('innerType' in def && isList(def.innerType))
}

function check<Schema extends z.ZodType | undefined>(
  schema: Schema,
  value: unknown,
  where: 'body' | 'parameters',
): { ok: true; value: Out<Schema> } | { ok: false; problem: Problem } {
  if (!schema) return { ok: true, value: undefined as Out<Schema> }
  const read = schema.safeParse(value, { reportInput: true })
  if (read.success) return { ok: true, value: read.data as Out<Schema> }
  const errors = describeIssues(read.error.issues, where)
  const kind = where === 'body' ? 'invalid' : 'bad-parameter'
  const first = errors[0]
  const name = first?.field ?? first?.parameter
  return {
    ok: false,
    problem: new Problem(kind, `${name || 'The body'}: ${first?.message ?? 'it is not what is taken here.'}`, { errors }),
  }
}

/** A name said for who did it, in a body or in its ticks: whoever signed in, whatever the body says. */
function byDoer(body: unknown): unknown {
  if (who().kind !== 'account' || typeof body !== 'object' || body === null || Array.isArray(body)) return body
  const said: Record<string, unknown> = { ...body }
  for (const key of ['who', 'by']) if (said[key] === null || typeof said[key] === 'string') said[key] = doerName('')
  if (Array.isArray(said.ticks)) said.ticks = said.ticks.map(byDoer)
  return said
}

const notAllowed = (right: Right): Problem => new Problem('not-allowed', describeNotAllowed(who(), right))

/**
 * Serve one operation: refuse other sites' pages, read and check path, query and body by the operation's schemas, call `handle`, and
 * turn what it returns, an answer or a Problem, into JSON.
 */
export function serve<
  Path extends z.ZodObject | undefined,
  Query extends z.ZodObject | undefined,
  Json extends z.ZodType | undefined,
  Answer extends z.ZodType,
>(
  declared: Operation<Path, Query, Json, Answer>,
  handle: (asked: Asked<Path, Query, Json>) => Promise<z.input<Answer> | Problem>,
): Handler {
  async function answer(request: Request, context?: Context): Promise<Response> {
    const refusal = declared.method === 'get' ? null : refuseOtherSites(request)
    if (refusal) return refusal.toResponse()
    const url = new URL(request.url)
    const path = check(declared.pathParameters, await context?.params, 'parameters')
    if (!path.ok) return path.problem.toResponse()
    const query = check(declared.query, declared.query && readQuery(declared.query, url.searchParams), 'parameters')
    if (!query.ok) return query.problem.toResponse()

    const right = rightOf(declared)
    if (!declared.isForAnybody && !mayDo(who(), right)) return notAllowed(right).toResponse()

    const json = declared.body ? await readJson(request) : { value: undefined, text: '' }
    if (json instanceof Problem) return json.toResponse()
    const body = check(declared.body, json.value, 'body')
    if (!body.ok) return body.problem.toResponse()
    const file = declared.takesFile ? await readFile(request) : noFile
    if (file instanceof Problem) return file.toResponse()

    const work = async () => {
      const answered = await handle({
        path: path.value as Out<Path>,
        query: query.value as Out<Query>,
        body: byDoer(body.value) as Out<Json>,
        file,
        request,
      })
      if (answered instanceof Problem) return answered.toResponse()
      return Response.json(answered, { status: declared.answerStatus ?? 200, headers: { 'cache-control': 'no-store' } })
    }
    const key = declared.takesIdempotencyKey ? request.headers.get('idempotency-key') : null
    if (key === null) return work()
    const asked = {
      key,
      operation: declared.id,
      path: url.pathname + url.search,
      body: declared.takesFile ? file.bytes : json.text,
    }
    return answerOnce(asked, () => guarded(work))
  }
  return (request, context) => guarded(() => answer(request, context))
}

/** A column holds whole numbers of 32 bits; PostgreSQL refuses to compare it with a larger one, such as a version nobody gave out. */
const isBeyondColumn = (error: unknown): boolean => (error as { code?: unknown } | null)?.code === 'P2020'

/** Seconds after which it is worth asking again. */
const retryAfterSeconds = { busy: 5, away: 10 }

/** Log what broke once, beside an id, and answer with that id alone. What is no fault of the program is said as it is. */
async function guarded(work: () => Promise<Response>): Promise<Response> {
  try {
    return await work()
  } catch (error) {
    if (isNotAllowed(error)) return notAllowed(error.asked).toResponse()
    if (isNotSeen(error)) return new Problem('not-found', 'Something that is named here is not there.').toResponse()
    if (isBeyondColumn(error)) return new Problem('refused', 'A number is larger than any that is kept.').toResponse()
    // Whoever keeps answers answers it.
    if (isAlreadyDone(error)) throw error
    const trouble = troubleOf(error)
    if (trouble !== null) log.warn('api trouble', { kind: trouble, error })
    if (trouble === 'full') return new Problem('no-room', describeTrouble(trouble)).toResponse()
    if (trouble !== null)
      return new Problem('unavailable', describeTrouble(trouble), {
        headers: { 'retry-after': String(retryAfterSeconds[trouble]) },
      }).toResponse()
    const id = randomUUID()
    log.error('api fault', { id, error })
    return new Problem('internal', 'Something went wrong on this side. The log has the details beside this id.', {
      instance: `urn:uuid:${id}`,
    }).toResponse()
  }
}

const methods = ['GET', 'POST', 'PUT', 'PATCH', 'DELETE'] as const
type Endpoint = Record<(typeof methods)[number] | 'OPTIONS', Handler>

/** All the methods of one address: those given, and a problem for the others. */
export function endpoint(handlers: Partial<Record<'GET' | 'POST', Handler>>): Endpoint {
  const allow = ['OPTIONS', ...methods.filter((method) => method in handlers), ...('GET' in handlers ? ['HEAD'] : [])].join(', ')
  const wrongMethod: Handler = async (request) =>
    new Problem('wrong-method', `${request.method} is not taken here, only ${allow}.`, { headers: { allow } }).toResponse()
  const options: Handler = async () => new Response(null, { status: 204, headers: { allow } })
  return {
    ...(Object.fromEntries(methods.map((method) => [method, wrongMethod])) as Endpoint),
    OPTIONS: options,
    ...handlers,
  }
}
