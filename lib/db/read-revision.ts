import 'server-only'
import { database } from './client'

/** The collection's revision at this moment: raised by every write. */
export async function readRevision(): Promise<number> {
  const { number } = await database().prisma.revision.findUniqueOrThrow({ where: { id: 'main' } })
  return number
}
