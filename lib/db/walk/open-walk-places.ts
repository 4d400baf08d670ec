import 'server-only'
import { database } from '../client'

/** Lines looked at: the lists of a day, not of a year. */
const mostLines = 500

/** Where the things of open walks are now, the places with most lines first. */
export async function listOpenWalkPlaceIds(): Promise<string[]> {
  const place = { select: { homePlaceId: true, currentPlaceId: true } } as const
  const rows = await database().prisma.walkLine.findMany({
    where: { walk: { status: 'open' }, carriedAt: null },
    select: { batch: place, clothPiece: place, chart: place, notion: place },
    orderBy: { id: 'asc' },
    take: mostLines,
  })
  const lines = new Map<string, number>()
  for (const { batch, clothPiece, chart, notion } of rows) {
    const thing = batch ?? clothPiece ?? chart ?? notion
    const placeId = thing?.currentPlaceId ?? thing?.homePlaceId
    if (placeId) lines.set(placeId, (lines.get(placeId) ?? 0) + 1)
  }
  return [...lines].sort(([a, n], [b, m]) => m - n || (a < b ? -1 : 1)).map(([id]) => id)
}
