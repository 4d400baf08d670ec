import { readdirSync } from 'node:fs'
import path from 'node:path'
import { apiDocument } from '#api/document'
import type { operations } from '#api/operations'
import type { Handler } from '#api/serve'
import { archiveTables } from '#lib/archive/tables'
import type { Database } from '#lib/db/client'
import { readSnapshot } from '#lib/db/read-snapshot'
import type { Random } from '#seed/random'
import { hostileValue, type Pool, type Schema } from './hostile-values'

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

type Declared = (typeof operations)[number]
export const describedAs = (declared: Declared): Described => document.paths[declared.path]?.[declared.method] as Described

const folder = path.join(import.meta.dirname, '../../app/api/v1')
const routeFiles = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter(
  (file) => path.basename(file) === 'route.ts' && !file.includes('[[...'),
)
const addressOf = (file: string) => `/${path.dirname(file).split(path.sep).join('/')}`.replace(/\[(\w+)\]/g, '{$1}')

/** What answers each operation, by method and address. */
export async function apiHandlers(): Promise<Map<string, Handler>> {
  const found = new Map<string, Handler>()
  for (const file of routeFiles) {
    const route = (await import(path.join(folder, file))) as Record<'GET' | 'POST', Handler>
    for (const method of ['GET', 'POST'] as const) found.set(`${method} ${addressOf(file)}`, route[method])
  }
  return found
}

/** Every id there is, of whatever it is, and what places and people are called. */
export async function poolOf(database: Database): Promise<Pool> {
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

type AnyCall = { parts: Record<string, string>; query: URLSearchParams; body: string | undefined }

/** One call of an operation with anything its schema might take. */
export function anyCall(declared: Declared, { random, pool }: { random: Random; pool: Pool }): AnyCall {
  const described = describedAs(declared)
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
  return { parts, query, body: schema && JSON.stringify(value(schema)) }
}

/** Send a call to the handler that answers it. */
export function send(handlers: Map<string, Handler>, declared: Declared, { parts, query, body }: AnyCall): Promise<Response> {
  const request = new Request(`http://127.0.0.1:4270/api/v1/asked?${query}`, {
    method: declared.method.toUpperCase(),
    ...(body !== undefined && { body, headers: { 'content-type': 'application/json' } }),
  })
  const handler = handlers.get(`${declared.method.toUpperCase()} ${declared.path}`) as Handler
  return handler(request, { params: Promise.resolve(parts) })
}
