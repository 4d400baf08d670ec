import 'server-only'
import { NotAllowed } from '#lib/access/not-allowed'
import { mayDo, type Right } from '#lib/access/who'
import { asking, who } from './asking'

/** Go on only where whoever asks may do that. */
export function requireRight(right: Right): void {
  if (!mayDo(who(), right)) throw new NotAllowed(right, { isPlainForm: asking()?.isPlainForm ?? false })
}

/** Go on where it is their own account, or they keep house. A token never stands for its holder's own hand here. */
export function requireSelfOrKeeper(accountId: string): void {
  const asks = who()
  if (asks.kind === 'account' && asks.accountId === accountId && asks.by.kind === 'session') return
  requireRight('keep')
}
