import 'server-only'
import { database } from '../client'
import { thumbName } from '../photo/photo-files'

/** A chart's cover by the names of its picture and of the small one beside it. */
export type CoverNames = { file: string; thumb: string }

const idsAtOnce = 500

/** The covers of these charts, by id; those that have none are left out. */
export async function readCovers(chartIds: readonly string[]): Promise<Map<string, CoverNames>> {
  const ids = [...new Set(chartIds)]
  const covers = new Map<string, CoverNames>()
  for (let from = 0; from < ids.length; from += idsAtOnce) {
    const rows = await database().prisma.chart.findMany({
      where: { id: { in: ids.slice(from, from + idsAtOnce) }, coverFile: { not: null } },
      select: { id: true, coverFile: true },
    })
    for (const { id, coverFile } of rows) if (coverFile !== null) covers.set(id, { file: coverFile, thumb: thumbName(coverFile) })
  }
  return covers
}
