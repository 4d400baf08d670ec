import { describe, expect, it } from 'vitest'
import { knownStrandTenths } from '#lib/stock/batch'
import { pullOf } from '#lib/stock/part-off'
import { planCorrect, planReceive, planRelabel, planUse } from '#lib/stock/plan-amounts'
import { planMerge, planSplit, planTransfer, planTransferPart } from '#lib/stock/plan-batches'
import { planMove, planReturn, planTake } from '#lib/stock/plan-place'
import { planPromise, planRelease } from '#lib/stock/plan-promise'
import { aBatch, aPromise, skein } from './batches'

describe('receiving', () => {
  it('makes a new batch with what came', () => {
    const { id: _, ...goods } = aBatch({ lot: '18' })
    const plan = planReceive({ goods, newBatchId: 'b9', reason: 'invoice 12' })
    expect(plan).toMatchObject({
      ok: true,
      value: {
        batches: [{ id: 'b9', lot: '18', wholePutUps: 2, isNew: true }],
        movements: [
          { kind: 'receive', batchId: 'b9', wholeDelta: 2, toOwnerId: 'shop', toPlaceId: 'T2.1-14', reason: 'invoice 12' },
        ],
      },
    })
  })

  it('adds to an equal batch at home, and refuses another lot', () => {
    const { id: _, ...goods } = aBatch({ partStrandTenths: 100_000, partCertainty: 'guess' })
    const into = aBatch({ partStrandTenths: 50_000, partCertainty: 'measured' })
    expect(planReceive({ goods, into })).toMatchObject({
      ok: true,
      value: { batches: [{ id: 'b1', wholePutUps: 4, partStrandTenths: 150_000, partCertainty: 'guess', isNew: false }] },
    })
    expect(planReceive({ goods, into: aBatch({ lot: '18' }) })).toEqual({
      ok: false,
      error: { kind: 'not-equal', batchId: 'b1' },
    })
    expect(planReceive({ goods: { ...goods, wholePutUps: 0, partStrandTenths: 0 } })).toMatchObject({ ok: false })
  })
})

describe('using up', () => {
  it('uses up all there is, a part of unknown length too', () => {
    const batch = aBatch({ wholePutUps: 1, partCertainty: 'some' })
    expect(planUse(batch, { strandTenths: 'all', projectId: 'rooks', promises: [aPromise()] })).toMatchObject({
      ok: true,
      value: {
        batches: [{ wholePutUps: 0, partStrandTenths: 0, partCertainty: 'none' }],
        movements: [{ kind: 'use', wholeDelta: -1 }],
        promises: [{ batchId: 'b1', projectId: 'rooks', strandTenths: 0 }],
      },
    })
    const some = aBatch({ wholePutUps: 0, partCertainty: 'some' })
    expect(planUse(some, { strandTenths: 'all' })).toMatchObject({ ok: true, value: { batches: [{ partCertainty: 'none' }] } })
    expect(planUse(aBatch({ wholePutUps: 0 }), { strandTenths: 'all' })).toMatchObject({ error: { kind: 'not-enough' } })
    expect(planUse(aBatch(), { strandTenths: 'all', promises: [aPromise()] })).toMatchObject({
      error: { kind: 'not-enough-free', freeStrandTenths: skein },
    })
  })

  it('takes the part skein first and leaves the rest of the last put-up opened', () => {
    const batch = aBatch({ partStrandTenths: 200_000, partCertainty: 'measured' })
    expect(planUse(batch, { strandTenths: 300_000 })).toMatchObject({
      ok: true,
      value: {
        batches: [{ wholePutUps: 1, partStrandTenths: 380_000, partCertainty: 'label' }],
        movements: [{ kind: 'use', wholeDelta: -1, partDeltaStrandTenths: 180_000 }],
      },
    })
  })

  it('leaves a guess where the old part was one, and nothing where all is used', () => {
    const guessed = aBatch({ partStrandTenths: 200_000, partCertainty: 'guess' })
    expect(planUse(guessed, { strandTenths: 300_000 })).toMatchObject({ value: { batches: [{ partCertainty: 'guess' }] } })
    expect(planUse(guessed, { strandTenths: 200_000 })).toMatchObject({
      value: { batches: [{ wholePutUps: 2, partStrandTenths: 0, partCertainty: 'none' }] },
    })
  })

  it('keeps "some" beside whole put-ups, and makes it a guess once a put-up is opened', () => {
    const some = aBatch({ partCertainty: 'some' })
    expect(planUse(some, { strandTenths: skein })).toMatchObject({
      value: { batches: [{ wholePutUps: 1, partCertainty: 'some' }] },
    })
    expect(planUse(some, { strandTenths: 100_000 })).toMatchObject({
      value: { batches: [{ wholePutUps: 1, partStrandTenths: 380_000, partCertainty: 'guess' }] },
    })
  })

  it('refuses more than is held, and what others were promised', () => {
    expect(planUse(aBatch(), { strandTenths: 3 * skein })).toEqual({
      ok: false,
      error: { kind: 'not-enough', batchId: 'b1', heldStrandTenths: 2 * skein, requestedStrandTenths: 3 * skein },
    })
    expect(planUse(aBatch(), { strandTenths: 2 * skein, projectId: 'lanterns', promises: [aPromise()] })).toEqual({
      ok: false,
      error: { kind: 'not-enough-free', batchId: 'b1', freeStrandTenths: skein, requestedStrandTenths: 2 * skein },
    })
    expect(() => planUse(aBatch(), { strandTenths: 0.5 })).toThrow(RangeError)
  })

  it("brings the project's own promise down", () => {
    expect(planUse(aBatch(), { strandTenths: 300_000, projectId: 'rooks', promises: [aPromise()] })).toMatchObject({
      value: { promises: [{ batchId: 'b1', projectId: 'rooks', strandTenths: 180_000 }] },
    })
  })
})

describe('moving', () => {
  it('leaves the home, so that the batch is out, unless it is to live there', () => {
    expect(planMove(aBatch(), { toPlaceId: 'K-07', becomesHome: false })).toMatchObject({
      value: { batches: [{ homePlaceId: 'T2.1-14', currentPlaceId: 'K-07' }], movements: [{ kind: 'move', wholeDelta: 0 }] },
    })
    expect(planMove(aBatch(), { toPlaceId: 'T9', becomesHome: true })).toMatchObject({
      value: { batches: [{ homePlaceId: 'T9', currentPlaceId: 'T9' }] },
    })
    expect(planMove(aBatch(), { toPlaceId: 'T2.1-14', becomesHome: false })).toMatchObject({ ok: false })
  })

  it('records a change of owner, and refuses one of promised stock', () => {
    expect(planTransfer(aBatch(), { toOwnerId: 'Hanne Drewitt' })).toMatchObject({
      value: { movements: [{ kind: 'transfer', fromOwnerId: 'shop', toOwnerId: 'Hanne Drewitt' }] },
    })
    expect(planTransfer(aBatch(), { toOwnerId: 'Hanne Drewitt', promises: [aPromise()] })).toMatchObject({
      error: { kind: 'promised', projectIds: ['rooks'] },
    })
    expect(planTransfer(aBatch(), { toOwnerId: 'shop' })).toMatchObject({ error: { kind: 'already-theirs' } })
  })
})

describe('taking out and putting back', () => {
  it('splits off what is taken, and its promise goes along', () => {
    const take = {
      wholePutUps: 1,
      takesPart: false,
      toPlaceId: 'K-07',
      projectId: 'rooks',
      newBatchId: 'b2',
      promises: [aPromise()],
    }
    expect(planTake(aBatch(), take)).toMatchObject({
      value: {
        batches: [
          { id: 'b1', wholePutUps: 1, currentPlaceId: 'T2.1-14' },
          { id: 'b2', wholePutUps: 1, homePlaceId: 'T2.1-14', currentPlaceId: 'K-07', parentId: 'b1', isNew: true },
        ],
        movements: [
          { kind: 'split', batchId: 'b1', wholeDelta: -1 },
          { kind: 'take', batchId: 'b2', wholeDelta: 1, fromPlaceId: 'T2.1-14', toPlaceId: 'K-07' },
        ],
        promises: [
          { batchId: 'b1', projectId: 'rooks', strandTenths: 0 },
          { batchId: 'b2', projectId: 'rooks', strandTenths: skein },
        ],
      },
    })
  })

  it('moves the batch itself when nothing stays behind', () => {
    expect(planTake(aBatch(), { wholePutUps: 2, takesPart: false, toPlaceId: 'K-07' })).toMatchObject({
      value: { batches: [{ id: 'b1', currentPlaceId: 'K-07', isNew: false }], movements: [{ kind: 'take', wholeDelta: 0 }] },
    })
  })

  it('refuses what is not there and what others were promised', () => {
    const take = { wholePutUps: 2, takesPart: false, toPlaceId: 'K-07' }
    expect(planTake(aBatch(), { ...take, wholePutUps: 3 })).toMatchObject({ error: { kind: 'not-enough' } })
    expect(planTake(aBatch(), { ...take, takesPart: true })).toMatchObject({ error: { kind: 'not-enough' } })
    expect(planTake(aBatch(), { ...take, promises: [aPromise()] })).toMatchObject({ error: { kind: 'not-enough-free' } })
    expect(() => planTake(aBatch(), { ...take, wholePutUps: 0 })).toThrow(RangeError)
  })

  it('lifts out the part skein and what whole ones a length still wants', () => {
    const batch = aBatch({ partStrandTenths: 100_000, partCertainty: 'measured' })
    expect(pullOf(batch, 90_000)).toEqual({ wholePutUps: 0, takesPart: true })
    expect(pullOf(batch, 200_000)).toEqual({ wholePutUps: 1, takesPart: true })
    expect(pullOf(aBatch(), skein + 1)).toEqual({ wholePutUps: 2, takesPart: false })
    expect(() => pullOf(aBatch(), 3 * skein)).toThrow(RangeError)
  })

  it('joins an equal batch at home, promises and all', () => {
    const out = aBatch({ id: 'b2', wholePutUps: 0, partStrandTenths: 380_000, partCertainty: 'label', currentPlaceId: 'K-07' })
    const promises = [aPromise({ batchId: 'b2', strandTenths: 100_000 }), aPromise({ id: 'p2', strandTenths: 50_000 })]
    expect(planReturn(out, { atHome: aBatch(), promises })).toMatchObject({
      value: {
        batches: [
          { id: 'b1', wholePutUps: 2, partStrandTenths: 380_000 },
          { id: 'b2', wholePutUps: 0, partStrandTenths: 0, isGone: true },
        ],
        movements: [
          { kind: 'return', batchId: 'b2', partDeltaStrandTenths: -380_000 },
          { kind: 'merge', batchId: 'b1', partDeltaStrandTenths: 380_000 },
        ],
        promises: [
          { batchId: 'b2', strandTenths: 0 },
          { batchId: 'b1', strandTenths: 150_000 },
        ],
      },
    })
  })

  it('goes home alone when there is nothing equal, and refuses an unequal one or a batch that is not out', () => {
    const out = aBatch({ currentPlaceId: 'K-07' })
    expect(planReturn(out, {})).toMatchObject({ value: { batches: [{ id: 'b1', currentPlaceId: 'T2.1-14' }] } })
    expect(planReturn(out, { atHome: aBatch({ id: 'b2', lot: '22' }) })).toMatchObject({ error: { kind: 'not-equal' } })
    expect(planReturn(aBatch(), {})).toMatchObject({ error: { kind: 'not-out' } })
  })
})

describe('correcting', () => {
  it('sets the batch to what was counted, with the difference in the journal', () => {
    const counted = { wholePutUps: 1, partStrandTenths: 240_000, partCertainty: 'guess' as const, reason: ' half of one left ' }
    expect(planCorrect(aBatch(), counted)).toMatchObject({
      value: { movements: [{ kind: 'correct', wholeDelta: -1, partDeltaStrandTenths: 240_000, reason: 'half of one left' }] },
    })
    expect(planCorrect(aBatch(), { ...counted, reason: ' ' })).toEqual({ ok: false, error: { kind: 'no-reason' } })
    expect(planCorrect(aBatch(), { wholePutUps: 2, partStrandTenths: 0, partCertainty: 'none', reason: 'count' })).toEqual({
      ok: false,
      error: { kind: 'no-change' },
    })
    expect(() => planCorrect(aBatch(), { ...counted, partCertainty: 'some' })).toThrow(RangeError)
  })
})

describe('parting and laying together', () => {
  const batch = aBatch({ lot: '18', wholePutUps: 3, partStrandTenths: 100_000, partCertainty: 'guess' })

  it('makes what is parted off a batch of its own, with a home of its own, and leaves promises with the rest', () => {
    const split = { wholePutUps: 1, takesPart: true, homePlaceId: 'T9.1-02', newBatchId: 'b2', promises: [aPromise()] }
    expect(planSplit(batch, split)).toMatchObject({
      ok: true,
      value: {
        batches: [
          { id: 'b1', wholePutUps: 2, partStrandTenths: 0, partCertainty: 'none', homePlaceId: 'T2.1-14', isNew: false },
          {
            ...{ id: 'b2', lot: '18', wholePutUps: 1, partStrandTenths: 100_000, partCertainty: 'guess' },
            ...{ homePlaceId: 'T9.1-02', currentPlaceId: 'T9.1-02', isNew: true, parentId: 'b1' },
          },
        ],
        movements: [
          { kind: 'split', batchId: 'b1', wholeDelta: -1, partDeltaStrandTenths: -100_000, toPlaceId: 'T9.1-02' },
          { kind: 'split', batchId: 'b2', wholeDelta: 1, partDeltaStrandTenths: 100_000, toPlaceId: 'T9.1-02' },
        ],
        promises: [],
      },
    })
  })

  it('can lay what is parted off elsewhere for a while', () => {
    const planned = planSplit(batch, { wholePutUps: 1, takesPart: false, currentPlaceId: 'K-07', newBatchId: 'b2' })
    expect(planned.ok && planned.value.batches[1]).toMatchObject({ homePlaceId: 'T2.1-14', currentPlaceId: 'K-07' })
  })

  it('refuses to part all, nothing, more than is there or what is promised', () => {
    const kindOf = (over: object) => {
      const planned = planSplit(batch, { wholePutUps: 0, takesPart: false, ...over })
      return planned.ok ? 'ok' : planned.error.kind
    }
    expect(kindOf({})).toBe('nothing-parted')
    expect(kindOf({ wholePutUps: 3, takesPart: true })).toBe('nothing-left')
    expect(kindOf({ wholePutUps: 4 })).toBe('not-enough')
    expect(kindOf({ wholePutUps: 3, promises: [aPromise()] })).toBe('not-enough-free')
  })

  it('lays an equal batch with another: one holds both, the other is gone, its promises go over', () => {
    const into = aBatch({ id: 'b0', lot: '18', wholePutUps: 1, partStrandTenths: 50_000, partCertainty: 'measured' })
    const promises = [aPromise(), aPromise({ id: 'p2', batchId: 'b0', strandTenths: 1_000 })]
    expect(planMerge(batch, into, { lotsMatter: true, areKin: false, promises, reason: 'one ring' })).toMatchObject({
      ok: true,
      value: {
        batches: [
          { id: 'b0', wholePutUps: 4, partStrandTenths: 150_000, partCertainty: 'guess', isGone: false },
          { id: 'b1', wholePutUps: 0, partStrandTenths: 0, partCertainty: 'none', isGone: true },
        ],
        movements: [
          { kind: 'merge', batchId: 'b1', wholeDelta: -3, partDeltaStrandTenths: -100_000, reason: 'one ring' },
          { kind: 'merge', batchId: 'b0', wholeDelta: 3, partDeltaStrandTenths: 100_000, reason: 'one ring' },
        ],
        promises: [
          { batchId: 'b1', projectId: 'rooks', strandTenths: 0 },
          { batchId: 'b0', projectId: 'rooks', strandTenths: skein + 1_000 },
        ],
      },
    })
  })

  it('names what differs, and keeps unmarked lots apart where they matter unless they are kin', () => {
    const refusal = (other: Parameters<typeof aBatch>[0], merge = { lotsMatter: false, areKin: false }) => {
      const planned = planMerge(aBatch(), aBatch({ id: 'b0', ...other }), merge)
      return planned.ok ? 'ok' : planned.error
    }
    expect(refusal({ lot: '18', putUpWord: 'hank', currentPlaceId: 'K-07' })).toEqual({
      kind: 'marks-differ',
      batchId: 'b0',
      differs: ['lot', 'putUpWord', 'place'],
    })
    expect(refusal({ id: 'b1' })).toEqual({ kind: 'same-batch', batchId: 'b1' })
    expect(refusal({}, { lotsMatter: true, areKin: false })).toEqual({ kind: 'lot-unmarked', batchId: 'b0' })
    expect(refusal({}, { lotsMatter: true, areKin: true })).toBe('ok')
    expect(refusal({})).toBe('ok')
  })
})

describe('passing some of it on', () => {
  it('makes what changes hands a batch of the new owner, and leaves what is promised', () => {
    const passed = { toOwnerId: 'Hanne Drewitt', wholePutUps: 1, takesPart: false, newBatchId: 'b2', promises: [aPromise()] }
    expect(planTransferPart(aBatch(), passed)).toMatchObject({
      ok: true,
      value: {
        batches: [
          { id: 'b1', ownerId: 'shop', wholePutUps: 1 },
          { id: 'b2', ownerId: 'Hanne Drewitt', wholePutUps: 1, homePlaceId: 'T2.1-14', parentId: 'b1', isNew: true },
        ],
        movements: [
          { kind: 'split', batchId: 'b1', wholeDelta: -1 },
          { kind: 'transfer', batchId: 'b2', wholeDelta: 1, fromOwnerId: 'shop', toOwnerId: 'Hanne Drewitt' },
        ],
      },
    })
    expect(planTransferPart(aBatch({ wholePutUps: 1 }), passed)).toMatchObject({ error: { kind: 'not-enough-free' } })
  })

  it('passes the batch itself on when that is all there is', () => {
    const all = { toOwnerId: 'Hanne Drewitt', wholePutUps: 2, takesPart: false }
    expect(planTransferPart(aBatch(), all)).toEqual(planTransfer(aBatch(), { toOwnerId: 'Hanne Drewitt' }))
    expect(planTransferPart(aBatch(), { ...all, toOwnerId: 'shop' })).toMatchObject({ error: { kind: 'already-theirs' } })
  })
})

describe('correcting a label', () => {
  it('calls a put-up by another word, and leaves the word alone where none is said', () => {
    const label = { lot: null, putUpStrandTenths: skein, reason: 'wound' }
    const hank = planRelabel(aBatch(), { ...label, putUpWord: 'hank' })
    expect(hank).toMatchObject({ ok: true, value: { batches: [{ putUpWord: 'hank', wholePutUps: 2 }] } })
    expect(planRelabel(aBatch({ putUpWord: 'hank' }), { ...label, lot: '18' })).toMatchObject({
      value: { batches: [{ putUpWord: 'hank', lot: '18' }] },
    })
  })

  it('moves no amount: put-ups are as many as before, each of the corrected length, and the part stays', () => {
    const batch = aBatch({ lot: '17', partStrandTenths: 100_000, partCertainty: 'measured' })
    const relabelled = planRelabel(batch, { lot: '18', putUpStrandTenths: 600_000, reason: ' misread ' })
    expect(relabelled).toMatchObject({
      value: {
        batches: [{ ...batch, lot: '18', putUpStrandTenths: 600_000 }],
        movements: [{ kind: 'correct', batchId: 'b1', wholeDelta: 0, partDeltaStrandTenths: 0, reason: 'misread' }],
        promises: [],
      },
    })
    expect(relabelled.ok && relabelled.value.batches.map(knownStrandTenths)).toEqual([2 * 600_000 + 100_000])
  })

  it('tells an unmarked lot from one that is called nothing new, and wants a reason', () => {
    const same = { lot: null, putUpStrandTenths: skein, reason: 'looked again' }
    expect(planRelabel(aBatch(), same)).toEqual({ ok: false, error: { kind: 'no-change' } })
    expect(planRelabel(aBatch(), { ...same, lot: '18' }).ok).toBe(true)
    expect(planRelabel(aBatch(), { ...same, lot: '18', reason: '  ' })).toEqual({ ok: false, error: { kind: 'no-reason' } })
    expect(() => planRelabel(aBatch(), { ...same, putUpStrandTenths: 0 })).toThrow(RangeError)
  })
})

describe('promising', () => {
  it("replaces the project's own earlier promise", () => {
    expect(planPromise(aBatch(), { projectId: 'rooks', strandTenths: 2 * skein }, [aPromise()])).toEqual({
      ok: true,
      value: { batchId: 'b1', projectId: 'rooks', strandTenths: 2 * skein },
    })
    expect(planPromise(aBatch(), { projectId: 'lanterns', strandTenths: 2 * skein }, [aPromise()])).toMatchObject({
      error: { kind: 'not-enough-free', freeStrandTenths: skein },
    })
  })

  it('refuses what is out in another bag', () => {
    const out = aBatch({ currentPlaceId: 'K-07' })
    expect(planPromise(out, { projectId: 'lanterns', strandTenths: 1 }, [])).toMatchObject({ error: { freeStrandTenths: 0 } })
  })

  it('frees all of a project and nothing else', () => {
    const promises = [aPromise({ id: 'p2', batchId: 'b2' }), aPromise(), aPromise({ id: 'p3', projectId: 'lanterns' })]
    expect(planRelease(promises, 'rooks')).toEqual([
      { batchId: 'b1', projectId: 'rooks', strandTenths: 0 },
      { batchId: 'b2', projectId: 'rooks', strandTenths: 0 },
    ])
  })
})
