import type { CorrectRefused } from '#lib/db/stock/correct-batch'
import type { MoveRefused } from '#lib/db/stock/move-batch'
import type { ReceiveRefused } from '#lib/db/stock/receive-thread'
import type { UseRefused } from '#lib/db/stock/record-use'
import type { ReturnRefused } from '#lib/db/stock/return-batch'
import type { TakeRefused } from '#lib/db/stock/take-thread'
import type { TransferRefused } from '#lib/db/stock/transfer-batch'
import { formatThreadLength } from '#lib/quantity/thread-length'
import { Problem } from './problem'

export type StockRefusal =
  | CorrectRefused
  | MoveRefused
  | ReceiveRefused
  | ReturnRefused
  | TakeRefused
  | TransferRefused
  | UseRefused

const strand = (tenths: number): string => `${formatThreadLength(tenths, 'm')} of one strand`

/** An id in the body that names nothing. */
export const noSuch = (what: string, field: string): Problem =>
  new Problem('invalid', `${field}: there is no such ${what}.`, {
    errors: [{ field: `/${field}`, message: `There is no such ${what}.` }],
  })

/** Why stock was not changed, in words. */
export function describeStockRefusal(refusal: StockRefusal, verb: string): Problem {
  switch (refusal.kind) {
    case 'no-such-thread':
      return noSuch('thread', 'threadId')
    case 'no-such-batch':
      return noSuch('batch', 'batchId')
    case 'no-such-project':
      return noSuch('project', 'projectId')
    case 'no-such-owner':
      return noSuch('owner', verb === 'transfer' ? 'toOwnerId' : 'ownerId')
    case 'no-such-place':
      return noSuch('place', verb === 'receive' ? 'homePlaceId' : 'toPlaceId')
    case 'changed-meanwhile':
      return new Problem('refused', 'The batch was changed meanwhile. Read it again, then ask with its new version.')
    case 'nothing-received':
      return new Problem('refused', 'Nothing is received: no put-up and no part.')
    case 'not-equal':
      return new Problem('refused', 'It cannot be laid with what lies at its home: another lot, put-up or owner.')
    case 'not-enough':
      return new Problem(
        'refused',
        `The batch holds ${strand(refusal.heldStrandTenths)}, less than ${strand(refusal.requestedStrandTenths)}.`,
      )
    case 'not-enough-free':
      return new Problem(
        'refused',
        `${strand(refusal.freeStrandTenths)} of the batch is free, less than ${strand(refusal.requestedStrandTenths)}; the rest is promised to other projects.`,
      )
    case 'already-there':
      return new Problem('refused', 'It is there already.')
    case 'not-out':
      return new Problem('refused', 'It is not out.')
    case 'no-reason':
      return new Problem('refused', 'A correction wants its reason.')
    case 'no-change':
      return new Problem('refused', 'The record says so already.')
    case 'already-theirs':
      return new Problem('refused', 'It is theirs already.')
    case 'promised':
      return new Problem('refused', 'It is promised to projects of its owner; free those promises first.')
  }
}
