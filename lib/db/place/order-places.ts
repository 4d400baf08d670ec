import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { write } from '../write'
import type { PlaceRefusal } from './place-refusal'

/**
 * Set the order one walks past the places that stand right inside another (null: in nothing), in one write.
 *
 * @param input.placeIds  all of them, first to last; null: by their labels again
 * @returns `changed-meanwhile` when they are not just the places that stand there now
 */
export function orderPlaces(input: {
  parentId: string | null
  placeIds: readonly string[] | null
}): Promise<Result<{ moved: number }, Extract<PlaceRefusal, { kind: 'changed-meanwhile' }>>> {
  return write<{ moved: number }, Extract<PlaceRefusal, { kind: 'changed-meanwhile' }>>(async ({ tx, touch }) => {
    const { parentId, placeIds } = input
    const rows = await tx.place.findMany({ where: { parentId, goneAt: null }, select: { id: true, walkOrder: true } })
    const standing = new Map(rows.map(({ id, walkOrder }) => [id, walkOrder]))
    const wanted = new Map((placeIds ?? []).map((id, index) => [id, index + 1]))
    if (placeIds !== null) {
      const areSame = wanted.size === placeIds.length && wanted.size === standing.size && placeIds.every((id) => standing.has(id))
      if (!areSame) return refused({ kind: 'changed-meanwhile' })
    }
    let moved = 0
    for (const [id, before] of standing) {
      const walkOrder = wanted.get(id) ?? null
      if (walkOrder === before) continue
      await tx.place.update({ where: { id }, data: { walkOrder, version: { increment: 1 } } })
      touch('place', id)
      moved++
    }
    return ok({ moved })
  })
}
