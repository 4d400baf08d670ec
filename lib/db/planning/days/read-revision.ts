import 'server-only'
import { database } from '../../client'

/** Raised by every write: as long as it is the same, so is the collection. */
export async function readRevision(): Promise<number> {
  const { number } = await database().prisma.revision.findUniqueOrThrow({ where: { id: 'main' }, select: { number: true } })
  return number
}
