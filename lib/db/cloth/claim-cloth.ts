import 'server-only'
import { calendarDay } from '#lib/quantity/day'
import { textKey } from '#lib/quantity/text-key'
import { ok, type Result, refused } from '#lib/result'
import type { Prisma } from '../generated/sqlite/client'
import { settleThing } from '../loan/settle-lines'
import { seenKinds, settleSeen } from '../missing/settle-seen'
import { newId } from '../new-id'
import type { Write } from '../write-gate'
import type { ClothRefusal } from './cloth-refusal'
import { readKeptCloth } from './kept-cloth'

const heldColumns = {
  id: true,
  ownerId: true,
  label: true,
  widthUm: true,
  heightUm: true,
  isSquared: true,
  weave: true,
  endsThreads: true,
  endsPerUm: true,
  picksThreads: true,
  picksPerUm: true,
  isTurnable: true,
  oneWayBecause: true,
  homePlaceId: true,
  currentPlaceId: true,
  outSince: true,
} as const

export type HeldCloth = Prisma.ClothPieceGetPayload<{ select: typeof heldColumns }>

/** The piece as it stands, claimed for this write: its version goes up by one. Refused when somebody was there first, or it is gone. */
export async function claimCloth(
  { tx, touch }: Pick<Write, 'tx' | 'touch'>,
  { id, version }: { id: string; version: number },
): Promise<Result<HeldCloth, Extract<ClothRefusal, { kind: 'changed-meanwhile' }>>> {
  const claimed = await tx.clothPiece.updateMany({
    where: { id, version, goneAt: null },
    data: { version: { increment: 1 } },
  })
  if (claimed.count === 0) return refused({ kind: 'changed-meanwhile' })
  touch('cloth', id)
  return ok(await tx.clothPiece.findUniqueOrThrow({ where: { id }, select: heldColumns }))
}

/** The label's key, when no other piece of the owner has it; a piece without a label has none. */
export async function claimLabel(
  { tx }: Pick<Write, 'tx'>,
  { label, ownerId, pieceId }: { label: string | null; ownerId: string; pieceId: string | null },
): Promise<Result<string | null, Extract<ClothRefusal, { kind: 'label-taken' }>>> {
  if (label === null) return ok(null)
  const labelKey = textKey(label)
  const namesake = await tx.clothPiece.findFirst({ where: { ownerId, labelKey }, select: { id: true } })
  return namesake && namesake.id !== pieceId ? refused({ kind: 'label-taken', label }) : ok(labelKey)
}

/** Refused while a project other than the one the piece is used for keeps it, or a plan of cuts does. */
export async function refuseReserved(
  { tx }: Pick<Write, 'tx'>,
  { pieceId, forProjectId }: { pieceId: string; forProjectId: string | null },
): Promise<Result<null, Extract<ClothRefusal, { kind: 'reserved' | 'planned' }>>> {
  const kept = (await readKeptCloth(tx, [pieceId])).get(pieceId)
  const others = (kept?.projects ?? []).filter(({ projectId }) => projectId !== forProjectId)
  if (others.length > 0) return refused({ kind: 'reserved', titles: others.map(({ title }) => title) })
  const [plan] = kept?.plans ?? []
  return plan ? refused({ kind: 'planned', planId: plan.planId, title: plan.title }) : ok(null)
}

/** One line of the journal about a piece of cloth. A piece's `wholeDelta`s sum to 1 while it is held and to 0 once it is gone. */
export async function journalCloth(
  { tx, revision, at }: Pick<Write, 'tx' | 'revision' | 'at'>,
  movement: Omit<Prisma.MovementUncheckedCreateInput, 'id' | 'revision' | 'at' | 'clothPieceId'> & { clothPieceId: string },
): Promise<void> {
  const { clothPieceId, kind, who = null } = movement
  if (seenKinds.some((seen) => seen === kind)) await settleSeen({ tx, at }, { clothPieceId }, who)
  await settleThing(tx, { clothPieceId }, calendarDay(at))
  await tx.movement.create({ data: { id: newId(), revision, at, ...movement } })
}
