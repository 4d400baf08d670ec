import 'server-only'
import type { NotionKind } from '#lib/notion/notion'
import { calendarDay } from '#lib/quantity/day'
import { ok, type Result, refused } from '#lib/result'
import type { Prisma } from '../generated/sqlite/client'
import { settleThing } from '../loan/settle-lines'
import { seenKinds, settleSeen } from '../missing/settle-seen'
import { newId } from '../new-id'
import type { Write } from '../write-gate'
import type { NotionRefusal } from './notion-refusal'

export const cardColumns = {
  kind: true,
  name: true,
  size: true,
  minimum: true,
  packOf: true,
  priceMinor: true,
  note: true,
} as const

const heldColumns = {
  id: true,
  ownerId: true,
  ...cardColumns,
  sizeKey: true,
  count: true,
  homePlaceId: true,
  currentPlaceId: true,
  outSince: true,
  projectId: true,
  project: { select: { design: { select: { title: true } } } },
} as const

export type HeldNotion = Omit<Prisma.NotionGetPayload<{ select: typeof heldColumns }>, 'kind'> & { kind: NotionKind }

/** The notion as it stands, claimed for this write: its version goes up by one. Refused when somebody was there first, or it is gone. */
export async function claimNotion(
  { tx, touch }: Pick<Write, 'tx' | 'touch'>,
  { id, version }: { id: string; version: number },
): Promise<Result<HeldNotion, Extract<NotionRefusal, { kind: 'changed-meanwhile' }>>> {
  const claimed = await tx.notion.updateMany({ where: { id, version, goneAt: null }, data: { version: { increment: 1 } } })
  if (claimed.count === 0) return refused({ kind: 'changed-meanwhile' })
  touch('notion', id)
  const held = await tx.notion.findUniqueOrThrow({ where: { id }, select: heldColumns })
  return ok({ ...held, kind: held.kind as NotionKind })
}

/** Refused while a project has it. */
export const refuseInUse = ({ project }: HeldNotion): Result<null, Extract<NotionRefusal, { kind: 'in-use' }>> =>
  project ? refused({ kind: 'in-use', title: project.design.title }) : ok(null)

/** One line of the journal about a notion. Its `wholeDelta`s sum to its count while it is held and to 0 once it is gone. */
export async function journalNotion(
  { tx, revision, at }: Pick<Write, 'tx' | 'revision' | 'at'>,
  movement: Omit<Prisma.MovementUncheckedCreateInput, 'id' | 'revision' | 'at' | 'notionId'> & { notionId: string },
): Promise<void> {
  const { notionId, kind, who = null } = movement
  if (seenKinds.some((seen) => seen === kind)) await settleSeen({ tx, at }, { notionId }, who)
  await settleThing(tx, { notionId }, calendarDay(at))
  await tx.movement.create({ data: { id: newId(), revision, at, ...movement } })
}
