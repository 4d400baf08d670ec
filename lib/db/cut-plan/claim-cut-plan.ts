import 'server-only'
import type { CutPlan } from '#lib/cloth/cut-plan'
import { ok, type Result, refused } from '#lib/result'
import type { ChangedMeanwhile } from '../stock/apply-stock-change'
import type { Write } from '../write-gate'
import { type KeptAsked, keptAskedSchema, keptPlanSchema } from './cut-plan-rows'

export type ClaimPlanRefused =
  | { kind: 'no-such-plan'; planId: string }
  | ChangedMeanwhile
  /** It was carried out or given up before. */
  | { kind: 'plan-closed'; status: string }

/** A kept plan, closed for this write; its pieces are touched, for they are free again. */
export async function claimPlan(
  { tx, at, touch }: Write,
  { planId, version, status }: { planId: string; version?: number; status: 'cut' | 'dropped' },
): Promise<
  Result<
    { title: string; asked: KeptAsked; plan: CutPlan; planned: Map<string, { widthUm: number; heightUm: number }> },
    ClaimPlanRefused
  >
> {
  const row = await tx.cutPlan.findUnique({
    where: { id: planId },
    select: {
      ...{ title: true, status: true, version: true, askedJson: true, planJson: true },
      pieces: { select: { clothPieceId: true, widthUm: true, heightUm: true } },
    },
  })
  if (!row) return refused({ kind: 'no-such-plan', planId })
  if (row.status !== 'kept') return refused({ kind: 'plan-closed', status: row.status })
  if (version !== undefined && version !== row.version) return refused({ kind: 'changed-meanwhile' })
  const claimed = await tx.cutPlan.updateMany({
    where: { id: planId, version: row.version, status: 'kept' },
    data: { status, closedAt: at, version: { increment: 1 } },
  })
  if (claimed.count === 0) return refused({ kind: 'changed-meanwhile' })
  for (const { clothPieceId } of row.pieces) touch('cloth', clothPieceId)
  return ok({
    title: row.title,
    asked: keptAskedSchema.parse(JSON.parse(row.askedJson)),
    plan: keptPlanSchema.parse(JSON.parse(row.planJson)),
    planned: new Map(row.pieces.map(({ clothPieceId, ...size }) => [clothPieceId, size])),
  })
}
