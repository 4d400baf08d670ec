import 'server-only'
import { pathUnder } from '#lib/place/place-tree'
import { textKey } from '#lib/quantity/text-key'
import { ok, type Result, refused } from '#lib/result'
import { database } from '../client'
import { write } from '../write'
import { retireLabel } from './ensure-place'
import type { PlaceRefusal } from './place-refusal'

type Refusal = Extract<PlaceRefusal, { kind: 'label-taken' | 'changed-meanwhile' }>

/** Put a place that was removed back on the map, inside what it stood in, or at the top when that was removed too. */
export function restorePlace(input: { id: string; version: number }): Promise<Result<null, Refusal>> {
  return write<null, Refusal>(async ({ tx, touch }) => {
    const { id, version } = input
    const place = await tx.place.findFirst({
      where: { id, version, goneAt: { not: null } },
      select: { label: true, parentId: true },
    })
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
    await tx.place.update({
      where: { id },
      data: {
        goneAt: null,
        labelKey,
        parentId: parent?.id ?? null,
        path: pathUnder(parent, id),
        version: { increment: 1 },
      },
    })
    touch('place', id)
    return ok(null)
  })
}

/** A place that was removed, for putting it back; null when there is none or it stands. */
export const findRemovedPlace = (id: string): Promise<{ id: string; label: string; version: number } | null> =>
  database().prisma.place.findFirst({
    where: { id, goneAt: { not: null } },
    select: { id: true, label: true, version: true },
  })
