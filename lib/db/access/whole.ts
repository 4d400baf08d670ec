import 'server-only'
import { NotAllowed } from '#lib/access/not-allowed'
import { seenOwners } from '#lib/access/who'
import { who } from './asking'

/** Go on only where whoever asks sees everybody's goods: for what holds against each other, takes out or sets right the whole collection. */
export function requireWhole(): void {
  if (seenOwners(who()) !== null) throw new NotAllowed('keep')
}
