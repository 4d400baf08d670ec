import 'server-only'
import { pathUnder } from '#lib/place/place-tree'
import { textKey } from '#lib/quantity/text-key'
import { newId } from '../new-id'
import type { Write } from '../write-gate'

export const notFoundLabel = 'Not found'

/**
 * The record's own place for what was looked for in vain, made the first time something is. It is known by its kind: where somebody
 * has a drawer with that label already, another label is taken.
 */
export async function ensureNotFoundPlace({ tx, touch }: Pick<Write, 'tx' | 'touch'>): Promise<string> {
  const found = await tx.place.findFirst({
    where: { kind: 'not found', goneAt: null },
    select: { id: true },
    orderBy: { id: 'asc' },
  })
  if (found) return found.id
  const id = newId()
  const isTaken = (await tx.place.count({ where: { labelKey: textKey(notFoundLabel) } })) > 0
  const label = isTaken ? `${notFoundLabel} (on record)` : notFoundLabel
  await tx.place.create({ data: { id, label, labelKey: textKey(label), kind: 'not found', path: pathUnder(null, id) } })
  touch('place', id)
  return id
}
