import { describe, expect, it, vi } from 'vitest'
import { z } from 'zod'
import { operation } from '#api/operation'
import { problemKinds, problemSchema } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { POST as postUnknownAddress, GET as unknownAddress } from '../../../app/api/v1/[[...unknown]]/route'
import { POST as coverage } from '../../../app/api/v1/calculate/coverage/route'
import { DELETE, GET, OPTIONS, PATCH, POST, PUT } from '../../../app/api/v1/calculate/thread-use/route'
import { GET as document } from '../../../app/api/v1/openapi.json/route'
import { ask } from './ask'

const good = { lines: [{ tally: { full: 10 }, strands: 2 }], cloth: { count: '14', over: 1 } }

/** Ask, and insist that the answer is a problem as declared. */
async function problem(handler: Parameters<typeof ask>[0], asked: Parameters<typeof ask>[1]) {
  const { status, headers, body } = await ask(handler, asked)
  const read = problemSchema.parse(body)
  expect(headers.get('content-type')).toBe('application/problem+json')
  expect(read.status).toBe(status)
  const kind = Object.keys(problemKinds).find((name) => read.type === `/reference#problem-${name}`)
  return { kind, status, headers, errors: read.errors ?? [], detail: read.detail, instance: read.instance }
}

describe('problems', () => {
  it.each([
    ['no JSON', '{"lines": [', 'bad-json'],
    ['nothing at all', '', 'bad-json'],
    ['bytes that are no UTF-8', new Uint8Array([0x22, 0xff, 0xfe, 0x22]), 'bad-json'],
    ['a bare null', 'null', 'invalid'],
    ['a list', '[]', 'invalid'],
    ['a hundred thousand brackets', '['.repeat(100_000) + ']'.repeat(100_000), 'invalid'],
    [
      'a number too large to be one',
      '{"lines":[{"tally":{"full":1e999},"strands":2}],"cloth":{"count":"14","over":1}}',
      'invalid',
    ],
    ['a prototype in disguise', '{"__proto__":{"lines":[]},"constructor":{}}', 'invalid'],
    ['a stitch there is not', '{"lines":[{"tally":{"loop":3},"strands":2}],"cloth":{"count":"14","over":1}}', 'invalid'],
  ])('answers %s with a problem', async (_name, raw, kind) => {
    const answered = await problem(POST, { raw, headers: { 'content-type': 'application/json' } })
    expect(answered.kind).toBe(kind)
  })

  it('names every wrong field by pointer, with what would be accepted', async () => {
    const { kind, errors } = await problem(POST, {
      body: {
        lines: [{ tally: { full: -1, half: 1.5 }, strands: 'two', colour: 'red' }],
        cloth: { count: 'fine', over: 3 },
        allowance: 9,
      },
    })
    expect(kind).toBe('invalid')
    expect(errors).toEqual(
      expect.arrayContaining([
        { field: '/lines/0/tally/full', message: 'It is too small.', accepted: 'at least 0' },
        { field: '/lines/0/tally/half', message: 'It is not a whole number.', accepted: 'a whole number' },
        { field: '/lines/0/strands', message: 'It is not a number.', accepted: 'a number' },
        { field: '/lines/0/colour', message: 'There is no such field.' },
        { field: '/cloth/over', message: 'It is none of the values taken.', accepted: '1, 2' },
        { field: '/allowance', message: 'That is no allowance.', accepted: '1 (bare geometry) to 5' },
      ]),
    )
  })

  it.each([
    [{ count: 'fine', over: 2 }, '/cloth/count'],
    [{ count: '28' }, '/cloth/over'],
    [{ count: '28 over 2', over: 1 }, '/cloth/over'],
    [{ ends: { threads: 28, perUm: 25_400 }, over: 2 }, '/cloth/picks'],
    [{ ends: { threads: 28, perUm: 25 }, picks: { threads: 28, perUm: 25_400 }, over: 2 }, '/cloth/ends'],
    [{ over: 2 }, '/cloth/count'],
  ])('says what a cloth of %j lacks', async (cloth, field) => {
    const { errors } = await problem(POST, { body: { ...good, cloth } })
    expect(errors.map((error) => error.field)).toContain(field)
  })

  it('names a line of threads that was not described', async () => {
    const thread = { maker: 'Larkholm', line: 'Stranded cotton', code: '17' }
    const { errors } = await problem(coverage, {
      body: {
        threadLines: [{ maker: 'Larkholm', line: 'Stranded silk', putUpStrandTenths: 480_000 }],
        keyLines: [{ threads: [{ ...thread, strands: 2 }] }],
        stash: [{ ...thread, wholePutUps: 1 }],
      },
    })
    expect(errors.map(({ field }) => field)).toEqual(['/keyLines/0/threads/0/line', '/stash/0/line'])
  })

  it('tells of the first fifty of a thousand bad rows', async () => {
    const body = { ...good, lines: Array.from({ length: 150 }, () => ({ tally: {}, strands: 0 })) }
    expect((await problem(POST, { body })).errors).toHaveLength(50)
  })

  it('refuses a body over a megabyte, whether it says so or not', async () => {
    const raw = `{"lines":"${'x'.repeat(1_000_000)}"}`
    const headers = { 'content-type': 'application/json' }
    expect((await problem(POST, { raw, headers })).kind).toBe('too-large')
    const stream = new Blob([raw]).stream()
    expect((await problem(POST, { raw: stream as BodyInit, headers })).kind).toBe('too-large')
  })

  it.each([['text/plain'], ['application/x-www-form-urlencoded'], ['multipart/form-data; boundary=x']])(
    'does not take JSON as %s',
    async (type) => {
      const { kind, status } = await problem(POST, { raw: JSON.stringify(good), headers: { 'content-type': type } })
      expect([kind, status]).toEqual(['unsupported-media-type', 415])
    },
  )

  it('knows no other address', async () => {
    expect((await problem(unknownAddress, { path: 'thread' })).status).toBe(404)
    expect((await problem(postUnknownAddress, { path: 'thread', body: {} })).status).toBe(404)
  })

  it('says which methods an address takes', async () => {
    for (const [method, handler] of Object.entries({ GET, PUT, PATCH, DELETE })) {
      const { status, headers } = await problem(handler, { method })
      expect(status).toBe(405)
      expect(headers.get('allow')).toBe('OPTIONS, POST')
    }
    const options = await ask(OPTIONS, { method: 'OPTIONS' })
    expect([options.status, options.headers.get('allow')]).toEqual([204, 'OPTIONS, POST'])
  })

  it.each([
    [{ 'sec-fetch-site': 'cross-site' }],
    [{ 'sec-fetch-site': 'same-site' }],
    [{ origin: 'http://127.0.0.1:3000' }],
    [{ origin: 'null' }],
    [{ origin: 'https://oxmarsh.example', host: '127.0.0.1:4270' }],
  ])('refuses a page that comes with %j', async (headers) => {
    const { kind, status } = await problem(POST, { body: good, headers })
    expect([kind, status]).toEqual(['cross-origin', 403])
  })

  it('lets its own pages and programs through, and gives no other site leave to read', async () => {
    const pages: Record<string, string>[] = [
      {},
      { 'sec-fetch-site': 'same-origin', origin: 'http://127.0.0.1:4270' },
      { 'sec-fetch-site': 'none' },
    ]
    for (const headers of pages) {
      const { status, headers: answered } = await ask(POST, { body: good, headers })
      expect(status).toBe(200)
      expect([...answered.keys()].filter((name) => name.startsWith('access-control'))).toEqual([])
    }
    expect((await ask(document, { headers: { 'sec-fetch-site': 'cross-site' } })).status).toBe(200)
  })
})

describe('an operation', () => {
  const declared = operation({
    method: 'post',
    path: '/try/{tryId}',
    id: 'try',
    group: 'Service',
    summary: 'Try',
    pathParameters: z.strictObject({ tryId: z.string() }),
    query: z.strictObject({ limit: z.coerce.number().int().max(200).default(50), designer: z.array(z.string()).optional() }),
    body: z.strictObject({ count: z.int() }),
    answer: z.strictObject({ sum: z.int() }),
    answerMeans: 'Tried.',
    example: { answer: { sum: 1 } },
  })

  it('hides what broke behind an id, and logs it once', async () => {
    const log = vi.spyOn(console, 'error').mockImplementation(() => {})
    const { POST } = endpoint({
      POST: serve(declared, async () => {
        throw new Error('password is swordfish')
      }),
    })
    const answered = await problem(POST, { body: { count: 1 }, parts: { tryId: 'a' } })
    expect(answered.kind).toBe('internal')
    expect(JSON.stringify(answered)).not.toMatch(/swordfish|problems\.test/)
    expect(log).toHaveBeenCalledOnce()
    expect(log.mock.calls[0]?.[0]).toContain(answered.instance?.replace('urn:uuid:', ''))
    log.mockRestore()
  })

  it('reads path and query by their schemas', async () => {
    const seen: unknown[] = []
    const { POST } = endpoint({
      POST: serve(declared, async ({ path, query }) => {
        seen.push(path, query)
        return { sum: 0 }
      }),
    })
    await ask(POST, { path: 'try/a?limit=7&designer=x&designer=y', body: { count: 1 }, parts: { tryId: 'a' } })
    expect(seen).toEqual([{ tryId: 'a' }, { limit: 7, designer: ['x', 'y'] }])
    for (const [query, name] of [
      ['limit=201', 'limit'],
      ['limit=x', 'limit'],
      ['limit=1&limit=2', 'limit'],
      ['desinger=x', 'desinger'],
    ]) {
      const { kind, errors } = await problem(POST, { path: `try/a?${query}`, body: { count: 1 }, parts: { tryId: 'a' } })
      expect([kind, errors[0]?.parameter]).toEqual(['bad-parameter', name])
    }
  })
})
