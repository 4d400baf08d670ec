import { NotAllowed } from '#lib/access/not-allowed'
import type { SignedIn } from '#lib/access/who'
import { who } from '#lib/db/access/asking'

type OnDevice = SignedIn & { by: { kind: 'session'; sessionId: string } }

/** Whoever is signed in on this device; null at a machine where nobody signs in. A token is no device. */
export function ownAccount(): OnDevice | null {
  const asks = who()
  return asks.kind === 'account' && asks.by.kind === 'session' ? { ...asks, by: asks.by } : null
}

/** Whoever is signed in on this device, for what only they themselves may do. */
export function requireOwnAccount(): OnDevice {
  const own = ownAccount()
  if (own === null) throw new NotAllowed('change')
  return own
}
