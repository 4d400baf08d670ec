import type { CorrectRefused } from '#lib/db/stock/correct-batch'
import type { MergeRefused } from '#lib/db/stock/merge-batches'
import type { MoveRefused } from '#lib/db/stock/move-batch'
import type { PromiseRefused } from '#lib/db/stock/promise-stock'
import type { ReceiveRefused } from '#lib/db/stock/receive-thread'
import type { UseRefused } from '#lib/db/stock/record-use'
import type { RelabelRefused } from '#lib/db/stock/relabel-batch'
import type { ReturnRefused } from '#lib/db/stock/return-batch'
import type { SplitRefused } from '#lib/db/stock/split-batch'
import type { TakeRefused } from '#lib/db/stock/take-thread'
import type { TransferRefused } from '#lib/db/stock/transfer-batch'
import { formatThreadLength } from '#lib/quantity/thread-length'
import type { PartRefused } from '#lib/stock/part-length'
import { Problem } from './problem'

export type StockRefusal =
  | CorrectRefused
  | MoveRefused
  | ReceiveRefused
  | ReturnRefused
  | TakeRefused
  | TransferRefused
  | UseRefused
  | RelabelRefused
  | SplitRefused
  | MergeRefused
  | PromiseRefused

const strand = (tenths: number): string => `${formatThreadLength(tenths, 'm')} of one strand`

/** An id in the body that names nothing. */
export const noSuch = (what: string, field: string): Problem =>
  new Problem('invalid', `${field}: there is no such ${what}.`, {
    errors: [{ field: `/${field}`, message: `There is no such ${what}.` }],
  })

/** A part as it was said could not be read. */
export function describePartRefusal(refusal: PartRefused): Problem {
  const [message, accepted] = partSentences[refusal.kind]
  return new Problem('invalid', `part: ${message}`, { errors: [{ field: '/part', message, accepted }] })
}

const partSentences: Record<PartRefused['kind'], [message: string, accepted: string]> = {
  'not-a-part': ['It is not a part.', '2.5 m, 1/2, 3.1 g, some'],
  'not-a-fraction': ['It is not a fraction of one put-up.', '1/4, 1/2, 3/4'],
  'no-full-weight': ['What a full put-up weighs is not on record.', 'a length or a fraction'],
  'too-long': ['It is too long for a part.', 'whole put-ups beside it'],
}

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
      return noSuch('place', verb === 'receive' || verb === 'split' ? 'homePlaceId' : 'toPlaceId')
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
    case 'nothing-parted':
      return new Problem('refused', 'Nothing is parted off: no put-up and no part.')
    case 'nothing-left':
      return new Problem('refused', 'That is all there is of it; move it instead.')
    case 'same-batch':
      return new Problem('refused', 'A batch cannot be laid together with itself.')
    case 'marks-differ':
      return new Problem('refused', `They cannot be laid together, for these differ: ${refusal.differs.join(', ')}.`)
    case 'lot-unmarked':
      return new Problem(
        'refused',
        'Neither has a lot mark and lots of their line are kept apart: nobody can say that they match.',
      )
    case 'not-open':
      return new Problem('refused', `Nothing can be promised to a project that is ${refusal.status}.`)
    case 'other-owner':
      return new Problem('refused', 'The batch is not of the owner whose goods the project is stitched from.')
  }
}
