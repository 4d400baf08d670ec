import 'server-only'
import type { PutUpRoom } from '#lib/place/capacity'
import type { PlaceKind } from '#lib/place/place'
import { pathUnder } from '#lib/place/place-tree'
import { textKey } from '#lib/quantity/text-key'
import { ok, type Result, refused } from '#lib/result'
import { newId } from '../new-id'
import { write } from '../write'
import { retireLabel } from './ensure-place'
import type { PlaceRefusal } from './place-refusal'
import { writePutUps } from './place-room'

export type PlaceInput = {
  label: string
  name: string | null
  kind: PlaceKind
  walkOrder: number | null
  capacity: number | null
  note: string | null
  /** How many of each kind of put-up it takes; left out, what was said before stays. */
  putUps?: readonly PutUpRoom[]
}

type Refusal = Extract<PlaceRefusal, { kind: 'label-taken' | 'no-such-place' }>

/** A new place, inside another or (null) at the top. Its label is its own, however it is spelt. */
export function addPlace(input: PlaceInput & { parentId: string | null }): Promise<Result<{ id: string }, Refusal>> {
  return write<{ id: string }, Refusal>(async ({ tx, touch }) => {
    const { parentId, putUps = [], ...place } = input
    const labelKey = textKey(place.label)
    const namesake = await tx.place.findUnique({ where: { labelKey }, select: { id: true, goneAt: true } })
    if (namesake && namesake.goneAt === null) return refused({ kind: 'label-taken', label: place.label, placeId: namesake.id })
    const parent =
      parentId === null ? null : await tx.place.findFirst({ where: { id: parentId, goneAt: null }, select: { path: true } })
    if (parentId !== null && !parent) return refused({ kind: 'no-such-place', placeId: parentId })
    if (namesake) await retireLabel(tx, labelKey)
    const id = newId()
    await tx.place.create({ data: { ...place, id, labelKey, parentId, path: pathUnder(parent, id) } })
    await writePutUps(tx, id, putUps)
    touch('place', id)
    return ok({ id })
  })
}
