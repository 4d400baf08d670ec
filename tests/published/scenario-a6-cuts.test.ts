import { describe, expect, it } from 'vitest'
import { countKits, putUpsForKits, sparesFor } from '#lib/coverage/kit-count'
import type { Batch } from '#lib/stock/batch'

// Worked by hand: a class kit of twelve and one spare. Common practice, no published source.
const metres = (length: number) => length * 6 * 10_000
const yards5 = 274_320
const kits = 12 + sparesFor(12)

describe('cuts for twelve kits and a spare', () => {
  it('takes one spare to the dozen', () => {
    expect(kits).toBe(13)
    expect([sparesFor(1), sparesFor(24), sparesFor(25)]).toEqual([1, 2, 3])
  })

  it.each([
    ['0311', 3.1, metres(8), 7],
    ['0742', 1.5, metres(8), 3],
    ['Ecru', 0.9, metres(8), 2],
    ['Tarn Blue', 1.2, yards5, 5],
    ['Quillwater 12', 2, metres(50), 1],
  ])('%s, cut to %s m', (_, cut, putUp, expected) => {
    expect(putUpsForKits(metres(cut), putUp, kits)).toBe(expected)
  })

  it('is not the total length divided by the put-up', () => {
    expect(Math.ceil((kits * 3.1) / 8)).toBe(6)
    expect(putUpsForKits(metres(3.1), metres(8), kits)).not.toBe(6)
  })

  const batch = (threadId: string, lot: string | null, wholePutUps: number, putUpStrandTenths: number): Batch => ({
    ...{ id: `${threadId} ${lot}`, threadId, ownerId: 'shop', lot, putUpWord: null, putUpStrandTenths, wholePutUps },
    ...{ partStrandTenths: 0, partCertainty: 'none', homePlaceId: 'drawer', currentPlaceId: 'drawer' },
  })
  const needs = [
    { threadId: '0311', strandTenths: metres(3.1) },
    { threadId: 'Tarn Blue', strandTenths: metres(1.2) },
  ]
  const lines = new Map([
    ['0311', { lotsMatter: false, putUpStrandTenths: metres(8) }],
    ['Tarn Blue', { lotsMatter: true, putUpStrandTenths: yards5 }],
  ])

  it('says how many can be made and what stops the next one, each hand-dyed colour from one lot', () => {
    const batches = [batch('0311', null, 7, metres(8)), batch('Tarn Blue', '18', 4, yards5), batch('Tarn Blue', '22', 3, yards5)]
    const counted = countKits({ needs, wanted: kits, batches, promises: [], lines })
    expect(counted.kits).toBe(12)
    expect(counted.stops).toEqual([{ threadId: 'Tarn Blue', toBuyPutUps: 1 }])
    expect(counted.lines[1]).toMatchObject({ kits: 12, lot: '18', toBuyPutUps: 1, putUpsForAll: 5, cutsPerPutUp: 3 })
    expect(counted.lines[0]).toMatchObject({ kits: 14, toBuyPutUps: 0, putUpsForAll: 7, lot: null })
  })

  it('takes off what other projects were promised, whole put-ups where a part would not do', () => {
    const batches = [batch('0311', null, 7, metres(8)), batch('Tarn Blue', '18', 9, yards5)]
    const promises = [{ id: 'p', batchId: '0311 null', projectId: 'another', strandTenths: metres(9) }]
    const free = countKits({ needs, wanted: kits, batches, promises, lines })
    expect(free.kits).toBe(10)
    expect(free.stops).toEqual([{ threadId: '0311', toBuyPutUps: 1 }])
    expect(countKits({ needs, wanted: kits, batches, promises, lines, projectId: 'another' }).kits).toBe(14)
  })
})
