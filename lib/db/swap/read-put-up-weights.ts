import 'server-only'
import { database } from '../client'

/** What a full put-up of a line weighs, in milligrams, for the lines that were weighed: it tells how thick their strands are. */
export async function readPutUpWeights(): Promise<Map<string, number>> {
  const rows = await database().prisma.threadLine.findMany({
    where: { putUpMilligrams: { not: null } },
    select: { id: true, putUpMilligrams: true },
  })
  return new Map(rows.map(({ id, putUpMilligrams }) => [id, putUpMilligrams ?? 0]))
}
