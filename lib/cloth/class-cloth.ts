import { grouped } from '#lib/grouped'
import { byText } from '#lib/quantity/text-order'
import type { CutWay } from './cut-plan'
import { mostFrom } from './most-from'

/** A piece on hand that may be cut for a class; `cloth` is the same for pieces that look alike, so that all kits are of one cloth. */
export type ClassPiece = {
  id: string
  cloth: string
  widthUm: number
  heightUm: number
  isOffcut: boolean
  /** How one kit's cut may lie on it; none, and it gives none. */
  ways: readonly CutWay[]
}

export type ClassCloth = {
  wanted: number
  /** The cloth all kits are cut from; null when none on hand gives any. */
  cloth: string | null
  /** The pieces to cut, offcuts first: how many each would give (at most all that are wanted), and how many of them are taken. */
  from: { pieceId: string; gives: number; takes: number }[]
  onHand: number
  /** How many are left to be bought. */
  toBuy: number
  /** How many more the other cloths on hand would give, which look different. */
  otherCloths: { cloth: string; gives: number }[]
  /** Every piece's figure is proved to be the most it gives. */
  isProved: boolean
}

type Yield = ClassPiece & { gives: number; areaUm2: number }

/**
 * Which pieces on hand to cut for so many kits that all take the same cut, and how many are then left to buy for.
 *
 * All come from one cloth: the one that gives them all and of which the least whole cloth is cut into, or, where none gives them all,
 * the one that gives most. Among its pieces, those that together give enough with the least whole cloth cut into, and then the least
 * offcut; found by going through every total from nought to what is wanted, so none is better. Reserved pieces are for the caller to
 * leave out.
 *
 * The order of `pieces` makes no difference. O(pieces × wanted).
 */
export function planClassCloth(wanted: number, pieces: readonly ClassPiece[], gapUm: number): ClassCloth {
  if (!(Number.isSafeInteger(wanted) && wanted > 0)) throw new RangeError(`planClassCloth: ${wanted} wanted`)
  let isProved = true
  const known = new Map<string, number>()
  const yields = pieces.flatMap((piece): Yield[] => {
    const { widthUm, heightUm, ways } = piece
    const shape = JSON.stringify([widthUm, heightUm, ways])
    let gives = known.get(shape)
    if (gives === undefined) {
      const most = mostFrom(piece, ways, { gapUm, enough: wanted })
      gives = most.copies
      isProved &&= most.isProved
      known.set(shape, gives)
    }
    return gives > 0 ? [{ ...piece, gives, areaUm2: widthUm * heightUm }] : []
  })
  const choices = [...grouped(yields, ({ cloth }) => cloth)]
    .map(([cloth, own]) => {
      const from = fewest(wanted, own)
      const gives = own.reduce((sum, one) => sum + one.gives, 0)
      const wholeUm2 = from.reduce((sum, one) => sum + (one.isOffcut ? 0 : one.areaUm2), 0)
      return { cloth, from, gives, wholeUm2 }
    })
    .sort((a, b) => Math.min(b.gives, wanted) - Math.min(a.gives, wanted) || a.wholeUm2 - b.wholeUm2 || byText(a.cloth, b.cloth))
  const [chosen, ...others] = choices
  let left = wanted
  const from = (chosen?.from ?? []).map(({ id, gives }) => {
    const takes = Math.min(gives, left)
    left -= takes
    return { pieceId: id, gives, takes }
  })
  return {
    wanted,
    cloth: chosen?.cloth ?? null,
    from,
    onHand: wanted - left,
    toBuy: left,
    otherCloths: others.map(({ cloth, gives }) => ({ cloth, gives })),
    isProved,
  }
}

/** Pieces that together give at least so many: the least whole cloth, then the least offcut; all of them where they do not reach. */
function fewest(wanted: number, pieces: readonly Yield[]): Yield[] {
  const sorted = [...pieces].sort(
    (a, b) => Number(b.isOffcut) - Number(a.isOffcut) || b.gives - a.gives || a.areaUm2 - b.areaUm2 || byText(a.id, b.id),
  )
  if (sorted.reduce((sum, { gives }) => sum + gives, 0) <= wanted) return sorted
  // By total reached, at most what is wanted: the least cut into, and which piece came last.
  const whole = new Float64Array(wanted + 1).fill(Number.POSITIVE_INFINITY)
  const offcut = new Float64Array(wanted + 1).fill(Number.POSITIVE_INFINITY)
  whole[0] = 0
  offcut[0] = 0
  const taken = sorted.map(() => new Uint8Array(wanted + 1))
  sorted.forEach(({ gives, isOffcut, areaUm2 }, at) => {
    const took = taken[at] as Uint8Array
    for (let total = wanted; total > 0; total--) {
      const before = Math.max(0, total - gives)
      const wholeUm2 = (whole[before] as number) + (isOffcut ? 0 : areaUm2)
      const offcutUm2 = (offcut[before] as number) + (isOffcut ? areaUm2 : 0)
      const isLess = wholeUm2 < (whole[total] as number) || (wholeUm2 === whole[total] && offcutUm2 < (offcut[total] as number))
      if (!isLess) continue
      whole[total] = wholeUm2
      offcut[total] = offcutUm2
      took[total] = 1
    }
  })
  const chosen: Yield[] = []
  let total = wanted
  for (let at = sorted.length - 1; at >= 0 && total > 0; at--) {
    if ((taken[at] as Uint8Array)[total] !== 1) continue
    const piece = sorted[at] as Yield
    chosen.unshift(piece)
    total = Math.max(0, total - piece.gives)
  }
  return chosen
}
