import 'server-only'
import type { Place } from '#lib/place/place'
import { planMovePlace } from '#lib/place/place-tree'
import { ok, type Result, refused } from '#lib/result'
import { write } from '../write'
import { moveBranch } from './move-branch'
import type { PlaceRefusal } from './place-refusal'
import { placeColumns } from './place-rows'

type Refusal = Extract<PlaceRefusal, { kind: 'no-such-place' | 'inside-itself' | 'already-there' | 'changed-meanwhile' }>

/** Put a place, with all that is inside it, into another or (null) at the top. What lies in it goes along and is not out by that. */
export function movePlace(input: { id: string; version: number; toParentId: string | null }): Promise<Result<null, Refusal>> {
  return write<null, Refusal>(async (open) => {
    const { tx } = open
    const { id, version, toParentId } = input
    const place = await tx.place.findFirst({ where: { id, version, goneAt: null }, select: placeColumns })
    if (!place) return refused({ kind: 'changed-meanwhile' })
    const [branch, parent] = await Promise.all([
      tx.place.findMany({ where: { path: { startsWith: place.path } }, select: placeColumns }),
      toParentId === null ? null : tx.place.findFirst({ where: { id: toParentId, goneAt: null }, select: placeColumns }),
    ])
    const known = new Map([...branch, ...(parent ? [parent] : [])].map((row) => [row.id, row as Place]))
    const plan = planMovePlace(id, toParentId, [...known.values()])
    if (!plan.ok) return plan
    await moveBranch(open, place, parent)
    return ok(null)
  })
}
