import 'server-only'
import type { Write } from '../write-gate'
import { journalNotion } from './claim-notion'

/** Carry what a project uses, and lies in its old bag, to the new one. What lives in the old bag stays there. */
export async function carryNotions(
  write: Write,
  carried: { projectId: string; fromPlaceId: string; toPlaceId: string; who?: string | null },
): Promise<void> {
  const { tx, at, touch } = write
  const { projectId, fromPlaceId, toPlaceId, who = null } = carried
  const inUse = await tx.notion.findMany({
    where: { projectId, currentPlaceId: fromPlaceId, goneAt: null },
    select: { id: true, homePlaceId: true, outSince: true },
    orderBy: { id: 'asc' },
  })
  for (const { id, homePlaceId, outSince } of inUse) {
    if (homePlaceId === fromPlaceId) continue
    const isAtHome = homePlaceId === null || homePlaceId === toPlaceId
    await tx.notion.update({
      where: { id },
      data: { currentPlaceId: toPlaceId, outSince: isAtHome ? null : (outSince ?? at), version: { increment: 1 } },
    })
    touch('notion', id)
    await journalNotion(write, { kind: 'take', notionId: id, fromPlaceId, toPlaceId, projectId, who })
  }
}
