import { relations } from './relations'
import { columnKinds, impliesSeen, seenWhere, targetOf, type Where } from './seen-where'
import { isShared } from './sight-rules'

type Args = Record<string, unknown>

const isPlain = (value: unknown): value is Args =>
  typeof value === 'object' && value !== null && !Array.isArray(value) && !(value instanceof Date)

const both = (where: unknown, seen: Where | null): unknown =>
  seen === null ? where : where === undefined ? seen : { AND: [where, seen] }

/**
 * A condition as it may be asked: where shared rows (a thread, a place) are asked for by goods that name them, only goods that are seen
 * count. From one owner's goods on, nothing is taken away: a piece somebody else works on is not free for that.
 */
function sightedWhere(model: string, where: unknown, ownerIds: readonly string[]): unknown {
  if (Array.isArray(where)) return where.map((one) => sightedWhere(model, one, ownerIds))
  if (!isPlain(where)) return where
  const made: Args = {}
  for (const [key, value] of Object.entries(where)) {
    const target = targetOf(model, key)
    if (['AND', 'OR', 'NOT'].includes(key)) made[key] = sightedWhere(model, value, ownerIds)
    else if (!target || !isPlain(value)) made[key] = value
    else if (relations[model]?.many?.[key]) {
      const seen = isShared(model) ? seenWhere(target.model, ownerIds) : null
      made[key] = Object.fromEntries(
        Object.entries(value).map(([how, asked]) => {
          const inner = sightedWhere(target.model, asked, ownerIds)
          if (seen === null || asked === undefined) return [how, inner]
          return [how, how === 'every' ? { OR: [inner, { NOT: seen }] } : both(inner, seen)]
        }),
      )
    } else if ('is' in value || 'isNot' in value) {
      made[key] = Object.fromEntries(
        Object.entries(value).map(([how, asked]) => [how, sightedWhere(target.model, asked, ownerIds)]),
      )
    } else made[key] = sightedWhere(target.model, value, ownerIds)
  }
  return made
}

/** Readings of an id that was not asked for. */
const idsAdded = new WeakSet<object>()

function withId(select: Args): Args {
  const made = { ...select, id: true }
  idsAdded.add(made)
  return made
}

/** What of a row is read: goods that name it only where they are seen, and of what it names the id, to see whether that is. */
function sightedPick(model: string, picked: Args, ownerIds: readonly string[]): Args {
  const made: Args = {}
  for (const [key, value] of Object.entries(picked)) {
    const target = targetOf(model, key)
    if (key === '_count') made[key] = sightedCount(model, value, ownerIds)
    else if (!target || value === undefined || value === false) made[key] = value
    else if (relations[model]?.many?.[key]) {
      const inner = sightedRead(target.model, isPlain(value) ? value : {}, ownerIds)
      const where = both(inner.where, seenWhere(target.model, ownerIds))
      made[key] = where === undefined ? inner : { ...inner, where }
    } else if (isPlain(value)) {
      const inner = sightedRead(target.model, value, ownerIds)
      const select = inner.select as Args | undefined
      made[key] = select && !select.id && !impliesSeen(model, key) ? { ...inner, select: withId(select) } : inner
    } else made[key] = value
  }
  return made
}

function sightedCount(model: string, value: unknown, ownerIds: readonly string[]): unknown {
  const asked = isPlain(value) && isPlain(value.select) ? value.select : null
  const many = Object.keys(relations[model]?.many ?? {})
  const select = asked ?? Object.fromEntries(many.map((relation) => [relation, true]))
  return {
    select: Object.fromEntries(
      Object.entries(select).map(([relation, how]) => {
        const target = targetOf(model, relation)
        const seen = target && seenWhere(target.model, ownerIds)
        if (!seen || !how) return [relation, how]
        return [relation, { where: both(isPlain(how) ? how.where : undefined, seen) }]
      }),
    ),
  }
}

/** The arguments of a reading of some model's rows, but for the condition of the rows themselves. */
function sightedRead(model: string, args: Args, ownerIds: readonly string[]): Args {
  const made: Args = { ...args }
  if (args.where !== undefined) made.where = sightedWhere(model, args.where, ownerIds)
  for (const key of ['select', 'include'] as const) if (isPlain(args[key])) made[key] = sightedPick(model, args[key], ownerIds)
  return made
}

/** The arguments of an operation as they are sent for those who see only these owners' goods. */
export function sightedArgs(model: string, operation: string, given: unknown, ownerIds: readonly string[]): Args {
  const args = sightedRead(model, isPlain(given) ? given : {}, ownerIds)
  const seen = seenWhere(model, ownerIds)
  if (seen === null || operation === 'create' || operation === 'createMany') return args
  const isByKey = ['findUnique', 'findUniqueOrThrow', 'update', 'delete', 'upsert'].includes(operation)
  if (!isByKey) return { ...args, where: both(args.where, seen) }
  // A key has to stay where it is; what is asked besides goes beside it.
  const where = args.where as Where
  const beside = where.AND === undefined ? [] : Array.isArray(where.AND) ? where.AND : [where.AND]
  return { ...args, where: { ...where, AND: [...beside, seen] } }
}

/** A row found by a relation: where it hangs, and what of it was read. */
export type Named = { holder: Args; relation: string; model: string; isOptional: boolean; row: Args; isIdAdded: boolean }

/** Everything in an answer that its row names and that may be unseen. */
export function namedRows(model: string, args: Args, answer: unknown, found: Named[] = []): Named[] {
  if (Array.isArray(answer)) {
    for (const row of answer) namedRows(model, args, row, found)
    return found
  }
  if (!isPlain(answer)) return found
  for (const key of ['select', 'include'] as const) {
    const picked = args[key]
    if (!isPlain(picked)) continue
    for (const [relation, how] of Object.entries(picked)) {
      const target = targetOf(model, relation)
      const row = answer[relation]
      if (!target || row === null || row === undefined) continue
      if (!impliesSeen(model, relation) && isPlain(row) && !relations[model]?.many?.[relation])
        found.push({ holder: answer, relation, ...target, row, isIdAdded: isPlain(how) && idsAdded.has(how.select as object) })
      if (isPlain(how)) namedRows(target.model, how, row, found)
    }
  }
  return found
}

const veil = 'another owner’s'
/** Columns that say how things stand and nothing of what they are. */
const plainColumns = /^(?:id|.*Id|status|kind|role|weave|.*Certainty|version|quantity|spares|position)$/

/** What stands for a row that must be named and may not be seen: how it stands, and no word or figure of its own. */
export function veiled(model: string, row: Args): Args {
  const kinds = columnKinds(model)
  return Object.fromEntries(
    Object.entries(row).map(([key, value]) => {
      const target = targetOf(model, key)
      if (Array.isArray(value)) return [key, []]
      if (key === '_count' && isPlain(value)) return [key, Object.fromEntries(Object.keys(value).map((name) => [name, 0]))]
      if (target) return [key, isPlain(value) && !isShared(target.model) ? veiled(target.model, value) : value]
      const kind = kinds[key]
      if (plainColumns.test(key) || kind === undefined || value === null) return [key, value]
      if (kind.endsWith('?')) return [key, kind === 'moment?' ? value : null]
      if (kind === 'text' || kind === 'file') return [key, /Json$/.test(key) ? 'null' : veil]
      return [key, kind === 'whole' || kind === 'real' ? 0 : value]
    }),
  )
}
