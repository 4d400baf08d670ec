import type { Certainty } from '#lib/quantity/certainty'
import type { Count } from '#lib/quantity/count'

/** Block cloth (aida and its kin) is worked over its blocks; single-thread cloths are evenweave and linen. */
export const weaves = ['block', 'single'] as const
export type Weave = (typeof weaves)[number]

/** A piece of cloth held. Width lies along the weft (across the ends), height along the warp (across the picks). */
export type ClothPiece = {
  id: string
  ownerId: string
  label: string | null
  name: string
  colourName: string | null
  weave: Weave
  /** Warp threads counted going sideways. */
  ends: Count
  /** Weft threads counted going up. */
  picks: Count
  widthUm: number
  heightUm: number
  /** True when the size was measured after squaring; a nominal size is judged as it stands and says "square it first". */
  isSquared: boolean
  sizeCertainty: Certainty
  isTurnable: boolean
  isReserved: boolean
  /** An offcut is chosen before a whole piece. */
  isOffcut: boolean
  homePlaceId: string | null
  currentPlaceId: string | null
}
