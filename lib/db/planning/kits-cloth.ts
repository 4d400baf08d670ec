import 'server-only'
import type { Design } from '#lib/chart/design'
import { stitchSize } from '#lib/chart/design-size'
import { type ClassCloth, planClassCloth } from '#lib/cloth/class-cloth'
import type { ClothPiece, Weave } from '#lib/cloth/cloth-piece'
import { type CutWay, cutWaysOn } from '#lib/cloth/cut-plan'
import { cutSize, finishedSize } from '#lib/cloth/finished-size'
import type { ClothRequest } from '#lib/cloth/fit'
import type { Margins } from '#lib/cloth/margins'
import { isAdvisedCloth, nominalCountLabel } from '#lib/cloth/match-cloth'
import { type Bolt, planYardage, type YardagePlan } from '#lib/cloth/yardage'
import { overOn } from '#lib/coverage/cloth-answer'
import { clothRequest } from '#lib/coverage/worked-cloth'
import type { Count } from '#lib/quantity/count'
import { textKey } from '#lib/quantity/text-key'
import { compareExact } from '#lib/stock/batch'
import { type Answers, clothSettings } from '../answers/answers'

/** Cloth for so many kits of one design: what to cut from the pieces on hand, and what to buy for the rest. */
export type KitsCloth =
  | { kind: 'unknown-size' }
  /** No cloth is advised and none is on hand: there is no count to reckon by. */
  | { kind: 'unknown-cloth' }
  | {
      kind: 'cloth'
      plan: ClassCloth
      /** The pieces named in the plan. */
      pieces: ReadonlyMap<string, ClothPiece>
      /** One piece of each cloth, to name it by. */
      cloths: ReadonlyMap<string, ClothPiece>
      /** The cut one kit takes off the bolt, and the length for those left to buy; null when all come from what is on hand. */
      bought: { cut: CutWay; count: Count; over: 1 | 2; yardage: YardagePlan } | null
      /** Some pieces to cut are not squared yet, and may give less once they are. */
      hasNominal: boolean
    }

/** Pieces of one cloth: the same name, colour and count. */
export const clothKey = ({ weave, name, colourName, ends, picks }: ClothPiece): string =>
  [weave, textKey(name), textKey(colourName ?? ''), nominalCountLabel(ends, picks)].join('|')

/** A cut off the bolt, the same count both ways; turned, where the cloth bought may be turned. */
export function boltWays(request: ClothRequest, count: Count, isTurnable: boolean): CutWay[] {
  const finished = finishedSize({ ...request, ends: count, picks: count, isTurned: false })
  const { widthUm, heightUm } = cutSize({ ...request, finished })
  const upright = { widthUm, heightUm, isTurned: false }
  return isTurnable && widthUm !== heightUm ? [upright, { widthUm: heightUm, heightUm: widthUm, isTurned: true }] : [upright]
}

/**
 * What so many kits of a design take in cloth from the pieces of some owners, reserved ones left out, and what is left to buy off the
 * bolt, at the advised count or else that of the cloth on hand.
 */
export function clothForKits(
  answers: Answers,
  design: Pick<Design, 'size' | 'advised'>,
  asked: { ownerIds: readonly string[]; wanted: number; margins?: Margins; bolt?: Bolt },
): KitsCloth {
  if (stitchSize(design) === null) return { kind: 'unknown-size' }
  const { settings, pieces } = answers.world
  const cloth = { ...clothSettings(settings), ...(asked.margins && { margins: asked.margins }) }
  const { advised } = design
  const requestOn = (weave: Weave) => clothRequest(design, overOn(weave, advised), cloth) as ClothRequest
  const usable = pieces
    .filter(({ ownerId, isReserved }) => asked.ownerIds.includes(ownerId) && !isReserved)
    .filter((piece) => advised === null || isAdvisedCloth(piece, advised))
  const plan = planClassCloth(
    asked.wanted,
    usable.map((piece) => ({
      ...{ id: piece.id, cloth: clothKey(piece), widthUm: piece.widthUm, heightUm: piece.heightUm },
      ...{ isOffcut: piece.isOffcut, ways: cutWaysOn(requestOn(piece.weave), piece) },
    })),
    settings.cutGapUm,
  )
  const byId = new Map(usable.map((piece) => [piece.id, piece]))
  const cloths = new Map([...usable].sort((a, b) => compareExact(b.id, a.id)).map((piece) => [clothKey(piece), piece]))
  const like = plan.cloth === null ? null : cloths.get(plan.cloth)
  const count = advised?.count ?? like?.ends ?? null
  if (count === null) return { kind: 'unknown-cloth' }
  const weave = advised?.weave ?? like?.weave ?? 'single'
  const ways = boltWays(requestOn(weave), count, true)
  const bolt = asked.bolt ?? settings.bolt
  const from = plan.from.flatMap(({ pieceId }) => byId.get(pieceId) ?? [])
  return {
    ...{ kind: 'cloth', plan, cloths },
    pieces: new Map(from.map((piece) => [piece.id, piece])),
    bought:
      plan.toBuy === 0
        ? null
        : {
            ...{ cut: ways[0] as CutWay, count, over: overOn(weave, advised) },
            yardage: planYardage({ copies: plan.toBuy, ways, bolt, gapUm: settings.cutGapUm }),
          },
    hasNominal: from.some(({ isSquared }) => !isSquared),
  }
}
