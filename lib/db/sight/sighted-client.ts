import 'server-only'
import type { Prisma, PrismaClient } from '../generated/sqlite/client'
import { NotSeen } from './not-seen'
import { columnOf } from './relations'
import { seenSql } from './seen-sql'
import { seenWhere, targetOf } from './seen-where'
import { isShared, type SightRule, sightRules } from './sight-rules'
import { type Named, namedRows, sightedArgs, veiled } from './sighted-args'

type Rows = Record<string, unknown>[]
type Delegate = Record<string, (args?: unknown) => Promise<unknown>>
type Transaction = Prisma.TransactionClient
type Client = PrismaClient | Transaction

const models = new Map(Object.keys(sightRules).map((model) => [`${model[0]?.toLowerCase()}${model.slice(1)}`, model]))
const answerRows = new Set([
  ...['findMany', 'findFirst', 'findFirstOrThrow', 'findUnique', 'findUniqueOrThrow'],
  ...['create', 'update', 'upsert', 'delete'],
])
const operations = new Set([...answerRows, 'count', 'aggregate', 'groupBy', 'createMany', 'updateMany', 'deleteMany'])
/** Ids in one statement: SQLite takes no more than 999 parameters. */
const idsAtATime = 400

type Sight = { whole: Client; ownerIds: readonly string[] }

/** By which a client tells what it sees, also through another that stands before it. */
const sight = Symbol.for('chart larder: what a client sees')
const sightOf = (client: object): Sight | undefined => Reflect.get(client, sight) as Sight | undefined

const delegateOf = (client: Client, model: string): Delegate =>
  (client as unknown as Record<string, Delegate>)[`${model[0]?.toLowerCase()}${model.slice(1)}`] as Delegate

/** Which of these rows are seen. */
async function seenIds(client: Client, model: string, ids: readonly string[], ownerIds: readonly string[]): Promise<Set<string>> {
  const seen = seenWhere(model, ownerIds)
  if (seen === null) return new Set(ids)
  const found = new Set<string>()
  const asked = [...new Set(ids)]
  for (let from = 0; from < asked.length; from += idsAtATime) {
    const where = { AND: [{ id: { in: asked.slice(from, from + idsAtATime) } }, seen] }
    const rows = (await delegateOf(client, model).findMany?.({ where, select: { id: true } })) as { id: string }[]
    for (const { id } of rows) found.add(id)
  }
  return found
}

/** Take out of an answer what its rows name and may not be seen. */
async function takeOut(client: Client, named: readonly Named[], ownerIds: readonly string[]): Promise<void> {
  const ids = new Map<string, string[]>()
  for (const { model, row } of named) ids.set(model, [...(ids.get(model) ?? []), String(row.id)])
  const seen = new Map<string, Set<string>>()
  for (const [model, some] of ids) seen.set(model, await seenIds(client, model, some, ownerIds))
  for (const { holder, relation, model, isOptional, row, isIdAdded } of named) {
    if (!seen.get(model)?.has(String(row.id))) holder[relation] = isOptional ? null : veiled(model, row)
    if (isIdAdded) delete (holder[relation] as { id?: unknown } | null)?.id
  }
}

/**
 * Refuse rows that would not be seen once they are written.
 *
 * @throws {NotSeen}
 */
export async function refuseUnseen(
  client: Client,
  model: string,
  written: readonly Record<string, unknown>[],
  ownerIds: readonly string[],
): Promise<void> {
  const rule = sightRules[model] as SightRule
  if (typeof rule !== 'object') return
  if (rule.by)
    for (const row of written) {
      const id = row[rule.by]
      if (typeof id === 'string' && !ownerIds.includes(id)) throw new NotSeen(model)
    }
  for (const relation of rule.with ?? []) {
    const target = targetOf(model, relation)?.model as string
    const ids = written.flatMap((row) => (typeof row[columnOf(relation)] === 'string' ? [row[columnOf(relation)] as string] : []))
    if (ids.length === 0 || isShared(target)) continue
    const seen = await seenIds(client, target, ids, ownerIds)
    if (ids.some((id) => !seen.has(id))) throw new NotSeen(target)
  }
}

function sightedDelegate(client: Client, model: string, ownerIds: readonly string[]): Delegate {
  const whole = delegateOf(client, model)
  return new Proxy(whole, {
    get(target, name) {
      const operation = String(name)
      const call = Reflect.get(target, name) as unknown
      if (typeof call !== 'function') return call
      if (!operations.has(operation)) throw new TypeError(`sightedClient: ${model}.${operation} is not held to what may be seen`)
      return async (given?: unknown): Promise<unknown> => {
        const args = sightedArgs(model, operation, given, ownerIds)
        const { data, create, update } = args as { data?: unknown; create?: unknown; update?: unknown }
        const written = [data, create, update].flat().filter(Boolean) as Rows
        if (written.length > 0) await refuseUnseen(client, model, written, ownerIds)
        const answer = await call.call(target, args)
        if (answerRows.has(operation)) await takeOut(client, namedRows(model, args, answer), ownerIds)
        return answer
      }
    },
  })
}

/**
 * The same client for somebody who sees only these owners' goods: what is not seen is not found, counted or changed, and cannot be
 * made. Where shared rows stand among the goods (a place, a thread) they show what is seen of them. It has no connection of its own.
 *
 * SQL of one's own that writes (`$executeRaw…`) is sent as it is: its few files say how they hold to this.
 */
export function sightedClient<C extends Client>(client: C, ownerIds: readonly string[], engine: 'sqlite' | 'postgresql'): C {
  const delegates = new Map<string, Delegate>()
  return new Proxy(client, {
    get(target, name) {
      if (name === sight) return { whole: client, ownerIds } satisfies Sight
      const model = typeof name === 'string' ? models.get(name) : undefined
      if (model !== undefined) {
        const known = delegates.get(model) ?? sightedDelegate(client, model, ownerIds)
        delegates.set(model, known)
        return known
      }
      const value = Reflect.get(target, name, target) as unknown
      if (typeof value !== 'function') return value
      if (name === '$transaction')
        return (work: unknown, options?: object) => {
          if (typeof work !== 'function') throw new TypeError('sightedClient: a transaction is a function here')
          return value.call(target, (tx: Transaction) => work(sightedClient(tx, ownerIds, engine)), options)
        }
      if (name === '$queryRawUnsafe')
        return (sql: string, ...values: unknown[]) => value.call(target, seenSql(sql, ownerIds, engine), ...values)
      if (name === '$queryRaw' || name === '$extends')
        throw new TypeError(`sightedClient: ${name} is not held to what may be seen; ask by $queryRawUnsafe`)
      return value.bind(target)
    },
  })
}

/** Whose goods a client sees; null for everybody's. */
export const ownersSeenBy = (client: object): readonly string[] | null => sightOf(client)?.ownerIds ?? null

/**
 * The same client, seeing everything: for what is the house's and holds everybody's goods (is a drawer empty? what moves along with it?),
 * never for what is shown.
 */
export const beyondSight = <C extends object>(client: C): C => (sightOf(client)?.whole as unknown as C | undefined) ?? client
