import 'server-only'
import { stitchSize } from '#lib/chart/design-size'
import type { CutRequest } from '#lib/cloth/cut-plan'
import type { AskedCut } from '#lib/coverage/asked-cut'
import {
  type CutCandidate,
  type CuttablePiece,
  cutRequestOf,
  listCutCandidates,
  type ResolvedWish,
  suggestCutPieces,
} from '#lib/coverage/cut-wishes'
import type { Settings } from '#lib/settings/settings'
import { designColumns, toDesign } from '../chart/design-rows'
import { database } from '../client'
import { type ClothListed, listCloth } from '../cloth/queries'

/** Why a wish cannot be cut as things are. */
export type StuckWish =
  /** Its design, or the project it is for, is not there any more. */
  | { wishId: string; why: 'gone' }
  /** Nobody knows how large the design is. */
  | { wishId: string; why: 'no-size' }
  /** No piece that is free takes it. */
  | { wishId: string; why: 'no-piece' }

export type ListedCandidate = CutCandidate & { piece: ClothListed }

export type CutChoices = {
  /** Those that can be cut; they keep the id of their place among what was asked: w1, w2 … */
  wishes: ResolvedWish[]
  stuck: StuckWish[]
  /** Every piece that some wish fits, best first. */
  candidates: ListedCandidate[]
  /** The pieces to cut from: those asked for that can serve, or those suggested. In the order of the candidates. */
  chosenIds: string[]
  /** Asked for, but kept for something else, gone, or none of the wishes fits them. */
  uselessIds: string[]
  request: CutRequest
}

/** The id of a wish by its place among those asked for. */
export const wishIdAt = (index: number): string => `w${index + 1}`
export const wishIndexOf = (wishId: string): number => Number(wishId.slice(1)) - 1

const cuttable = (piece: ClothListed): CuttablePiece & ClothListed => ({
  ...piece,
  keptForProjectIds: piece.reservedBy.map(({ projectId }) => projectId),
  isPlanned: piece.plannedIn.length > 0,
})

/** What is asked for, held against the designs, projects and pieces on record. */
export async function readCutChoices(
  asked: AskedCut,
  { ownerIds, settings }: { ownerIds: readonly string[]; settings: Settings },
): Promise<CutChoices> {
  const [{ wishes, stuck }, listed] = await Promise.all([resolveWishes(asked), listCloth(ownerIds)])
  const { shrinkPercent, roundingUm } = settings
  const cutSettings = { shrinkPercent, roundingUm }
  const candidates = listCutCandidates(wishes, listed.map(cuttable), cutSettings) as ListedCandidate[]
  const canServe = new Set(candidates.map(({ piece }) => piece.id))
  const chosen = new Set(asked.pieceIds ?? suggestCutPieces(candidates, wishes))
  const chosenPieces = candidates.flatMap(({ piece }) => (chosen.has(piece.id) ? [cuttable(piece)] : []))
  const fitsSome = (wishId: string) => candidates.some(({ fits }) => fits.some((fit) => fit.wishId === wishId))
  return {
    wishes,
    stuck: [...stuck, ...wishes.flatMap(({ id }) => (fitsSome(id) ? [] : [{ wishId: id, why: 'no-piece' as const }]))],
    candidates,
    chosenIds: chosenPieces.map(({ id }) => id),
    uselessIds: (asked.pieceIds ?? []).filter((id) => !canServe.has(id)),
    request: cutRequestOf(asked, wishes, chosenPieces, cutSettings),
  }
}

async function resolveWishes(asked: AskedCut): Promise<{ wishes: ResolvedWish[]; stuck: StuckWish[] }> {
  const { prisma } = database()
  const ofDesigns = asked.wishes.flatMap((wish) => (wish.kind === 'design' ? [wish] : []))
  const [designRows, projects] = await Promise.all([
    prisma.design.findMany({
      where: { id: { in: ofDesigns.map(({ designId }) => designId) }, chart: { goneAt: null } },
      select: designColumns,
    }),
    prisma.project.findMany({
      where: { id: { in: ofDesigns.flatMap(({ projectId }) => projectId ?? []) }, goneAt: null },
      select: { id: true, ownerId: true, designId: true },
    }),
  ])
  const designs = new Map(designRows.map((row) => [row.id, toDesign(row)]))
  const wishes: ResolvedWish[] = []
  const stuck: StuckWish[] = []
  for (const [at, wish] of asked.wishes.entries()) {
    const id = wishIdAt(at)
    if (wish.kind === 'size') {
      wishes.push({ ...wish, id, title: '', design: null, ownerId: null })
      continue
    }
    const design = designs.get(wish.designId)
    const project = wish.projectId === null ? null : projects.find((one) => one.id === wish.projectId)
    if (!design || project === undefined || (project && project.designId !== wish.designId))
      stuck.push({ wishId: id, why: 'gone' })
    else if (stitchSize(design) === null) stuck.push({ wishId: id, why: 'no-size' })
    else wishes.push({ ...wish, id, title: design.title, design, ownerId: project?.ownerId ?? null })
  }
  return { wishes, stuck }
}
