import type { Place } from './place'
import { walkOrder } from './walk-order'

/**
 * Whether two places stand next to each other: inside the same one, with none between them in walking order.
 *
 * @param places  all there are inside what is asked about; two that are not among them are never side by side
 */
export function sideBySide(places: readonly Place[]): (placeId: string, otherId: string) => boolean {
  const turns = new Map<string, { parentId: string | null; turn: number }>()
  const taken = new Map<string | null, number>()
  for (const { id, parentId } of walkOrder(places)) {
    const turn = taken.get(parentId) ?? 0
    taken.set(parentId, turn + 1)
    turns.set(id, { parentId, turn })
  }
  return (placeId, otherId) => {
    const [one, other] = [turns.get(placeId), turns.get(otherId)]
    return one !== undefined && other !== undefined && one.parentId === other.parentId && Math.abs(one.turn - other.turn) === 1
  }
}
