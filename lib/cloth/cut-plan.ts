import type { ClothPiece } from './cloth-piece'
import { type ClothRequest, fitOneWay } from './fit'

/** What a plan is made for, besides cutting as much as it can of what is wanted. */
export const cutObjectives = ['largest offcut', 'least waste', 'fewest cuts', 'most value'] as const
export type CutObjective = (typeof cutObjectives)[number]

/** A piece to cut from; width along the weft, height along the warp. */
export type CutFrom = { id: string; widthUm: number; heightUm: number }

/** One way a wanted piece may lie on the cloth, its sides along the cloth's own. Whole micrometres. */
export type CutWay = { widthUm: number; heightUm: number; isTurned: boolean }

/** Something to be cut, so many times. */
export type CutWish = {
  id: string
  copies: number
  /** What one copy counts when not all can be cut, a whole number above nought. */
  value: number
  /** How it may lie on each piece, by the piece's id: its size depends on the cloth's count. None, and it is not cut from that piece. */
  ways: Readonly<Record<string, readonly CutWay[]>>
}

export type CutRequest = {
  pieces: readonly CutFrom[]
  wishes: readonly CutWish[]
  objective: CutObjective
  /** Cloth lost along each cut, where edges are pinked or torn. */
  gapUm: number
  /** A leftover at least so long both ways is an offcut; a smaller one is waste. */
  leastOffcutUm: number
  /** Equal seeds give equal plans. */
  seed: number
}

/** A rectangle of the cloth, from the piece's lower left corner: x along the weft, y up the warp. */
export type CutBox = { xUm: number; yUm: number; widthUm: number; heightUm: number }

/**
 * A piece of cloth as it is cut: straight through from edge to edge, and each half again. A cut `across` runs from side to side at
 * `atUm` from the foot of its box, `first` below it; a cut `up` runs from foot to head at `atUm` from the left, `first` left of it.
 * `second` begins after the gap; where nothing is left beyond the gap, it is null.
 */
export type CutNode = CutBox &
  (
    | { kind: 'cut'; way: 'across' | 'up'; atUm: number; first: CutNode; second: CutNode | null }
    | { kind: 'wanted'; wishId: string; copy: number; isTurned: boolean }
    | { kind: 'offcut' }
    | { kind: 'waste' }
  )

export type CutLayout = { pieceId: string; root: CutNode }

export type CutPlan = {
  /** Of the pieces that are cut, in the order they were asked about. */
  layouts: CutLayout[]
  leftOut: { wishId: string; copy: number }[]
  /** The summed value of what is cut. */
  value: number
  cutCount: number
  wasteUm2: number
  /** Each piece's largest leftover, an uncut piece being its own, added up. */
  largestOffcutsUm2: number
  /** No plan has more value. */
  valueBound: number
  /**
   * No plan that cuts as much has less waste or fewer cuts, or keeps larger offcuts; in the objective's own unit. Of most value, the
   * value.
   */
  bound: number
  /** Proved that no plan is better. */
  isProved: boolean
}

/** How good a plan is in its objective's own unit: square micrometres, cuts, or value. */
export function measureOf(plan: CutPlan, objective: CutObjective): number {
  switch (objective) {
    case 'largest offcut':
      return plan.largestOffcutsUm2
    case 'least waste':
      return plan.wasteUm2
    case 'fewest cuts':
      return plan.cutCount
    case 'most value':
      return plan.value
  }
}

/** All nodes of a layout, the whole before its halves, the first half before the second. */
export function* nodesOf(node: CutNode): Generator<CutNode> {
  yield node
  if (node.kind !== 'cut') return
  yield* nodesOf(node.first)
  if (node.second) yield* nodesOf(node.second)
}

/**
 * How a design may lie on a piece: upright and, where the piece may be turned, turned; only where it fits with the margins asked for.
 * The size is rounded up as one is told to cut it; where that is more than the piece has, the exact size rounded up to a micrometre.
 */
export function cutWaysOn(request: ClothRequest, piece: ClothPiece): CutWay[] {
  return (piece.isTurnable ? [false, true] : [false]).flatMap((isTurned) => {
    const fit = fitOneWay(request, piece, isTurned)
    if (fit.kind !== 'fits') return []
    const { widthUm, heightUm, exactWidthUm, exactHeightUm } = fit.cut
    const [wideUm, highUm] = isTurned ? [heightUm, widthUm] : [widthUm, heightUm]
    const [exactWideUm, exactHighUm] = isTurned ? [exactHeightUm, exactWidthUm] : [exactWidthUm, exactHeightUm]
    const way = (roundedUm: number, exactUm: number, sideUm: number) =>
      roundedUm <= sideUm ? roundedUm : Math.min(sideUm, Math.ceil(exactUm - 1e-3))
    return [{ widthUm: way(wideUm, exactWideUm, piece.widthUm), heightUm: way(highUm, exactHighUm, piece.heightUm), isTurned }]
  })
}
