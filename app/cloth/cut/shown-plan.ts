import type { CutPlan } from '#lib/cloth/cut-plan'
import type { AskedCut } from '#lib/coverage/asked-cut'
import type { PlannedWish } from '#lib/db/cut-plan/cut-plan-rows'
import type { CutPiece } from '#lib/db/cut-plan/queries'
import { wishIdAt } from '#lib/db/cut-plan/read-cut-choices'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { pieceDescription, pieceName } from '#words/cloth'
import { wishTitle } from '#words/cut-plan'
import type { ShownPlan } from './plan-view'

/** A plan with what its wishes and pieces are called, to be shown. */
export function shownPlan(
  { asked, wishes, plan }: { asked: AskedCut; wishes: readonly PlannedWish[]; plan: CutPlan },
  pieces: Iterable<CutPiece>,
  unit: LengthUnit,
): ShownPlan {
  const titleOf = new Map(wishes.map(({ id, title }) => [id, title]))
  return {
    plan,
    asked: { objective: asked.objective, gapUm: asked.gapUm, wishes: asked.wishes },
    titles: new Map(asked.wishes.map((wish, at) => [wishIdAt(at), wishTitle(wish, titleOf.get(wishIdAt(at)) ?? '', unit)])),
    pieces: new Map(
      [...pieces].map((piece) => [
        piece.id,
        {
          id: piece.id,
          name: pieceName(piece),
          description: pieceDescription(piece),
          isSquared: piece.isSquared,
          place: piece.current && { id: piece.current.id, label: piece.current.label },
        },
      ]),
    ),
    fittingIds: new Set(wishes.flatMap(({ id, fitsSome }) => (fitsSome ? [id] : []))),
    unit,
  }
}
