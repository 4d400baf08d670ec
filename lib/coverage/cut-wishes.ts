import type { Design } from '#lib/chart/design'
import { stitchSize } from '#lib/chart/design-size'
import type { ClothPiece } from '#lib/cloth/cloth-piece'
import { type CutRequest, type CutWay, type CutWish, cutWaysOn } from '#lib/cloth/cut-plan'
import { isAdvisedCloth } from '#lib/cloth/match-cloth'
import { byText } from '#lib/quantity/text-order'
import { type AskedCut, type AskedWish, cutPriorities } from './asked-cut'
import { overOn } from './cloth-answer'

/** A wish with what is on record of it. */
export type ResolvedWish = AskedWish & {
  id: string
  title: string
  /** Null for a plain size. */
  design: Pick<Design, 'size' | 'advised'> | null
  /** Only cloth of this owner is cut for it; null: of any of those asked about. */
  ownerId: string | null
}

/** A piece, and the projects that keep it; nobody else may cut it. A plan of cuts that keeps it leaves it to nobody. */
export type CuttablePiece = ClothPiece & { keptForProjectIds: readonly string[]; isPlanned: boolean }

type CutSettings = { shrinkPercent: number; roundingUm: number }

const isFreeFor = (piece: CuttablePiece, projectId: string | null): boolean => {
  if (piece.isPlanned) return false
  return piece.keptForProjectIds.every((id) => id === projectId)
}

/** Whether the chart may be worked on this piece, by the wish's choice of cloth and the chart's own word. */
function isClothFor(wish: ResolvedWish, piece: ClothPiece): boolean {
  const advised = wish.design?.advised
  if (wish.kind === 'size' || !advised) return true
  if (wish.cloth === 'advised') return isAdvisedCloth(piece, advised)
  return !(advised.insists && advised.weave !== null && advised.weave !== piece.weave)
}

/** How a wish may lie on a piece; none where it does not fit, is not of the right cloth, or the piece is kept for something else. */
export function waysOn(wish: ResolvedWish, piece: CuttablePiece, settings: CutSettings): CutWay[] {
  const projectId = wish.kind === 'design' ? wish.projectId : null
  if (!isFreeFor(piece, projectId) || (wish.ownerId !== null && wish.ownerId !== piece.ownerId)) return []
  if (wish.kind === 'size') {
    const turned = wish.mayTurn && piece.isTurnable && wish.widthUm !== wish.heightUm
    const ways = [
      { widthUm: wish.widthUm, heightUm: wish.heightUm, isTurned: false },
      ...(turned ? [{ widthUm: wish.heightUm, heightUm: wish.widthUm, isTurned: true }] : []),
    ]
    return ways.filter((way) => way.widthUm <= piece.widthUm && way.heightUm <= piece.heightUm)
  }
  const size = wish.design && stitchSize(wish.design)
  if (!wish.design || !size || !isClothFor(wish, piece)) return []
  const { width, height, uncertaintyUm } = size
  const over = wish.over ?? overOn(piece.weave, wish.design.advised)
  return cutWaysOn({ width, height, uncertaintyUm, over, margins: wish.margins, ...settings }, piece)
}

/** A piece on which some of what is wanted fits. */
export type CutCandidate = {
  piece: CuttablePiece
  /** What fits it, and how much of it a copy takes at least. */
  fits: { wishId: string; areaUm2: number }[]
  /** Of the kind that the chart of one of them advises. */
  isAdvised: boolean
}

const areaOf = ({ widthUm, heightUm }: { widthUm: number; heightUm: number }): number => widthUm * heightUm

const inOrder = (a: CutCandidate, b: CutCandidate): number =>
  Number(b.isAdvised) - Number(a.isAdvised) ||
  Number(b.piece.isOffcut) - Number(a.piece.isOffcut) ||
  areaOf(a.piece) - areaOf(b.piece) ||
  byText(a.piece.label ?? '', b.piece.label ?? '') ||
  byText(a.piece.id, b.piece.id)

/** Pieces that at least one wish fits: of the advised kind first, offcuts before whole pieces, the smaller first. */
export function listCutCandidates(
  wishes: readonly ResolvedWish[],
  pieces: readonly CuttablePiece[],
  settings: CutSettings,
): CutCandidate[] {
  const candidates: CutCandidate[] = []
  for (const piece of pieces) {
    const fits = wishes.flatMap((wish) => {
      const ways = waysOn(wish, piece, settings)
      return ways.length > 0 ? [{ wishId: wish.id, areaUm2: Math.min(...ways.map(areaOf)) }] : []
    })
    if (fits.length === 0) continue
    const isAdvised = wishes.some(
      ({ id, design }) => design?.advised && fits.some(({ wishId }) => wishId === id) && isAdvisedCloth(piece, design.advised),
    )
    candidates.push({ piece, fits, isAdvised })
  }
  return candidates.sort(inOrder)
}

/** As many pieces as are tried unasked: each one more makes the search longer. */
export const piecesSuggested = 12
/** How much more cloth than all of it takes there should be to try, for what the shears leave over. Chosen, no published source. */
const clothToTry = 1.25

/**
 * The pieces to try where nobody chose. First one for each wish, the earliest candidate it fits; the places left go to the earliest
 * candidates, but as many of the last of them to the largest pieces as it takes to have cloth enough for every copy.
 */
export function suggestCutPieces(
  candidates: readonly CutCandidate[],
  wishes: readonly Pick<ResolvedWish, 'id' | 'copies'>[],
): string[] {
  let neededUm2 = 0
  const chosen = new Set<CutCandidate>()
  for (const { id, copies } of wishes) {
    const fitting = candidates.filter(({ fits }) => fits.some(({ wishId }) => wishId === id))
    const [first] = fitting
    if (!first) continue
    neededUm2 +=
      copies * Math.min(...fitting.flatMap(({ fits }) => fits.flatMap((fit) => (fit.wishId === id ? [fit.areaUm2] : []))))
    if (chosen.size < piecesSuggested) chosen.add(first)
  }
  const rest = candidates.filter((candidate) => !chosen.has(candidate))
  const places = Math.min(rest.length, piecesSuggested - chosen.size)
  for (let earliest = places; earliest >= 0; earliest--) {
    const largest = rest.slice(earliest).sort((a, b) => areaOf(b.piece) - areaOf(a.piece))
    const some = [...chosen, ...rest.slice(0, earliest), ...largest.slice(0, places - earliest)]
    const haveUm2 = some.reduce((sum, { piece }) => sum + areaOf(piece), 0)
    if (earliest > 0 && haveUm2 < neededUm2 * clothToTry) continue
    const ids = new Set(some.map(({ piece }) => piece.id))
    return candidates.flatMap(({ piece }) => (ids.has(piece.id) ? [piece.id] : []))
  }
  return []
}

/**
 * What one copy of each wish counts in a search: its worth, raised so that one copy of a higher priority outweighs all of the lower
 * ones together. Where all have one priority, the worth itself.
 */
export function valuesOf(wishes: readonly Pick<AskedWish, 'copies' | 'priority' | 'worth'>[]): number[] {
  const values = wishes.map(() => 0)
  let below = 0
  for (const priority of [...cutPriorities].reverse()) {
    const raised = below + 1
    for (const [at, wish] of wishes.entries()) {
      if (wish.priority !== priority) continue
      values[at] = wish.worth * raised
      below += wish.copies * wish.worth * raised
    }
  }
  return values
}

/** The request for the search, from pieces in the order given. A piece that no wish fits is left out. */
export function cutRequestOf(
  asked: Pick<AskedCut, 'objective' | 'gapUm' | 'leastOffcutUm' | 'seed'>,
  wishes: readonly ResolvedWish[],
  pieces: readonly CuttablePiece[],
  settings: CutSettings,
): CutRequest {
  const values = valuesOf(wishes)
  const wanted = wishes.map((wish, at): CutWish => {
    const ways = pieces.map((piece) => [piece.id, waysOn(wish, piece, settings)] as const)
    return {
      id: wish.id,
      copies: wish.copies,
      value: values[at] as number,
      ways: Object.fromEntries(ways.filter(([, some]) => some.length > 0)),
    }
  })
  const isOfUse = ({ id }: CuttablePiece) => wanted.some(({ ways }) => ways[id] !== undefined)
  return {
    pieces: pieces.filter(isOfUse).map(({ id, widthUm, heightUm }) => ({ id, widthUm, heightUm })),
    wishes: wanted,
    objective: asked.objective,
    gapUm: asked.gapUm,
    leastOffcutUm: asked.leastOffcutUm,
    seed: asked.seed,
  }
}
