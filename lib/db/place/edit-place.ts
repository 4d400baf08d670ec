import 'server-only'
import { textKey } from '#lib/quantity/text-key'
import { ok, type Result, refused } from '#lib/result'
import { write } from '../write'
import type { PlaceInput } from './add-place'
import { retireLabel } from './ensure-place'
import type { PlaceRefusal } from './place-refusal'

type Refusal = Extract<PlaceRefusal, { kind: 'label-taken' | 'changed-meanwhile' }>

/** Write a place's own card anew: label, name, kind, capacity, turn in the walk, note. Where it stands is for `movePlace`. */
export function editPlace(input: PlaceInput & { id: string; version: number }): Promise<Result<null, Refusal>> {
  return write<null, Refusal>(async ({ tx, touch }) => {
    const { id, version, ...place } = input
    const labelKey = textKey(place.label)
    const namesake = await tx.place.findUnique({ where: { labelKey }, select: { id: true, goneAt: true } })
    if (namesake && namesake.id !== id) {
      if (namesake.goneAt === null) return refused({ kind: 'label-taken', label: place.label, placeId: namesake.id })
      await retireLabel(tx, labelKey)
    }
    const claimed = await tx.place.updateMany({
      where: { id, version, goneAt: null },
      data: { ...place, labelKey, version: { increment: 1 } },
    })
    if (claimed.count === 0) return refused({ kind: 'changed-meanwhile' })
    touch('place', id)
    return ok(null)
  })
}
