import type { ClothPiece } from '#lib/cloth/cloth-piece'
import { compareExact } from '#lib/stock/batch'
import { type ClothDesign, type ClothSettings, isAdvisedFor } from './cloth-answer'
import { type DesignRows, overSlots } from './design-rows'
import { PieceJudge, tiers } from './piece-judge'

/** A design a piece of cloth takes, over so many threads. */
export type PieceUse = {
  designId: string
  over: 1 | 2
  /** As many threads as is usual on its weave. */
  isUsualOver: boolean
  /** The piece is of the kind its chart advises. */
  isAdvised: boolean
  /** With the margins asked for; else only with smaller ones. */
  isAsAsked: boolean
  /** The narrowest margin there would be where they have to be smaller. */
  marginUm: number
  /** What the exact cut leaves of the piece. */
  leftAreaUm2: number
}

/**
 * Every design a piece takes, once each: over the usual number of threads, or over the other where only that fits as asked or at all;
 * or over the number asked for. In no order; see `rankUses`. 26,000 designs were asked in 15 ms.
 */
export function usesOf(piece: ClothPiece, over: 1 | 2 | null, rows: DesignRows, settings: ClothSettings): PieceUse[] {
  const uses = new Map<number, PieceUse>()
  const judge = new PieceJudge(settings)
  judge.set(0, piece)
  const isAdvised = rows.advices.map(({ advised }) => isAdvisedFor(piece, advised))
  for (const slot of overSlots) {
    for (const asked of rows.askedOn(piece.weave, slot)) {
      if (asked.over === 'usual' || (over !== null && asked.over !== over)) continue
      const set = judge.setOf(asked.over, asked.uncertaintyUm)
      for (let i = 0; i < asked.rows.length; i++) {
        const row = asked.rows[i] as number
        const tier = judge.judge(set, 0, asked.widths[i] as number, asked.heights[i] as number)
        if (tier === tiers.none) continue
        const isAsAsked = tier !== tiers.near
        const earlier = uses.get(row)
        if (earlier && (earlier.isAsAsked || !isAsAsked)) continue
        uses.set(row, {
          designId: rows.designIdAt(row),
          over: asked.over,
          isUsualOver: slot === 'usual',
          isAdvised: isAdvised[rows.adviceAt(row)] as boolean,
          isAsAsked,
          marginUm: isAsAsked ? 0 : judge.marginUm,
          leftAreaUm2: judge.leftUm2,
        })
      }
    }
  }
  return [...uses.values()]
}

/** Cloth of the kind its chart advises, over as many threads. */
export const isAsAdvised = ({ isAdvised, isUsualOver }: Pick<PieceUse, 'isAdvised' | 'isUsualOver'>): boolean =>
  isAdvised && isUsualOver

/** What else a use is weighed by. */
export type UseWeight = {
  /** A project of it is wanted or planned. */
  isWanted: (design: ClothDesign['id']) => boolean
  /** Its threads are all there. */
  isReady: (design: ClothDesign['id']) => boolean
  /** Folded for comparing. */
  titleKey: (design: ClothDesign['id']) => string
}

/**
 * Best use first: what fits as asked before what wants smaller margins; what is worked as its chart advises before what it only allows;
 * then what is both wanted and ready in its threads, what is one of them, and the rest; then, with smaller margins, the largest of them;
 * then what leaves least cloth over; then title and id.
 */
export function rankUses(uses: readonly PieceUse[], { isWanted, isReady, titleKey }: UseWeight): PieceUse[] {
  const levels = Uint8Array.from(
    uses,
    (use) =>
      (use.isAsAsked ? 0 : 6) + (isAsAdvised(use) ? 0 : 3) + (isWanted(use.designId) ? 0 : 1) + (isReady(use.designId) ? 0 : 1),
  )
  const margins = Float64Array.from(uses, ({ marginUm }) => marginUm)
  const left = Float64Array.from(uses, ({ leftAreaUm2 }) => leftAreaUm2)
  const idAt = (at: number) => (uses[at] as PieceUse).designId
  const order = Uint32Array.from(uses.keys()).sort(
    (a, b) =>
      (levels[a] as number) - (levels[b] as number) ||
      (margins[b] as number) - (margins[a] as number) ||
      (left[a] as number) - (left[b] as number) ||
      compareExact(titleKey(idAt(a)), titleKey(idAt(b))) ||
      compareExact(idAt(a), idAt(b)),
  )
  return Array.from(order, (at) => uses[at] as PieceUse)
}
