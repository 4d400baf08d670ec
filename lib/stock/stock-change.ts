import type { Batch } from './batch'

export const movementKinds = [
  'receive',
  'use',
  'move',
  'take',
  'return',
  'split',
  'merge',
  'correct',
  'transfer',
  'cut',
  'undo',
] as const

export type MovementKind = (typeof movementKinds)[number]

/** One line of the journal before it is numbered and dated. A batch's amounts are the sums of its deltas. */
export type MovementDraft = {
  kind: MovementKind
  batchId: string
  wholeDelta: number
  partDeltaStrandTenths: number
  fromPlaceId: string | null
  toPlaceId: string | null
  fromOwnerId: string | null
  toOwnerId: string | null
  projectId: string | null
  reason: string | null
}

/** A batch as it is to be written. `isGone` marks one that was merged into another and is shown no more. */
export type BatchAfter = Batch & { isNew: boolean; isGone: boolean; parentId: string | null }

/** What a project is to have promised of a batch: its one promise on it becomes this much; 0 removes it. */
export type PromiseAfter = { batchId: string; projectId: string; strandTenths: number }

export type StockChange = { batches: BatchAfter[]; movements: MovementDraft[]; promises: PromiseAfter[] }

export type NotEnough = { kind: 'not-enough'; batchId: string; heldStrandTenths: number; requestedStrandTenths: number }

export type NotEnoughFree = { kind: 'not-enough-free'; batchId: string; freeStrandTenths: number; requestedStrandTenths: number }

/** Nothing is parted off: no put-up and no part was asked for, or none is there. */
export type NothingParted = { kind: 'nothing-parted'; batchId: string }

export type Promised = { kind: 'promised'; batchId: string; projectIds: string[] }

export type AlreadyTheirs = { kind: 'already-theirs'; ownerId: string }

export type AlreadyThere = { kind: 'already-there'; batchId: string; placeId: string }

/** A batch that was there before, as it is after a change. */
export const after = (batch: Batch, change: Partial<Batch> = {}): BatchAfter => ({
  ...batch,
  ...change,
  isNew: false,
  isGone: false,
  parentId: null,
})

/** A line of the journal on one batch that says no more than `change` does. */
export const draft = (kind: MovementKind, batch: Batch, change: Partial<MovementDraft> = {}): MovementDraft => ({
  kind,
  batchId: batch.id,
  wholeDelta: 0,
  partDeltaStrandTenths: 0,
  fromPlaceId: null,
  toPlaceId: null,
  fromOwnerId: null,
  toOwnerId: null,
  projectId: null,
  reason: null,
  ...change,
})

export function assertWhole(caller: string, name: string, value: number, least: number): void {
  if (!Number.isSafeInteger(value) || value < least) throw new RangeError(`${caller}: ${name} ${value}`)
}

/** What two batches must have in common for one row to hold both. */
export const batchMarks = ['threadId', 'ownerId', 'lot', 'putUpWord', 'putUpStrandTenths', 'homePlaceId'] as const

export type BatchMark = (typeof batchMarks)[number]

/** Same thread, owner, lot, kind and length of put-up, and home: one row can hold both. */
export const isEqualBatch = (a: Batch, b: Batch): boolean => batchMarks.every((mark) => a[mark] === b[mark])
