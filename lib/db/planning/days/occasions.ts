import 'server-only'
import type { OccasionWorld, OwnOccasion } from '#lib/planning/days/occasions'
import type { Transaction } from '../../client'
import { database } from '../../client'
import { getSettings } from '../../settings/settings'

export type KeptOccasion = OwnOccasion & { version: number; owner: { id: string; name: string } }

/** The days these owners keep besides the known feasts, by name. */
export const listOwnOccasions = (
  ownerIds: readonly string[],
  tx: Pick<Transaction, 'occasion'> = database().prisma,
): Promise<KeptOccasion[]> =>
  tx.occasion.findMany({
    where: { ownerId: { in: [...ownerIds] } },
    select: { id: true, name: true, rule: true, version: true, owner: { select: { id: true, name: true } } },
    orderBy: [{ nameKey: 'asc' }, { id: 'asc' }],
  })

/** All occasions known to these owners. */
export async function readOccasionWorld(ownerIds: readonly string[]): Promise<OccasionWorld> {
  const [{ planning }, own] = await Promise.all([getSettings(), listOwnOccasions(ownerIds)])
  return { country: planning.country, own: own.map(({ id, name, rule }) => ({ id, name, rule })) }
}
