import { expect, it } from 'vitest'
import { kitsFrom } from '#lib/coverage/kit-cuts'
import { planPromises } from '#lib/project/plan-start'
import type { Batch } from '#lib/stock/batch'
import { pullOf } from '#lib/stock/part-off'

// Source: the project's trade notes, scenario A6 "Kit of 12 + 1 spare", worked by hand. Cuts: 0311 3.1 m from 8 m: 2 a skein -> 13/2 ->
// 7 (by total length 40.3/8 -> 6, wrong). 0742 1.5 m: 5 a skein -> 3. Ecru 0.9 m: 8 -> 2. Tarn Blue 1.2 m from 4.572: 3 -> 5, one lot.
// Quillwater 12 2.0 m from 50 m: 25 -> 1.

/** Tenths of a millimetre of one strand; how many strands there are makes no difference to the cuts. */
const metre = 10_000

it.each([
  { code: '0311', cut: 3.1 * metre, putUp: 8 * metre, perPutUp: 2, putUps: 7, lotsMatter: false },
  { code: '0742', cut: 1.5 * metre, putUp: 8 * metre, perPutUp: 5, putUps: 3, lotsMatter: false },
  { code: 'Ecru', cut: 0.9 * metre, putUp: 8 * metre, perPutUp: 8, putUps: 2, lotsMatter: false },
  { code: 'Tarn Blue', cut: 1.2 * metre, putUp: 45_720, perPutUp: 3, putUps: 5, lotsMatter: true },
  { code: 'Quillwater 12', cut: 2 * metre, putUp: 50 * metre, perPutUp: 25, putUps: 1, lotsMatter: false },
])('13 cuts of $code take $putUps put-ups, all of one lot', ({ code, cut, putUp, perPutUp, putUps, lotsMatter }) => {
  expect(kitsFrom({ putUpStrandTenths: putUp, wholePutUps: 1, partStrandTenths: 0 }, cut)).toBe(perPutUp)
  const lot = (mark: string, wholePutUps: number): Batch => ({
    ...{
      id: `${code} ${mark}`,
      threadId: code,
      ownerId: 'shop',
      lot: mark,
      putUpWord: null,
      putUpStrandTenths: putUp,
      wholePutUps,
    },
    ...{ partStrandTenths: 0, partCertainty: 'none', homePlaceId: 'drawer', currentPlaceId: 'drawer' },
  })
  // One lot is a put-up too few, the other just enough.
  const batches = [lot('18', putUps - 1), lot('22', putUps)]
  const plan = planPromises({
    ...{ needs: [{ threadId: code, strandTenths: 13 * cut }], batches, promises: [], copies: 13 },
    ...{ lines: new Map([[code, { lotsMatter }]]), projectId: 'seven lanterns', ownerIds: ['shop'] },
  })
  expect(plan.short).toEqual([])
  expect(plan.promises.map(({ batchId }) => batchId)).toEqual([`${code} 22`])
  const pulled = pullOf(batches[1] as Batch, plan.promises[0]?.strandTenths ?? 0, cut)
  expect(pulled).toEqual({ wholePutUps: putUps, takesPart: false })
})
