import 'server-only'
import { textKey } from '#lib/quantity/text-key'
import { ok, type Result, refused } from '#lib/result'
import { write } from '../write'
import type { PlaceInput } from './add-place'
import { retireLabel } from './ensure-place'
import { forgetOwnLabel, rememberLabel } from './former-label'
import type { PlaceRefusal } from './place-refusal'
import { writePutUps } from './place-room'

type Refusal = Extract<PlaceRefusal, { kind: 'label-taken' | 'changed-meanwhile' }>

/**
 * Write a place's own card anew: label, name, kind, capacity, turn in the walk, note. Where it stands is for `movePlace`. Its old label is
 * remembered with the day.
 */
export function editPlace(input: PlaceInput & { id: string; version: number }): Promise<Result<null, Refusal>> {
  return write<null, Refusal>(async (open) => {
    const { tx, touch } = open
    const { id, version, putUps, ...place } = input
    const labelKey = textKey(place.label)
    const namesake = await tx.place.findUnique({ where: { labelKey }, select: { id: true, goneAt: true } })
    if (namesake && namesake.id !== id) {
      if (namesake.goneAt === null) return refused({ kind: 'label-taken', label: place.label, placeId: namesake.id })
      await retireLabel(tx, labelKey)
    }
    const before = await tx.place.findUnique({ where: { id }, select: { label: true } })
    const claimed = await tx.place.updateMany({
      where: { id, version, goneAt: null },
      data: { ...place, labelKey, version: { increment: 1 } },
    })
    if (claimed.count === 0) return refused({ kind: 'changed-meanwhile' })
    if (putUps !== undefined) await writePutUps(tx, id, putUps)
    if (before && textKey(before.label) !== labelKey) {
      await forgetOwnLabel(open, { label: place.label, placeId: id })
      await rememberLabel(open, { label: before.label, placeId: id, why: 'renamed' })
    }
    touch('place', id)
    return ok(null)
  })
}
