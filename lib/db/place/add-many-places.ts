import 'server-only'
import { type LabelPattern, type PatternRefused, parseLabelPattern } from '#lib/place/label-pattern'
import type { PlaceKind } from '#lib/place/place'
import { pathUnder } from '#lib/place/place-tree'
import { type ManyPlan, planManyPlaces } from '#lib/place/plan-many'
import { textKey } from '#lib/quantity/text-key'
import { ok, type Result, refused } from '#lib/result'
import { chunks } from '../bulk-edit/read-bulk-edit'
import { bulkInsert } from '../bulk-insert'
import { database, type Transaction } from '../client'
import { newId } from '../new-id'
import { write } from '../write'
import { retireLabel } from './ensure-place'

export type ManyRequest = {
  pattern: string
  /** What each level is. */
  kinds: readonly PlaceKind[]
  /** What the outermost stand in; null: nothing. */
  parentId: string | null
}

export type ManyRefused =
  | { kind: 'no-pattern'; why: PatternRefused }
  | { kind: 'no-such-place'; placeId: string }
  | { kind: 'clashes'; labels: string[]; count: number }
  | { kind: 'nothing-new' }

export type ManyPreview = ManyPlan & {
  levels: number
  /** Labels to be made that other places had before: the new places have them then. */
  formerly: string[]
}

/** Clashes named in a refusal. */
const named = 5

async function readMany(
  tx: Pick<Transaction, 'place'>,
  request: ManyRequest,
): Promise<Result<{ pattern: LabelPattern; plan: ManyPlan }, ManyRefused>> {
  const read = parseLabelPattern(request.pattern)
  if (!read.ok) return refused({ kind: 'no-pattern', why: read.error })
  const places = await tx.place.findMany({ where: { goneAt: null }, select: { id: true, label: true, parentId: true } })
  const { parentId } = request
  if (parentId !== null && !places.some(({ id }) => id === parentId)) return refused({ kind: 'no-such-place', placeId: parentId })
  return ok({ pattern: read.value, plan: planManyPlaces({ pattern: read.value, kinds: request.kinds, parentId, places }) })
}

/** What a pattern would make, with what is there already; nothing is written. */
export async function previewManyPlaces(request: ManyRequest): Promise<Result<ManyPreview, ManyRefused>> {
  const { prisma } = database()
  const read = await readMany(prisma, request)
  if (!read.ok) return read
  const { pattern, plan } = read.value
  const fresh = plan.lines.filter(({ outcome }) => outcome === 'new')
  const formerly: string[] = []
  for (const some of chunks(fresh)) {
    const rows = await prisma.formerLabel.findMany({
      where: { labelKey: { in: some.map(({ label }) => textKey(label)) }, place: { goneAt: null } },
      select: { label: true },
      distinct: ['labelKey'],
    })
    formerly.push(...rows.map(({ label }) => label))
  }
  return ok({ ...plan, levels: pattern.length, formerly })
}

/** Make every place of a pattern that is not there yet, in one write; refused as a whole where a label stands somewhere else. */
export function addManyPlaces(request: ManyRequest): Promise<Result<{ made: number; there: number }, ManyRefused>> {
  return write<{ made: number; there: number }, ManyRefused>(async ({ tx, engine, touch }) => {
    const read = await readMany(tx, request)
    if (!read.ok) return read
    const { lines, count } = read.value.plan
    const clashes = lines.filter(({ outcome }) => outcome === 'clash').map(({ label }) => label)
    if (clashes.length > 0) return refused({ kind: 'clashes', labels: clashes.slice(0, named), count: clashes.length })
    if (count.new === 0) return refused({ kind: 'nothing-new' })

    const fresh = lines.filter(({ outcome }) => outcome === 'new')
    for (const some of chunks(fresh)) {
      const gone = await tx.place.findMany({
        where: { labelKey: { in: some.map(({ label }) => textKey(label)) }, goneAt: { not: null } },
        select: { labelKey: true },
      })
      for (const { labelKey } of gone) await retireLabel(tx, labelKey)
    }
    const parent =
      request.parentId === null
        ? null
        : await tx.place.findUniqueOrThrow({ where: { id: request.parentId }, select: { id: true, path: true } })
    const standing = await tx.place.findMany({ where: { goneAt: null }, select: { id: true, label: true, path: true } })
    const byKey = new Map<string, { id: string; path: string }>(standing.map((place) => [textKey(place.label), place]))
    const rows = fresh.map(({ label, kind, insideLabel }) => {
      const id = newId()
      const outer = insideLabel === null ? parent : (byKey.get(textKey(insideLabel)) ?? null)
      const labelKey = textKey(label)
      const place = { id, path: pathUnder(outer, id) }
      byKey.set(labelKey, place)
      return { ...place, label, labelKey, kind, parentId: outer?.id ?? null }
    })
    await bulkInsert(tx, engine, 'Place', rows)
    for (const { id } of rows) touch('place', id)
    return ok({ made: rows.length, there: count.there })
  })
}
