import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import type { PartCertainty } from '#lib/stock/batch'
import { planReceive } from '#lib/stock/plan-amounts'
import { newId } from '../new-id'
import { ensurePlace } from '../place/ensure-place'
import { write } from '../write'
import type { Write } from '../write-gate'
import { applyStockChange, type ChangedMeanwhile } from './apply-stock-change'
import { hasOwner, hasPlace, type NoSuchOwner, type NoSuchPlace, type StockChanged } from './change-batch'
import { findEqualAtHome } from './find-equal-at-home'
import { ownWord } from './own-word'

export type ReceiveRefused =
  | { kind: 'no-such-thread'; threadId: string }
  | NoSuchOwner
  | NoSuchPlace
  | ChangedMeanwhile
  | { kind: 'nothing-received' }
  | { kind: 'not-equal'; batchId: string }

export type GoodsReceived = {
  threadId: string
  ownerId: string
  lot: string | null
  putUpStrandTenths?: number | null
  putUpWord?: string | null
  wholePutUps: number
  partStrandTenths: number
  partCertainty: PartCertainty
  homePlaceId: string | null
  homePlaceLabel?: string
  reason?: string | null
  who?: string | null
  /** The journal line's id, made by whoever sent it; left out, a new one. */
  movementId?: string
}

/**
 * Take thread into stock at its home: laid with an equal batch there, else as a new one.
 *
 * @param input.putUpStrandTenths  left out or null: the put-up its line is sold in
 * @param input.putUpWord          left out or null: what its line calls one
 * @param input.homePlaceLabel     its home by label, made when no place has it; left out, `homePlaceId` says which place it is
 * @throws {RangeError} as `planReceive`
 */
export const receiveThread = (input: GoodsReceived): Promise<Result<StockChanged, ReceiveRefused>> =>
  write<StockChanged, ReceiveRefused>((writing) => receiveWithin(writing, input))

/** `receiveThread` as a part of a larger write. */
export async function receiveWithin(writing: Write, input: GoodsReceived): Promise<Result<StockChanged, ReceiveRefused>> {
  const { tx, revision } = writing
  const { threadId, ownerId, homePlaceLabel } = input
  const thread = await tx.thread.findFirst({
    where: { id: threadId, goneAt: null },
    select: { line: { select: { putUpStrandTenths: true, putUpWord: true } } },
  })
  if (!thread) return refused({ kind: 'no-such-thread', threadId })
  if (!(await hasOwner(tx, ownerId))) return refused({ kind: 'no-such-owner', ownerId })
  const homePlaceId = homePlaceLabel === undefined ? input.homePlaceId : await ensurePlace(writing, homePlaceLabel)
  if (homePlaceId !== null && !(await hasPlace(tx, homePlaceId))) return refused({ kind: 'no-such-place', placeId: homePlaceId })

  const goods = {
    threadId,
    ownerId,
    lot: input.lot,
    putUpWord: ownWord(input.putUpWord ?? null, thread.line.putUpWord),
    putUpStrandTenths: input.putUpStrandTenths ?? thread.line.putUpStrandTenths,
    wholePutUps: input.wholePutUps,
    partStrandTenths: input.partStrandTenths,
    partCertainty: input.partCertainty,
    homePlaceId,
    currentPlaceId: homePlaceId,
  }
  const into = await findEqualAtHome(tx, goods)
  const planned = planReceive({ goods, into: into?.batch, newBatchId: newId(), reason: input.reason })
  if (!planned.ok) return planned
  const versions = new Map(into ? [[into.batch.id, into.version]] : [])
  const applied = await applyStockChange(writing, planned.value, {
    ...{ versions, who: input.who },
    movementIds: input.movementId === undefined ? [] : [input.movementId],
  })
  return applied.ok ? ok({ batchId: planned.value.batches[0]?.id as string, revision }) : applied
}
