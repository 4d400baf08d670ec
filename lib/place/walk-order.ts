import { textKey } from '#lib/quantity/text-key'
import { byText } from '#lib/quantity/text-order'
import type { Place } from './place'

/** Compare two runs of digits by the number they write, of any length. */
function compareDigits(a: string, b: string): number {
  const x = a.replace(/^0+/, '')
  const y = b.replace(/^0+/, '')
  return x.length - y.length || byText(x, y)
}

/**
 * Order labels as one walks past them: runs of digits are read as numbers, so T2.1-14 comes before T10.1-03. Case and accents make
 * no difference unless nothing else does; then the exact text decides, so that no two different labels are equal.
 */
export function compareLabels(a: string, b: string): number {
  const x = textKey(a).match(/\d+|\D+/gu) ?? []
  const y = textKey(b).match(/\d+|\D+/gu) ?? []
  for (let i = 0; i < x.length && i < y.length; i++) {
    const [left, right] = [x[i] as string, y[i] as string]
    const areDigits = /^\d/.test(left) && /^\d/.test(right)
    const order = areDigits ? compareDigits(left, right) : byText(left, right)
    if (order !== 0) return order
  }
  return x.length - y.length || byText(a, b)
}

/** Siblings: by walk order where one is set, those without one after them, by label. */
const bySibling = (a: Place, b: Place): number =>
  (a.walkOrder ?? Number.MAX_SAFE_INTEGER) - (b.walkOrder ?? Number.MAX_SAFE_INTEGER) ||
  compareLabels(a.label, b.label) ||
  byText(a.id, b.id)

/**
 * Places in the order one walks past them: each before what is inside it, siblings in walk order, then by label.
 *
 * A place whose parent is not among `places` is walked as if it stood alone. The order handed in makes no difference.
 *
 * @throws {RangeError} if places are inside each other in a circle.
 */
export function walkOrder(places: readonly Place[]): Place[] {
  const ids = new Set(places.map((place) => place.id))
  const childrenOf = new Map<string | null, Place[]>()
  for (const place of places) {
    const parentId = place.parentId !== null && ids.has(place.parentId) ? place.parentId : null
    const siblings = childrenOf.get(parentId)
    if (siblings) siblings.push(place)
    else childrenOf.set(parentId, [place])
  }
  for (const siblings of childrenOf.values()) siblings.sort(bySibling)
  const walked: Place[] = []
  const ahead = [...(childrenOf.get(null) ?? [])].reverse()
  for (let place = ahead.pop(); place; place = ahead.pop()) {
    walked.push(place)
    ahead.push(...[...(childrenOf.get(place.id) ?? [])].reverse())
  }
  if (walked.length !== places.length)
    throw new RangeError(`walkOrder: ${places.length - walked.length} places are inside each other`)
  return walked
}

/** Each place's turn in the walk, for sorting what lies in them. */
export const walkRanks = (places: readonly Place[]): Map<string, number> =>
  new Map(walkOrder(places).map((place, index) => [place.id, index]))
