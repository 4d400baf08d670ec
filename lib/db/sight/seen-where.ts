import { archiveTables } from '#lib/archive/tables'
import { columnOf, relations } from './relations'
import { isShared, sightRules } from './sight-rules'

export type Where = Record<string, unknown>

const kindsOf = new Map(archiveTables.map(({ name, columns }) => [name, columns]))

/** The model a relation leads to, and whether it need not lead anywhere. */
export function targetOf(model: string, relation: string): { model: string; isOptional: boolean } | null {
  const { one, many, back } = relations[model] ?? {}
  const found = one?.[relation] ?? many?.[relation] ?? back?.[relation]
  if (found === undefined) return null
  return { model: found.replace('?', ''), isOptional: found.endsWith('?') || back?.[relation] !== undefined }
}

/** Columns of a model, by what they hold; none of the tables that say nothing of the collection. */
export const columnKinds = (model: string): Readonly<Record<string, string>> => kindsOf.get(model) ?? {}

const nothing: Where = { id: { in: [] } }

/**
 * What a row has to be for these owners' viewers to see it, as Prisma asks for it; null where every row is seen.
 *
 * @throws {RangeError} for a model that has no place in `sightRules`
 */
export function seenWhere(model: string, ownerIds: readonly string[]): Where | null {
  const rule = sightRules[model]
  if (rule === undefined) throw new RangeError(`seenWhere: whose rows of ${model} are is not said`)
  if (rule === 'shared') return null
  if (rule === 'keepers') return nothing
  const all: Where[] = []
  if (rule.by) all.push({ [rule.by]: ownerIds.length === 1 ? ownerIds[0] : { in: [...ownerIds] } })
  for (const relation of rule.with ?? []) {
    const target = targetOf(model, relation)
    if (!target) throw new RangeError(`seenWhere: ${model} has no ${relation}`)
    const seen = seenWhere(target.model, ownerIds)
    if (seen) all.push(target.isOptional ? { OR: [{ [columnOf(relation)]: null }, { [relation]: seen }] } : { [relation]: seen })
  }
  for (const relation of rule.every ?? []) {
    const seen = seenWhere(targetOf(model, relation)?.model ?? '', ownerIds)
    if (seen) all.push({ [relation]: { every: seen } })
  }
  return all.length === 1 ? (all[0] as Where) : { AND: all }
}

/** Whether a seen row of a model always names a seen row by a relation. */
export function impliesSeen(model: string, relation: string): boolean {
  const rule = sightRules[model]
  const target = targetOf(model, relation)
  if (!target || isShared(target.model)) return true
  if (typeof rule !== 'object') return false
  if (relations[model]?.back?.[relation]) return true
  return ((rule.with ?? []) as readonly string[]).includes(relation) || (rule.by === 'ownerId' && relation === 'owner')
}
