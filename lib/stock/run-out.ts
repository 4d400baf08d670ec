import type { MovementKind } from './stock-change'

/** A batch of one thread as it stands now, also one that is gone. */
export type BatchNow = { id: string; ownerId: string; wholePutUps: number; partStrandTenths: number; isSomeHeld: boolean }

export type PastMovement = {
  batchId: string
  revision: number
  at: Date
  kind: MovementKind
  wholeDelta: number
  partDeltaStrandTenths: number
  fromOwnerId: string | null
  toOwnerId: string | null
}

export type RunOut = {
  at: Date
  revision: number
  /** What the last of it went by. */
  kind: MovementKind
  /** Some has come in since. */
  isHeldAgain: boolean
}

/**
 * When these owners' stock of one thread last came to nothing within the movements handed in: walked back from what there is now,
 * one write at a time, so that what was only parted, moved or laid together does not count.
 *
 * @param batches    All of the thread's that are of these owners or named by a movement.
 * @param movements  All of them after some moment; their order makes no difference.
 * @param before     Only what came to nothing before this moment is meant.
 * @returns null when it did not.
 */
export function findRunOut(input: {
  batches: readonly BatchNow[]
  movements: readonly PastMovement[]
  ownerIds: readonly string[]
  before?: Date
}): RunOut | null {
  const balances = new Map(input.batches.map((batch) => [batch.id, { ...batch }]))
  const isHeld = () =>
    [...balances.values()].some(
      (batch) =>
        input.ownerIds.includes(batch.ownerId) && (batch.wholePutUps > 0 || batch.partStrandTenths > 0 || batch.isSomeHeld),
    )
  const byRevision = new Map<number, PastMovement[]>()
  for (const movement of input.movements) {
    byRevision.set(movement.revision, [...(byRevision.get(movement.revision) ?? []), movement])
  }
  const isHeldNow = isHeld()
  let isHeldAfter = isHeldNow
  for (const revision of [...byRevision.keys()].sort((a, b) => b - a)) {
    const movements = byRevision.get(revision) as PastMovement[]
    for (const movement of movements) {
      const batch = balances.get(movement.batchId)
      if (!batch) continue
      // Whether an unknown rest was there before is not on record.
      if (movement.kind !== 'transfer') batch.isSomeHeld = false
      batch.wholePutUps -= movement.wholeDelta
      batch.partStrandTenths -= movement.partDeltaStrandTenths
      if (movement.kind === 'transfer' && movement.fromOwnerId !== null) batch.ownerId = movement.fromOwnerId
    }
    const isHeldBefore = isHeld()
    if (isHeldBefore && !isHeldAfter) {
      const last = movements.find(
        ({ kind, wholeDelta, partDeltaStrandTenths }) => kind === 'transfer' || wholeDelta < 0 || partDeltaStrandTenths < 0,
      )
      const { at, kind } = last ?? (movements[0] as PastMovement)
      if (!input.before || at < input.before) return { at, revision, kind, isHeldAgain: isHeldNow }
    }
    isHeldAfter = isHeldBefore
  }
  return null
}
