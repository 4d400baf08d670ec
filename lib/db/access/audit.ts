import 'server-only'
import { type AuditFact, forLog } from '#lib/access/audit'
import type { Transaction } from '../client'
import { newId } from '../new-id'
import { asking } from './asking'

type Entry = AuditFact & {
  at: Date
  revision?: number
  /** Whose doing it was, where that is not whoever asks: somebody signing in. */
  account?: { id: string | null; name: string }
}

/** Add a line to the log of who did what, in the transaction of what it tells of. Nothing is ever taken off it. */
export async function addAuditEntry(tx: Transaction, { kind, what, detail, at, revision, account }: Entry): Promise<void> {
  const request = asking()
  const asks = request?.who
  const doer = account ?? (asks?.kind === 'account' ? { id: asks.accountId, name: asks.name } : { id: null, name: '' })
  await tx.auditEntry.create({
    data: {
      id: newId(),
      at,
      kind,
      what,
      accountId: doer.id,
      accountName: forLog(doer.name),
      address: forLog(request?.address ?? '', 60),
      detailJson: JSON.stringify(detail ?? {}),
      revision: revision ?? null,
    },
  })
}
