import { expect, it } from 'vitest'
import { type BatchNow, findRunOut, type PastMovement } from '#lib/stock/run-out'
import { skein } from './batches'

const at = (day: number) => new Date(Date.UTC(2026, 8, day))
const batch = (change: Partial<BatchNow> = {}): BatchNow => ({
  id: 'b1',
  ownerId: 'shop',
  wholePutUps: 0,
  partStrandTenths: 0,
  isSomeHeld: false,
  ...change,
})
const moved = (revision: number, change: Partial<PastMovement>): PastMovement => ({
  batchId: 'b1',
  revision,
  at: at(revision),
  kind: 'use',
  wholeDelta: 0,
  partDeltaStrandTenths: 0,
  fromOwnerId: null,
  toOwnerId: null,
  ...change,
})
const ownerIds = ['shop']

it('finds the movement that took the last of it', () => {
  const movements = [moved(3, { partDeltaStrandTenths: -100 }), moved(2, { wholeDelta: -1, partDeltaStrandTenths: 100 })]
  expect(findRunOut({ batches: [batch()], movements, ownerIds })).toEqual({
    at: at(3),
    revision: 3,
    kind: 'use',
    isHeldAgain: false,
  })
})

it('says when some has come in since', () => {
  const movements = [moved(4, { kind: 'receive', wholeDelta: 2 }), moved(3, { wholeDelta: -1 })]
  expect(findRunOut({ batches: [batch({ wholePutUps: 2 })], movements, ownerIds })).toMatchObject({
    revision: 3,
    isHeldAgain: true,
  })
})

it('does not take a batch that is parted, taken out or laid with another for one that ran out', () => {
  const batches = [batch({ wholePutUps: 0 }), batch({ id: 'b2', wholePutUps: 1 })]
  const movements = [moved(5, { kind: 'split', wholeDelta: -1 }), moved(5, { batchId: 'b2', kind: 'take', wholeDelta: 1 })]
  expect(findRunOut({ batches, movements, ownerIds })).toBeNull()
})

it('minds whose it was: what is passed on is gone for one and has come for the other', () => {
  const batches = [batch({ ownerId: 'hanne', wholePutUps: 1 })]
  const movements = [moved(6, { kind: 'transfer', fromOwnerId: 'shop', toOwnerId: 'hanne' })]
  expect(findRunOut({ batches, movements, ownerIds })).toMatchObject({ revision: 6, kind: 'transfer', isHeldAgain: false })
  expect(findRunOut({ batches, movements, ownerIds: ['hanne'] })).toBeNull()
})

it('finds nothing where some is left, or nothing was there all along', () => {
  expect(findRunOut({ batches: [batch({ wholePutUps: 1 })], movements: [moved(1, { wholeDelta: -1 })], ownerIds })).toBeNull()
  expect(findRunOut({ batches: [batch()], movements: [], ownerIds })).toBeNull()
  expect(
    findRunOut({ batches: [batch({ isSomeHeld: true })], movements: [moved(1, { partDeltaStrandTenths: -skein })], ownerIds }),
  ).toBeNull()
})
