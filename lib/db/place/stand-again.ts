import 'server-only'
import { pathUnder } from '#lib/place/place-tree'
import { textKey } from '#lib/quantity/text-key'
import { ok, type Result, refused } from '#lib/result'
import type { Write } from '../write-gate'
import { retireLabel } from './ensure-place'
import type { PlaceRefusal } from './place-refusal'

/** A place on the map. */
export type Standing = { id: string; path: string }

/**
 * Put a place that is gone back on the map under its label, inside what it stood in, or at the top when that is gone too.
 *
 * @param seen.version  what the person saw; left out, it is taken as it is
 */
export async function standAgain(
  { tx, touch }: Write,
  seen: { id: string; version?: number },
): Promise<Result<Standing, Extract<PlaceRefusal, { kind: 'label-taken' | 'changed-meanwhile' }>>> {
  const { id } = seen
  const place = await tx.place.findFirst({ where: { ...seen, goneAt: { not: null } }, select: { label: true, parentId: true } })
  if (!place) return refused({ kind: 'changed-meanwhile' })
  const labelKey = textKey(place.label)
  const namesake = await tx.place.findUnique({ where: { labelKey }, select: { id: true, goneAt: true } })
  if (namesake && namesake.id !== id) {
    if (namesake.goneAt === null) return refused({ kind: 'label-taken', label: place.label, placeId: namesake.id })
    await retireLabel(tx, labelKey)
  }
  const parent = await tx.place.findFirst({
    where: { id: place.parentId ?? '', goneAt: null },
    select: { id: true, path: true },
  })
  const path = pathUnder(parent, id)
  await tx.place.update({
    where: { id },
    data: { goneAt: null, labelKey, parentId: parent?.id ?? null, path, version: { increment: 1 } },
  })
  touch('place', id)
  return ok({ id, path })
}
