import fc from 'fast-check'
import { expect, it } from 'vitest'
import { countKits, putUpsForKits } from '#lib/coverage/kit-count'
import type { Batch } from '#lib/stock/batch'

const settings = { seed: 20261125, numRuns: 400 }

/** Cut the kits one by one, the put-ups as they come: each kit whole put-ups first, then a cut from the shortest piece that has it. */
function cutOneByOne(pieces: number[], cut: number, putUp: number): number {
  const whole = Math.floor(cut / putUp)
  const rest = cut - whole * putUp
  let left = [...pieces]
  for (let kits = 0; ; kits++) {
    const full = left.filter((length) => length === putUp)
    if (full.length < whole) return kits
    for (let i = 0; i < whole; i++) left.splice(left.indexOf(putUp), 1)
    if (rest > 0) {
      const shortest = left.filter((length) => length >= rest).sort((a, b) => a - b)[0]
      if (shortest === undefined) return kits
      left.splice(left.indexOf(shortest), 1)
      left.push(shortest - rest)
    }
    left = left.filter((length) => length > 0)
  }
}

const batchOf = (wholePutUps: number, partStrandTenths: number): Batch => ({
  ...{ id: 'b', threadId: 't', ownerId: 'shop', lot: null, putUpWord: null, putUpStrandTenths: 20, wholePutUps },
  ...{ partStrandTenths, partCertainty: partStrandTenths > 0 ? 'measured' : 'none' },
  ...{ homePlaceId: 'drawer', currentPlaceId: 'drawer' },
})
const lines = new Map([['t', { lotsMatter: false, putUpStrandTenths: 20 }]])

it('makes as many kits of a cut within one put-up as cutting them one by one does', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 20 }), fc.nat(9), fc.nat(19), (cut, whole, part) => {
      const counted = countKits({
        ...{ needs: [{ threadId: 't', strandTenths: cut }], wanted: 5, promises: [], lines },
        batches: [batchOf(whole, part)],
      })
      expect(counted.kits).toBe(cutOneByOne([...Array<number>(whole).fill(20), part], cut, 20))
    }),
    settings,
  )
})

it('needs just as many new put-ups as give the kits, and one fewer does not', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 70 }), fc.integer({ min: 1, max: 30 }), (cut, kits) => {
      const putUps = putUpsForKits(cut, 20, kits)
      const made = (count: number) =>
        countKits({
          ...{ needs: [{ threadId: 't', strandTenths: cut }], wanted: kits, promises: [], lines, batches: [batchOf(count, 0)] },
        }).kits
      expect(made(putUps)).toBeGreaterThanOrEqual(kits)
      expect(made(putUps - 1)).toBeLessThan(kits)
    }),
    settings,
  )
})

it('can make one more once what stops it is bought', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 50 }), fc.nat(9), fc.nat(19), (cut, whole, part) => {
      const ask = { needs: [{ threadId: 't', strandTenths: cut }], wanted: 1, promises: [], lines }
      const now = countKits({ ...ask, batches: [batchOf(whole, part)] })
      const bought = { ...batchOf(now.stops[0]?.toBuyPutUps ?? 0, 0), id: 'c' }
      expect(countKits({ ...ask, batches: [batchOf(whole, part), bought] }).kits).toBeGreaterThan(now.kits)
    }),
    settings,
  )
})
