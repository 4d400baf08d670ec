import 'server-only'
import type { PieceSize } from '#lib/cloth/check-cut'
import { type CutPlan, type CutRequest, nodesOf } from '#lib/cloth/cut-plan'
import { ok, type Result, refused } from '#lib/result'
import { readKeptCloth } from '../cloth/kept-cloth'
import { newId } from '../new-id'
import { write } from '../write'
import type { KeptAsked } from './cut-plan-rows'

/** Why a piece cannot be cut as planned: what became of it since. */
export type CutPieceRefused =
  | { kind: 'piece-gone'; pieceName: string }
  | { kind: 'piece-changed'; pieceName: string; was: PieceSize; is: PieceSize }
  /** Projects that the plan does not cut for keep it. */
  | { kind: 'piece-reserved'; pieceName: string; titles: string[] }
  /** Another plan of cuts keeps it. */
  | { kind: 'piece-planned'; pieceName: string; title: string }

export type KeepRefused = CutPieceRefused | { kind: 'nothing-cut' }

/** The columns of a piece that say whether it is still as it was, and what it is called. */
export const cutPieceColumns = {
  id: true,
  label: true,
  name: true,
  ownerId: true,
  widthUm: true,
  heightUm: true,
  goneAt: true,
} as const

/**
 * Keep a plan of cuts under a title: its pieces are set aside for it, until it is carried out or given up. Refused when a piece has
 * changed since it was looked at, or is kept for something the plan does not cut for.
 */
export function keepCutPlan(input: {
  title: string
  about: KeptAsked
  request: CutRequest
  plan: CutPlan
}): Promise<Result<{ planId: string }, KeepRefused>> {
  return write<{ planId: string }, KeepRefused>(async ({ tx, at, touch }) => {
    const { title, about, request, plan } = input
    if (plan.layouts.length === 0) return refused({ kind: 'nothing-cut' })
    const ids = plan.layouts.map(({ pieceId }) => pieceId)
    const rows = await tx.clothPiece.findMany({ where: { id: { in: ids } }, select: cutPieceColumns })
    const kept = await readKeptCloth(tx, ids)
    const planId = newId()
    const pieces: { id: string; cutPlanId: string; clothPieceId: string; widthUm: number; heightUm: number }[] = []
    for (const { pieceId, root } of plan.layouts) {
      const row = rows.find(({ id }) => id === pieceId)
      const was = request.pieces.find(({ id }) => id === pieceId)
      if (!row || !was || row.goneAt) return refused({ kind: 'piece-gone', pieceName: row?.label ?? row?.name ?? '' })
      const pieceName = row.label ?? row.name
      const { widthUm, heightUm } = row
      if (widthUm !== was.widthUm || heightUm !== was.heightUm)
        return refused({
          ...{ kind: 'piece-changed', pieceName, is: { widthUm, heightUm } },
          was: { widthUm: was.widthUm, heightUm: was.heightUm },
        })
      const projectIds = projectsCutFor(root, about)
      const { projects = [], plans: [planned] = [] } = kept.get(pieceId) ?? {}
      const others = projects.filter(({ projectId }) => !projectIds.has(projectId))
      if (others.length > 0) return refused({ kind: 'piece-reserved', pieceName, titles: others.map((one) => one.title) })
      if (planned) return refused({ kind: 'piece-planned', pieceName, title: planned.title })
      pieces.push({ id: newId(), cutPlanId: planId, clothPieceId: pieceId, widthUm, heightUm })
      touch('cloth', pieceId)
    }
    await tx.cutPlan.create({
      data: { id: planId, title, askedJson: JSON.stringify(about), planJson: JSON.stringify(plan), createdAt: at },
    })
    await tx.cutPlanPiece.createMany({ data: pieces })
    return ok({ planId })
  })
}

/** The projects that something of a piece is cut for. */
export function projectsCutFor(root: CutPlan['layouts'][number]['root'], { wishes }: KeptAsked): Set<string> {
  const projectOf = new Map(wishes.map(({ id, projectId }) => [id, projectId]))
  const ids = [...nodesOf(root)].flatMap((node) => (node.kind === 'wanted' ? (projectOf.get(node.wishId) ?? []) : []))
  return new Set(ids)
}
