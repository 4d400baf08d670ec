import 'server-only'
import type { KitItem, KitItemKind } from '#lib/project/kit/item'
import { type NotionHave, type NotionRow, type NotionWant, shareNotions } from '#lib/project/kit/reserves'
import { isOut } from '#lib/stock/batch'
import { database } from '../client'
import { openProjects } from '../place/place-counts'

/** The stock a kit's item is taken from, all rows of it together. */
type KitNotion = {
  id: string
  name: string
  size: string | null
  packOf: number | null
  priceMinor: number | null
  /** Where some of it lies that is not with another project. */
  placeIds: string[]
}

export type KitItemRow = KitItem & {
  /** Null where no stock is named, or it was taken off the list. */
  notion: KitNotion | null
  /** What there is of it for these kits; null where no stock is kept. */
  have: NotionHave | null
}

const itemColumns = {
  id: true,
  projectId: true,
  kind: true,
  name: true,
  perKit: true,
  notionId: true,
  priceMinor: true,
  note: true,
} as const

const notionColumns = {
  id: true,
  ownerId: true,
  kind: true,
  name: true,
  size: true,
  sizeKey: true,
  count: true,
  packOf: true,
  priceMinor: true,
  homePlaceId: true,
  currentPlaceId: true,
  projectId: true,
  goneAt: true,
} as const

/** Some of a notion may lie with a project while the rest is at home: rows that are the same thing of the same owner. */
const alikeKey = (row: { ownerId: string; kind: string; name: string; size: string | null; sizeKey: string | null }): string =>
  JSON.stringify([row.ownerId, row.kind, row.name, row.sizeKey ?? row.size])

/**
 * What each notion is wanted for by kits under way, the earliest set down first, and how many of it there are. Kits that are packed have
 * theirs; wishes want nothing yet.
 */
async function readNotionWants(ownerIds: readonly string[]): Promise<{
  rows: (NotionRow & { id: string })[]
  wants: (NotionWant & { notionId: string })[]
  alikeOf: Map<string, string>
  notions: Map<string, KitNotion>
}> {
  const { prisma } = database()
  const ofOwners = { in: [...ownerIds] }
  const [items, notionRows, packed] = await Promise.all([
    prisma.kitItem.findMany({
      where: { notionId: { not: null }, project: { ...openProjects, ownerId: ofOwners } },
      select: { id: true, projectId: true, perKit: true, notionId: true, project: { select: { quantity: true } } },
      orderBy: { id: 'asc' },
    }),
    prisma.notion.findMany({ where: { ownerId: ofOwners }, select: notionColumns, orderBy: { id: 'asc' } }),
    prisma.kitBag.groupBy({
      by: ['projectId'],
      where: { status: { in: ['packed', 'checked', 'sealed', 'sold'] }, project: { ...openProjects, ownerId: ofOwners } },
      _count: { _all: true },
    }),
  ])
  const packedOf = new Map(packed.map(({ projectId, _count }) => [projectId, _count._all]))
  const alikeOf = new Map(notionRows.map((row) => [row.id, alikeKey(row)]))
  const rows = notionRows
    .filter(({ goneAt }) => goneAt === null)
    .map((row) => ({ id: row.id, alike: alikeKey(row), count: row.count, isOut: isOut(row), projectId: row.projectId }))
  const wants = items.flatMap(({ id, projectId, perKit, notionId, project }) => {
    const alike = alikeOf.get(notionId ?? '')
    if (notionId === null || alike === undefined) return []
    const count = perKit * Math.max(0, project.quantity - (packedOf.get(projectId) ?? 0))
    return [{ itemId: id, notionId, projectId, alike, count }]
  })
  const placesOf = new Map<string, string[]>()
  for (const row of notionRows) {
    const placeId = row.currentPlaceId ?? row.homePlaceId
    if (row.goneAt !== null || row.projectId !== null || placeId === null) continue
    placesOf.set(alikeKey(row), [...new Set([...(placesOf.get(alikeKey(row)) ?? []), placeId])])
  }
  const notions = new Map(
    notionRows.map(({ id, name, size, packOf, priceMinor, ...row }) => {
      const placeIds = placesOf.get(alikeKey({ name, size, ...row })) ?? []
      return [id, { id, name, size, packOf, priceMinor, placeIds }]
    }),
  )
  return { rows, wants, alikeOf, notions }
}

/** How many of each notion kits under way want, and have not taken yet. By the notion they are set down to be taken from. */
export async function readForKits(ownerIds: readonly string[]): Promise<Map<string, number>> {
  const { rows, wants } = await readNotionWants(ownerIds)
  const shares = shareNotions(rows, wants)
  const forKits = new Map<string, number>()
  for (const { itemId, notionId, count } of wants)
    forKits.set(notionId, (forKits.get(notionId) ?? 0) + count - (shares.get(itemId)?.taken ?? 0))
  return forKits
}

/** The items of a project's kits in their order, with what there is of each for them. */
export async function readKitItems(project: {
  id: string
  ownerId: string
  quantity: number
  packed: number
}): Promise<KitItemRow[]> {
  const items = await database().prisma.kitItem.findMany({
    where: { projectId: project.id },
    select: itemColumns,
    orderBy: [{ position: 'asc' }, { id: 'asc' }],
  })
  if (items.every(({ notionId }) => notionId === null))
    return items.map(({ kind, projectId: _, ...item }) => ({ ...item, kind: kind as KitItemKind, notion: null, have: null }))
  const { rows, wants, alikeOf, notions } = await readNotionWants([project.ownerId])
  // A project that is wanted, or over, holds nothing back; it is asked as if it came last.
  const missing = items.flatMap(({ id, perKit, notionId }) => {
    const alike = alikeOf.get(notionId ?? '')
    if (notionId === null || alike === undefined || wants.some(({ itemId }) => itemId === id)) return []
    return [{ itemId: id, notionId, projectId: project.id, alike, count: perKit * (project.quantity - project.packed) }]
  })
  const shares = shareNotions(rows, [...wants, ...missing])
  return items.map(({ kind, projectId: _, ...item }) => {
    const notion = notions.get(item.notionId ?? '') ?? null
    return { ...item, kind: kind as KitItemKind, notion, have: notion && (shares.get(item.id) ?? null) }
  })
}
