import type { Role, SignedIn } from '#lib/access/who'
import type { Asking } from '#lib/db/access/asking'

type AskedAs = { accountId: string; name?: string; role?: Role; by?: SignedIn['by'] }

/** A request by somebody signed in, on a device unless `by` says otherwise. */
export const askingAs = ({
  accountId,
  name = 'Corrie Dunn',
  role = 'helper',
  by = { kind: 'session', sessionId: 'here' },
}: AskedAs): Asking => ({
  who: { kind: 'account', accountId, name, role, ownerIds: null, by },
  address: '192.168.1.20',
  onceKey: null,
})
