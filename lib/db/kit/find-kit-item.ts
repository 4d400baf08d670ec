import 'server-only'
import type { KitItem, KitItemKind } from '#lib/project/kit/item'
import { database } from '../client'

/** What is written of one item of a project's kits, or null. */
export async function findKitItem(of: { projectId: string; itemId: string }): Promise<Omit<KitItem, 'id'> | null> {
  const row = await database().prisma.kitItem.findFirst({
    where: { id: of.itemId, projectId: of.projectId, project: { goneAt: null } },
    select: { kind: true, name: true, perKit: true, notionId: true, priceMinor: true, note: true },
  })
  return row && { ...row, kind: row.kind as KitItemKind }
}
