import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import type { Transaction } from '../client'
import { type ReceiveRefused, receiveWithin } from '../stock/receive-thread'
import { write } from '../write'
import type { Write } from '../write-gate'

export type DeliveryEntry = {
  /** Made by whoever sends it; it becomes the id of the journal's line, so that sending it twice receives it once. */
  entryId: string
  threadId: string
  ownerId: string
  wholePutUps: number
  lot: string | null
  /** Null: as the line says. */
  putUpWord: string | null
  /** Null: of the order if there is one, else as the line says. */
  putUpStrandTenths: number | null
  homePlaceId: string | null
  /** Its home by label, made when no place has it; null: `homePlaceId` says which. */
  homePlaceLabel: string | null
  /** What it was ordered by: as much of the order has come then. */
  orderId: string | null
  who?: string | null
}

export type DeliveryDone = {
  batchId: string
  /** It had been received before: nothing was done. */
  isRepeat: boolean
  home: { id: string; label: string } | null
}

export type DeliveryRefused =
  | ReceiveRefused
  /** It is closed, or of another thread or owner. */
  | { kind: 'no-such-order'; orderId: string }
  /** The id is of another line of the journal. */
  | { kind: 'entry-id-taken'; entryId: string }

/**
 * Receive one entry of a delivery: whole put-ups of one thread, laid with their like at their home. The same entry sent again is
 * answered and not received again, also after a restart.
 */
export function enterDelivery(entry: DeliveryEntry): Promise<Result<DeliveryDone, DeliveryRefused>> {
  return write<DeliveryDone, DeliveryRefused>(async (writing) => {
    const { tx } = writing
    const { entryId, threadId, ownerId } = entry
    const before = await tx.movement.findUnique({
      where: { id: entryId },
      select: { kind: true, batchId: true, batch: { select: { threadId: true } }, toPlace: homeColumns },
    })
    if (before) {
      if (before.kind !== 'receive' || before.batchId === null || before.batch?.threadId !== threadId)
        return refused({ kind: 'entry-id-taken', entryId })
      return ok({ batchId: before.batchId, isRepeat: true, home: before.toPlace })
    }
    const ordered = entry.orderId === null ? null : await comeOfOrder(writing, entry, entry.orderId)
    if (ordered && !ordered.ok) return ordered
    const received = await receiveWithin(writing, {
      ...{ threadId, ownerId, lot: entry.lot, putUpWord: entry.putUpWord, wholePutUps: entry.wholePutUps },
      putUpStrandTenths: entry.putUpStrandTenths ?? ordered?.value.putUpStrandTenths ?? null,
      ...{ partStrandTenths: 0, partCertainty: 'none', homePlaceId: entry.homePlaceId },
      ...(entry.homePlaceLabel !== null && { homePlaceLabel: entry.homePlaceLabel }),
      ...{ who: entry.who ?? null, movementId: entryId },
    })
    if (!received.ok) return received
    const { homePlace } = await tx.batch.findUniqueOrThrow({
      where: { id: received.value.batchId },
      select: { homePlace: homeColumns },
    })
    return ok({ batchId: received.value.batchId, isRepeat: false, home: homePlace })
  })
}

const homeColumns = { select: { id: true, label: true } } as const

/** Put down that so much of an order has come, or, with less than nothing, that it has not. */
async function comeOfOrder(
  { tx, at }: Pick<Write, 'tx' | 'at'>,
  entry: Pick<DeliveryEntry, 'threadId' | 'ownerId' | 'wholePutUps'>,
  orderId: string,
): Promise<Result<{ putUpStrandTenths: number }, { kind: 'no-such-order'; orderId: string }>> {
  const order = await tx.threadOrder.findFirst({
    where: { id: orderId, threadId: entry.threadId, ownerId: entry.ownerId, closedAt: null },
    select: { putUps: true, receivedPutUps: true, putUpStrandTenths: true },
  })
  if (!order) return refused({ kind: 'no-such-order', orderId })
  const receivedPutUps = order.receivedPutUps + entry.wholePutUps
  await tx.threadOrder.update({
    where: { id: orderId },
    data: { receivedPutUps, closedAt: receivedPutUps >= order.putUps ? at : null, version: { increment: 1 } },
  })
  return ok({ putUpStrandTenths: order.putUpStrandTenths })
}

/** So much of an order has not come after all; an order that was closed by it is open again. */
export async function notComeOfOrder(
  tx: Transaction,
  order: { id: string; threadId: string; wholePutUps: number },
): Promise<void> {
  const row = await tx.threadOrder.findFirst({
    where: { id: order.id, threadId: order.threadId },
    select: { receivedPutUps: true, putUps: true, closedAt: true },
  })
  if (!row) return
  const receivedPutUps = Math.max(0, row.receivedPutUps - order.wholePutUps)
  const wasFilled = row.receivedPutUps >= row.putUps
  await tx.threadOrder.update({
    where: { id: order.id },
    data: {
      receivedPutUps,
      closedAt: wasFilled && receivedPutUps < row.putUps ? null : row.closedAt,
      version: { increment: 1 },
    },
  })
}
