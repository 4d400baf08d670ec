import 'server-only'
import type { Design } from '#lib/chart/design'
import { planClassCloth } from '#lib/cloth/class-cloth'
import type { ClothPiece, Weave } from '#lib/cloth/cloth-piece'
import { type CutWay, cutWaysOn, nodesOf } from '#lib/cloth/cut-plan'
import type { ClothRequest } from '#lib/cloth/fit'
import { marginsFor } from '#lib/cloth/margins'
import { isAdvisedCloth } from '#lib/cloth/match-cloth'
import { mostFrom } from '#lib/cloth/most-from'
import { overOn } from '#lib/coverage/cloth-answer'
import { clothRequest } from '#lib/coverage/worked-cloth'
import type { KitClothStock } from '#lib/project/kit/reckoning'
import type { Count } from '#lib/quantity/count'
import type { Settings } from '#lib/settings/settings'
import { compareExact } from '#lib/stock/batch'
import { clothSettings } from '../answers/answers'
import { database } from '../client'
import { pieceColumns, toClothPiece } from '../cloth/cloth-rows'
import { readKeptCloth } from '../cloth/kept-cloth'
import { keptAskedSchema, keptPlanSchema } from '../cut-plan/cut-plan-rows'
import { boltWays, clothKey } from '../planning/kits-cloth'

/** A piece that kits are cut from, or one that is cut already. */
type KitPiece = {
  piece: ClothPiece
  /** Cut to size for one kit; kept for this batch, whole or in a plan of cuts; or free. */
  standing: 'cut' | 'kept' | 'free'
  gives: number
}

export type KitCloth = KitClothStock & {
  /** One kit's cut, as it is cut: off the piece chosen, else off the bolt. */
  cutSize: CutWay | null
  count: Count | null
  over: 1 | 2
  pieces: KitPiece[]
  /** A piece of the cloth they are of; null where none is on hand. */
  like: ClothPiece | null
}

type KitWork = {
  id: string
  ownerId: string
  clothPieceId: string | null
  over: 1 | 2 | null
  finishing: string | null
}

/**
 * Cloth for the kits of a project: what is cut for it, what is kept for it, and what is free of the same cloth; by its own finishing's
 * margins. Null where the size of the design is not known.
 */
export async function readKitCloth(
  project: KitWork,
  design: Pick<Design, 'size' | 'advised'>,
  copies: number,
  settings: Settings,
): Promise<KitCloth | null> {
  const { advised } = design
  const cloth = { ...clothSettings(settings), margins: marginsFor(settings, project.finishing ?? settings.finishing) }
  const overFor = (weave: Weave) => project.over ?? overOn(weave, advised)
  const requestOn = (weave: Weave): ClothRequest | null => clothRequest(design, overFor(weave), cloth)
  if (requestOn('single') === null) return null

  const { prisma } = database()
  const [rows, kept, plans] = await Promise.all([
    prisma.clothPiece.findMany({
      where: { ownerId: project.ownerId, goneAt: null },
      select: pieceColumns,
      orderBy: { id: 'asc' },
    }),
    readKeptCloth(prisma, null),
    readPlannedCuts(project.id),
  ])
  const isOurs = (id: string) => kept.get(id)?.projects.some(({ projectId }) => projectId === project.id) ?? false
  const isOthers = (id: string) => kept.get(id)?.projects.some(({ projectId }) => projectId !== project.id) ?? false
  const all = rows.map((row) => toClothPiece(row, kept.has(row.id)))
  const waysOn = (piece: ClothPiece) => cutWaysOn(requestOn(piece.weave) as ClothRequest, piece)
  const gapUm = settings.cutGapUm
  const yieldOf = (piece: ClothPiece) => mostFrom(piece, waysOn(piece), { gapUm, enough: copies }).copies

  const pieces: KitPiece[] = []
  for (const piece of all) {
    const planned = plans.get(piece.id)
    if (planned !== undefined) {
      if (planned > 0) pieces.push({ piece, standing: 'kept', gives: planned })
      continue
    }
    if (!isOurs(piece.id) || isOthers(piece.id) || (kept.get(piece.id)?.plans.length ?? 0) > 0) continue
    const gives = yieldOf(piece)
    // What was cut out of a larger piece and has no room for two is a kit's own cut.
    if (gives > 0) pieces.push({ piece, standing: gives === 1 && piece.isOffcut ? 'cut' : 'kept', gives })
  }
  const cut = sumOf(pieces, 'cut')
  const keptGives = Math.min(copies - Math.min(copies, cut), sumOf(pieces, 'kept'))

  const chosen = all.find(({ id }) => id === project.clothPieceId) ?? pieces[0]?.piece ?? null
  const rest = copies - cut - keptGives
  const free = all
    .filter(({ isReserved }) => !isReserved)
    .filter((piece) => (chosen ? clothKey(piece) === clothKey(chosen) : advised === null || isAdvisedCloth(piece, advised)))
  const plan =
    rest > 0
      ? planClassCloth(
          rest,
          free.map((piece) => ({ ...piece, cloth: clothKey(piece), ways: waysOn(piece) })),
          gapUm,
        )
      : null
  const byId = new Map(free.map((piece) => [piece.id, piece]))
  for (const { pieceId, takes } of plan?.from ?? [])
    pieces.push({ piece: byId.get(pieceId) as ClothPiece, standing: 'free', gives: takes })

  const like = chosen ?? pieces[0]?.piece ?? null
  const weave = like?.weave ?? advised?.weave ?? 'single'
  const count = like?.ends ?? advised?.count ?? null
  const ways = count === null ? null : boltWays(requestOn(weave) as ClothRequest, count, true)
  const upright = like === null ? null : (waysOn(like).find(({ isTurned }) => !isTurned) ?? waysOn(like)[0] ?? null)
  pieces.sort((a, b) => standings.indexOf(a.standing) - standings.indexOf(b.standing) || compareExact(a.piece.id, b.piece.id))
  return {
    ...{ cut, kept: keptGives, free: plan?.onHand ?? 0 },
    bolt: ways && { ways, bolt: settings.bolt, gapUm },
    cutSize: upright ?? ways?.[0] ?? null,
    ...{ count, over: overFor(weave), pieces, like },
  }
}

const standings: readonly KitPiece['standing'][] = ['cut', 'kept', 'free']

const sumOf = (pieces: readonly KitPiece[], standing: KitPiece['standing']): number =>
  pieces.reduce((sum, one) => (one.standing === standing ? sum + one.gives : sum), 0)

/** Of every piece in a plan of cuts that is to be carried out: how many are cut from it for this project. */
async function readPlannedCuts(projectId: string): Promise<Map<string, number>> {
  const rows = await database().prisma.cutPlan.findMany({
    where: { status: 'kept' },
    select: { askedJson: true, planJson: true },
    orderBy: { id: 'asc' },
  })
  const planned = new Map<string, number>()
  for (const { askedJson, planJson } of rows) {
    // Most plans are for something else: read only those that name the project.
    if (!askedJson.includes(projectId)) continue
    const asked = keptAskedSchema.safeParse(JSON.parse(askedJson))
    const plan = keptPlanSchema.safeParse(JSON.parse(planJson))
    if (!asked.success || !plan.success) continue
    const ours = new Set(asked.data.wishes.flatMap((wish) => (wish.projectId === projectId ? [wish.id] : [])))
    for (const { pieceId, root } of plan.data.layouts) {
      const many = [...nodesOf(root)].filter((node) => node.kind === 'wanted' && ours.has(node.wishId)).length
      planned.set(pieceId, (planned.get(pieceId) ?? 0) + many)
    }
  }
  return planned
}
