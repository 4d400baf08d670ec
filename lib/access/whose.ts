import { createHash } from 'node:crypto'
import type { Who } from './who'

/**
 * Whose look an answer is: the same for the same account as long as it may see the same, and saying nothing of it. What a device keeps is
 * kept by this name, and thrown away when another comes.
 */
export function whoseOf(who: Who): string {
  if (who.kind !== 'account') return who.kind
  const sees = who.ownerIds === null ? 'all' : who.ownerIds.toSorted().join(' ')
  return createHash('sha256').update(`${who.accountId} ${who.role} ${sees}`).digest('base64url').slice(0, 22)
}
