import 'server-only'
import type { PhotoLook } from '#lib/photo/photo-look'
import { database } from '../client'
import { readLooks } from '../photo/photo-looks'

/** A chart's cover by the name of its picture, and how that looks before it has arrived. */
export type Cover = { file: string; look: PhotoLook | undefined }

const idsAtOnce = 500

/** The covers of these charts, by id; those that have none are left out. */
export async function readCovers(chartIds: readonly string[]): Promise<Map<string, Cover>> {
  const ids = [...new Set(chartIds)]
  const files = new Map<string, string>()
  for (let from = 0; from < ids.length; from += idsAtOnce) {
    const rows = await database().prisma.chart.findMany({
      where: { id: { in: ids.slice(from, from + idsAtOnce) }, coverFile: { not: null } },
      select: { id: true, coverFile: true },
    })
    for (const { id, coverFile } of rows) if (coverFile !== null) files.set(id, coverFile)
  }
  const looks = await readLooks(files.values())
  return new Map([...files].map(([id, file]) => [id, { file, look: looks.get(file) }]))
}
