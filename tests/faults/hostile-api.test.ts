import { mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, expect, it, vi } from 'vitest'
import { apiDocument } from '#api/document'
import { operations } from '#api/operations'
import { problemSchema } from '#api/problem'
import type { Handler } from '#api/serve'
import { archiveTables } from '#lib/archive/tables'
import type { Database } from '#lib/db/client'
import { readSnapshot } from '#lib/db/read-snapshot'
import { seededRandom } from '#seed/random'
import { describeOnEachEngine } from '../database/engines'
import { addOneOfEverything } from '../database/one-of-everything'
import { addSmallWorld } from '../database/small-world'
import { faultsInBooks } from '../database/stock-books'
import { hostileValue, type Pool, type Schema } from './hostile-values'

/** So many calls of each operation: HOSTILE_CALLS for a longer run, HOSTILE_SEED for another. */
const callsEach = Number(process.env.HOSTILE_CALLS ?? 8)
const seed = process.env.HOSTILE_SEED ?? 'hostile'
/** These begin work in the background, one at a time: other tests break it off. */
const leftOut = new Set(['writeArchive', 'makeBackup', 'checkBackup', 'restoreBackup', 'startCheck'])

type Described = {
  parameters?: { name: string; in: 'path' | 'query' | 'header'; schema: Schema; required?: boolean }[]
  requestBody?: { content: Record<string, { schema: Schema }> }
  responses: Record<string, unknown>
}
const document = JSON.parse(JSON.stringify(apiDocument())) as {
  paths: Record<string, Record<string, Described>>
  components: { schemas: Record<string, Schema> }
}
const resolve = (ref: string): Schema => document.components.schemas[ref.split('/').at(-1) as string] ?? {}

const folder = path.join(import.meta.dirname, '../../app/api/v1')
const routeFiles = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter(
  (file) => path.basename(file) === 'route.ts' && !file.includes('[[...'),
)
const addressOf = (file: string) => `/${path.dirname(file).split(path.sep).join('/')}`.replace(/\[(\w+)\]/g, '{$1}')

async function handlers(): Promise<Map<string, Handler>> {
  const found = new Map<string, Handler>()
  for (const file of routeFiles) {
    const route = (await import(path.join(folder, file))) as Record<'GET' | 'POST', Handler>
    for (const method of ['GET', 'POST'] as const) found.set(`${method} ${addressOf(file)}`, route[method])
  }
  return found
}

/** Every id there is, of whatever it is, and what places and people are called. */
async function poolOf(database: Database): Promise<Pool> {
  const ids: string[] = []
  const labels: string[] = []
  await readSnapshot(database, async (rows) => {
    for (const { name, columns } of archiveTables) {
      if (!('id' in columns)) continue
      for await (const some of rows(`SELECT "id" FROM "${name}" ORDER BY "id"`))
        ids.push(...some.slice(0, 40).map(([id]) => String(id)))
    }
    for await (const some of rows('SELECT "label" FROM "Place" ORDER BY "label"'))
      labels.push(...some.map(([label]) => String(label)))
  })
  return { ids, labels }
}

const asText = (value: unknown): string => (typeof value === 'object' ? JSON.stringify(value) : String(value))
const told = (value: unknown): string => JSON.stringify(value)?.slice(0, 1_000) ?? 'undefined'

describeOnEachEngine('the API, asked for anything', ({ name, open }) => {
  const data = mkdtempSync(path.join(tmpdir(), 'larder-hostile-'))
  let calls: Map<string, Handler>
  /** A row made by hand has no movement. */
  let before: string[] = []

  beforeAll(async () => {
    vi.stubEnv('LARDER_DATA', data)
    vi.stubEnv('DATABASE_URL', open().url)
    await addSmallWorld(open())
    await addOneOfEverything(open())
    // Made by hand, its plan is no plan.
    await open().prisma.cutPlan.deleteMany({})
    before = await faultsInBooks(open().prisma)
    calls = await handlers()
  })
  afterAll(() => {
    vi.unstubAllEnvs()
    rmSync(data, { recursive: true, force: true })
  })

  it(`answers or refuses, ${callsEach} times each operation, and never breaks`, async () => {
    const faults: string[] = []
    const log = vi.spyOn(console, 'error').mockImplementation((...said) => {
      faults.push(
        `logged ${said
          .map((one) => (one instanceof Error ? one.stack : String(one)))
          .join(' ')
          .slice(0, 1_500)}`,
      )
    })
    const random = seededRandom(`${seed} ${name}`)
    let pool = await poolOf(open())
    for (let turn = 0; turn < callsEach; turn++) {
      // What the calls before have made is asked about too.
      if (turn % 8 === 7) pool = await poolOf(open())
      for (const declared of operations) {
        if (declared.takesFile || leftOut.has(declared.id)) continue
        const described = document.paths[declared.path]?.[declared.method] as Described
        const value = (schema: Schema) => hostileValue(schema, { random, pool, resolve })
        const parts: Record<string, string> = {}
        const query = new URLSearchParams()
        for (const parameter of described.parameters ?? []) {
          const one = value(parameter.schema)
          if (parameter.in === 'path') parts[parameter.name] = asText(one)
          else if (parameter.in === 'query' && (parameter.required || random.chance(0.5)))
            for (const each of Array.isArray(one) ? one.slice(0, 50) : [one]) query.append(parameter.name, asText(each))
        }
        const schema = described.requestBody?.content['application/json']?.schema
        const body = schema && JSON.stringify(value(schema))
        const request = new Request(`http://127.0.0.1:4270/api/v1/asked?${query}`, {
          method: declared.method.toUpperCase(),
          ...(body !== undefined && { body, headers: { 'content-type': 'application/json' } }),
        })
        const handler = calls.get(`${declared.method.toUpperCase()} ${declared.path}`) as Handler
        const asked = `${declared.id} ${told(parts)} ${query.toString().slice(0, 300)} ${body?.slice(0, 1_500) ?? ''}`
        const known = faults.length
        const response = await handler(request, { params: Promise.resolve(parts) })
        const text = await response.text()
        if (response.status >= 500 || faults.length > known) faults.push(`${response.status} of ${asked}`)
        else if (!(String(response.status) in described.responses))
          faults.push(`${response.status}, which is not declared, of ${asked}: ${text.slice(0, 300)}`)
        else if (response.status >= 400) {
          if (!problemSchema.safeParse(JSON.parse(text)).success || /\n\s+at |node_modules|prisma/i.test(text))
            faults.push(`a refusal that is no problem of ${asked}: ${text.slice(0, 300)}`)
        } else if (/json/.test(response.headers.get('content-type') ?? '')) {
          const read = declared.answer.safeParse(JSON.parse(text))
          if (!read.success) faults.push(`an answer other than declared of ${asked}: ${told(read.error.issues.slice(0, 3))}`)
        }
      }
    }
    log.mockRestore()
    expect(faults).toEqual([])
  }, 3_600_000)

  it('has books that still add up', async () => {
    expect(await faultsInBooks(open().prisma)).toEqual(before)
  })
})
