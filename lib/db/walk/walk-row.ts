import 'server-only'
import type { WalkKind, WalkLineStatus, WalkStatus } from '#lib/project/walk'
import { ok, type Result, refused } from '#lib/result'
import type { Transaction } from '../client'
import type { Write } from '../write-gate'
import type { NoSuchWalk, WalkClosed } from './walk-refusal'
import type { LineRow } from './write-lines'

export type OpenWalk = { id: string; kind: WalkKind; placeId: string | null; version: number }

/** The walk as it stands in this write, with its version raised: everybody who has it open reads it again. */
export async function claimOpenWalk({ tx }: Write, walkId: string): Promise<Result<OpenWalk, NoSuchWalk | WalkClosed>> {
  const walk = await tx.walk.findUnique({
    where: { id: walkId },
    select: { id: true, kind: true, placeId: true, status: true, version: true },
  })
  if (!walk) return refused({ kind: 'no-such-walk', walkId })
  if (walk.status !== 'open') return refused({ kind: 'walk-closed', status: walk.status as WalkStatus })
  await tx.walk.update({ where: { id: walkId }, data: { version: { increment: 1 } } })
  return ok({ ...walk, kind: walk.kind as WalkKind })
}

/** A walk's lines as their rows have them, in their order. */
export async function readLineRows(tx: Transaction, walkId: string): Promise<LineRow[]> {
  const rows = await tx.walkLine.findMany({ where: { walkId }, orderBy: { position: 'asc' } })
  return rows.map((row) => ({ ...row, status: row.status as WalkLineStatus }))
}

/** The batch a line is about now. */
export const batchIdOf = ({ batchId, insteadBatchId }: Pick<LineRow, 'batchId' | 'insteadBatchId'>): string | null =>
  insteadBatchId ?? batchId
