import type { Lab } from '#lib/colour/lab'
import type { Certainty } from '#lib/quantity/certainty'
import type { Count } from '#lib/quantity/count'

/** Block cloth (aida and its kin) is worked over its blocks; single-thread cloths are evenweave and linen. */
export const weaves = ['block', 'single'] as const
export type Weave = (typeof weaves)[number]

/** How cloth came by its colour; hand-dyed cloth is mottled, and the dye may run one way. */
export const clothDyeings = ['plain', 'dyed', 'hand-dyed'] as const
export type ClothDyeing = (typeof clothDyeings)[number]

/** `new` was never washed; `never` is not to be washed at all. */
export const washStates = ['unknown', 'new', 'washed', 'never'] as const
export type WashState = (typeof washStates)[number]

/** Why a piece may not be turned. */
export const oneWayReasons = ['count', 'dye', 'grid', 'stripe', 'slubs', 'drawn work', 'nap'] as const
export type OneWayReason = (typeof oneWayReasons)[number]

/** A piece of cloth held. Width lies along the weft (across the ends), height along the warp (across the picks). */
export type ClothPiece = {
  id: string
  ownerId: string
  label: string | null
  name: string
  colourName: string | null
  lab: Lab | null
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
  dyeing: ClothDyeing | null
  /** Washed cloth has shrunk already, and cloth that is never washed will not. */
  washState: WashState
  /** Washed since its threads were counted: count them again. */
  isCountStale: boolean
  isReserved: boolean
  /** An offcut is chosen before a whole piece. */
  isOffcut: boolean
  homePlaceId: string | null
  currentPlaceId: string | null
}
