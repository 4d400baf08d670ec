import 'server-only'
import type { Lab } from '#lib/colour/lab'
import { database } from '../client'
import { labOf } from '../lab-of'

export type ClothColour = { pieceId: string; label: string | null; name: string; colourName: string | null; lab: Lab }

const mostPieces = 300

/** These owners' pieces of cloth whose colour is on record, by name. */
export async function listClothColours(ownerIds: readonly string[]): Promise<ClothColour[]> {
  const rows = await database().prisma.clothPiece.findMany({
    where: { ownerId: { in: [...ownerIds] }, goneAt: null, labL: { not: null }, labA: { not: null }, labB: { not: null } },
    select: { id: true, label: true, name: true, colourName: true, labL: true, labA: true, labB: true },
    orderBy: [{ name: 'asc' }, { id: 'asc' }],
    take: mostPieces,
  })
  return rows.flatMap(({ id, label, name, colourName, ...colour }) => {
    const lab = labOf(colour)
    return lab ? [{ pieceId: id, label, name, colourName, lab }] : []
  })
}
