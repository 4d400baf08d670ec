import { describe, expect, it } from 'vitest'
import type { MovementLine } from '#lib/db/movement/thread-story'
import { byDay, describeMovement, describeStockRefusal, describeThreadRefusal, movementsToTell } from '../../../app/threads/words'

const figures = { strands: 6, unit: 'm' as const }
const thread = { ...figures, putUpWord: 'skein' }
const metre = 60_000

const aMovement = (over: Partial<MovementLine> = {}): MovementLine => ({
  ...{ id: 'm1', revision: 1, at: new Date('2026-03-01T09:00:00Z'), kind: 'receive', batchId: 'b1', lot: null },
  ...{ putUpStrandTenths: 480_000, wholeDelta: 0, partDeltaStrandTenths: 0, from: null, to: null, fromOwner: null },
  ...{ toOwner: null, projectTitle: null, who: null, reason: null },
  ...over,
})
const told = (over: Partial<MovementLine>) => describeMovement({ ...aMovement(over), isSplitOff: false }, thread)

describe('the history of a thread', () => {
  it('says what came in, what was used and where it went', () => {
    expect(told({ wholeDelta: 2, partDeltaStrandTenths: metre, to: 'T2.1' })).toBe('Came in: 2 skeins and 1 m, into T2.1')
    expect(told({ kind: 'use', wholeDelta: -1, partDeltaStrandTenths: 5 * metre, projectTitle: 'Rook Hill' })).toBe(
      'Used 3 m for Rook Hill',
    )
    expect(told({ kind: 'move', lot: '18', from: 'T2.1', to: 'T2.2' })).toBe('Moved all of lot 18 from T2.1 to T2.2')
  })

  it('tells a corrected figure from a corrected label', () => {
    expect(told({ kind: 'correct', wholeDelta: -1 })).toBe('Corrected: 8 m less')
    expect(told({ kind: 'correct', lot: '71' })).toBe('Corrected lot 71, the amount as it was')
  })

  it('tells a split by what was taken, once', () => {
    const split = aMovement({ id: 'a', kind: 'split', wholeDelta: -1 })
    const take = aMovement({ id: 'b', kind: 'take', wholeDelta: 1 })
    expect(movementsToTell([split, take]).map(({ id, isSplitOff }) => [id, isSplitOff])).toEqual([['b', true]])
    expect(movementsToTell([split]).map(({ id }) => id)).toEqual(['a'])
  })

  it('tells a batch parted in two, passed on in part, or laid with another once each', () => {
    const ids = (...movements: MovementLine[]) => movementsToTell(movements).map(({ id }) => id)
    const left = aMovement({ id: 'left', kind: 'split', wholeDelta: -1 })
    expect(ids(left, aMovement({ id: 'off', kind: 'split', wholeDelta: 1, batchId: 'b2' }))).toEqual(['off'])
    const passed = aMovement({ id: 'on', kind: 'transfer', wholeDelta: 1, fromOwner: 'Hanne', toOwner: 'Nell' })
    expect(ids(left, passed)).toEqual(['on'])
    const [told] = movementsToTell([left, passed])
    expect(told && describeMovement(told, thread)).toBe('Passed on 1 skein: from Hanne to Nell')
    const gone = aMovement({ id: 'gone', kind: 'merge', wholeDelta: -2 })
    expect(ids(gone, aMovement({ id: 'joined', kind: 'merge', wholeDelta: 2, batchId: 'b2' }))).toEqual(['joined'])
  })

  it('says what an undo put back: an amount, a home, an owner', () => {
    expect(told({ kind: 'undo', wholeDelta: -2 })).toBe('Undone: 16 m taken off again')
    expect(told({ kind: 'undo', from: 'T3.1', to: 'T2.1' })).toBe('Undone: it lives in T2.1 again')
    expect(told({ kind: 'undo', fromOwner: 'Hanne', toOwner: 'Nell' })).toBe('Undone: back from Hanne to Nell')
  })

  it('is told day by day', () => {
    const at = (day: number, hour: number) => ({ at: new Date(2026, 2, day, hour) })
    const movements = [at(3, 9), at(2, 15), at(2, 9)].map((over, index) => aMovement({ id: `m${index}`, ...over }))
    const days = byDay(movementsToTell(movements))
    expect(days.map(({ dateTime, movements: told }) => [dateTime, told.map(({ id }) => id)])).toEqual([
      ['2026-03-03', ['m0']],
      ['2026-03-02', ['m1', 'm2']],
    ])
  })
})

describe('parting, laying together and passing on some', () => {
  const pair = (kind: MovementLine['kind'], other: MovementLine['kind']) => [
    aMovement({ id: 'a', kind, wholeDelta: -1, from: 'T2.1', to: 'T2.2' }),
    aMovement({ id: 'b', batchId: 'b2', kind: other, wholeDelta: 1, from: 'T2.1', to: 'T2.2' }),
  ]
  const tell = (movements: MovementLine[]) => movementsToTell(movements).map((movement) => describeMovement(movement, thread))

  it('is each told once', () => {
    expect(tell(pair('split', 'split'))).toEqual(['Parted: 1 skein from T2.1 to T2.2'])
    expect(tell(pair('merge', 'merge'))).toEqual(['Laid together: 1 skein to T2.2'])
    const passed = pair('split', 'transfer').map((movement) => ({ ...movement, fromOwner: 'the shop', toOwner: 'Hanne' }))
    expect(tell(passed)).toEqual(['Passed on 1 skein: from the shop to Hanne'])
  })

  it('names what keeps two stocks apart', () => {
    const refusal = { kind: 'marks-differ' as const, batchId: 'b1', differs: ['lot' as const, 'place' as const] }
    expect(describeStockRefusal(refusal, figures)).toBe(
      'They cannot be laid together: the lot and the place they lie in are not the same.',
    )
  })
})

describe('why stock or a thread was left as it was', () => {
  it('gives the lengths as the person reckons them', () => {
    const refusal = { kind: 'not-enough' as const, batchId: 'b1', heldStrandTenths: 2 * metre, requestedStrandTenths: 3 * metre }
    expect(describeStockRefusal(refusal, figures)).toBe('Only 2 m is there; 3 m is asked for.')
  })

  it('counts what stands in the way', () => {
    expect(describeStockRefusal({ kind: 'promised', batchId: 'b1', projectIds: ['p', 'q'] }, figures)).toContain('2 projects')
    expect(describeThreadRefusal({ kind: 'strands-in-use', batchCount: 2, statedCount: 1 })).toContain(
      '2 batches of stock and 1 stated amount in keys are measured',
    )
    expect(describeThreadRefusal({ kind: 'thread-in-use', heldBatchCount: 1, designCount: 0 })).toContain('1 batch')
  })
})
