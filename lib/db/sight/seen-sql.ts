import { columnOf, relations } from './relations'
import { targetOf } from './seen-where'
import { isShared, sightRules } from './sight-rules'

const quoted = (ids: readonly string[]): string => ids.map((id) => `'${id.replaceAll("'", "''")}'`).join(', ') || 'NULL'

/** What a row has to be to be seen, as SQL names it; the models it asks about come before it. */
function conditionOf(model: string, ownerIds: readonly string[]): { sql: string; asks: string[] } {
  const rule = sightRules[model]
  if (rule === undefined) throw new RangeError(`seenSql: whose rows of ${model} are is not said`)
  if (rule === 'shared') return { sql: '1 = 1', asks: [] }
  if (rule === 'keepers') return { sql: '1 = 0', asks: [] }
  const all: string[] = []
  const asks: string[] = []
  if (rule.by) all.push(`"${rule.by}" IN (${quoted(ownerIds)})`)
  for (const relation of rule.with ?? []) {
    const { model: target, isOptional } = targetOf(model, relation) as { model: string; isOptional: boolean }
    const column = `"${columnOf(relation)}"`
    asks.push(target)
    all.push(`(${isOptional ? `${column} IS NULL OR ` : ''}${column} IN (SELECT "id" FROM "${target}"))`)
  }
  for (const relation of rule.every ?? []) {
    const target = targetOf(model, relation)?.model as string
    const back = Object.entries(relations[target]?.one ?? {}).find(([, to]) => to.replace('?', '') === model)?.[0] as string
    const of = (rows: string) => `SELECT COUNT(*) FROM ${rows} x WHERE x."${columnOf(back)}" = o."id"`
    asks.push(target)
    all.push(`(${of(`{${target}}`)}) = (${of(`"${target}"`)})`)
  }
  return { sql: all.join(' AND '), asks }
}

/**
 * The same SELECT over only those rows that these owners' viewers see: every table it names that holds some owner's goods is read through
 * a common table expression of that name. Models it does not name cost nothing.
 */
export function seenSql(sql: string, ownerIds: readonly string[], engine: 'sqlite' | 'postgresql'): string {
  if (/^\s*WITH\b/i.test(sql)) throw new RangeError('seenSql: a statement that begins with WITH cannot be read through another')
  const table = (model: string) => (engine === 'sqlite' ? `main."${model}"` : `"${model}"`)
  const seen = new Map<string, string>()
  // PostgreSQL takes a name for the table itself only before it is given to an expression.
  const place = (model: string) => {
    if (seen.has(model) || !(model in sightRules) || isShared(model)) return
    const { sql: condition, asks } = conditionOf(model, ownerIds)
    for (const asked of asks) place(asked)
    seen.set(model, condition)
  }
  for (const [, model] of sql.matchAll(/"([A-Z]\w*)"/g)) place(model as string)
  if (seen.size === 0) return sql
  const whole = (model: string) => `whole${model}`
  const wholes = new Set<string>()
  const parts = [...seen].map(([model, condition]) => {
    const read = condition.replace(/\{(\w+)\}/g, (_, asked: string) => {
      wholes.add(asked)
      return whole(asked)
    })
    return `"${model}" AS (SELECT * FROM ${table(model)} o WHERE ${read})`
  })
  const before = [...wholes].map((model) => `${whole(model)} AS (SELECT * FROM ${table(model)})`)
  return `WITH ${[...before, ...parts].join(', ')} ${sql}`
}
