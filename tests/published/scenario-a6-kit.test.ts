import { expect, it } from 'vitest'
import { cutSize, finishedSize } from '#lib/cloth/finished-size'
import { finishingMargins } from '#lib/cloth/margins'
import { sparesFor } from '#lib/coverage/kit-count'
import { type KitStock, reckonKits } from '#lib/project/kit/reckoning'
import type { Batch } from '#lib/stock/batch'

// Source: the project's trade notes, scenario A6 "Kit of 12 + 1 spare", worked by hand: Seven Lanterns, 84 x 84 on 28 over two, 2 in
// margin: 10 x 10. Linen 55 in bolt, usable 54 -> 31 in; sold in 4.5 in steps -> 31.5 in, 15 squares. 0311 3.1 m from 8 m -> 7; 0742
// 1.5 m -> 3; Ecru 0.9 m -> 2; Tarn Blue 1.2 m from 4.572 -> 5, one lot; Quillwater 12 2.0 m from 50 m -> 1. Needles 13, packs of 6 -> 3.
// Bought charts 12 for kits (spare kit has none until sold; then 13).

const metre = 10_000
const inch = 25_400
const spares = sparesFor(12)
const copies = 12 + spares

const key = [
  { threadId: '0311', cut: 3.1 * metre, putUp: 8 * metre, putUps: 7, lotsMatter: false },
  { threadId: '0742', cut: 1.5 * metre, putUp: 8 * metre, putUps: 3, lotsMatter: false },
  { threadId: 'Ecru', cut: 0.9 * metre, putUp: 8 * metre, putUps: 2, lotsMatter: false },
  { threadId: 'Tarn Blue', cut: 1.2 * metre, putUp: 45_720, putUps: 5, lotsMatter: true },
  { threadId: 'Quillwater 12', cut: 2 * metre, putUp: 50 * metre, putUps: 1, lotsMatter: false },
]

/** Of each thread so many put-ups, all of one lot. */
const batchesOf = (putUpsOf: (thread: (typeof key)[number]) => number): Batch[] =>
  key.map((thread) => ({
    ...{ id: thread.threadId, threadId: thread.threadId, ownerId: 'shop', lot: '18', putUpWord: null },
    ...{ putUpStrandTenths: thread.putUp, wholePutUps: putUpsOf(thread), partStrandTenths: 0, partCertainty: 'none' as const },
    ...{ homePlaceId: 'drawer', currentPlaceId: 'drawer' },
  }))

const square = (() => {
  const count = { threads: 28, perUm: inch }
  const finished = finishedSize({ width: 84, height: 84, ends: count, picks: count, over: 2, isTurned: false })
  const { widthUm, heightUm } = cutSize({
    ...{ finished, margins: finishingMargins.ornament, shrinkPercent: 0, roundingUm: inch / 2 },
  })
  return { widthUm, heightUm, isTurned: false }
})()

const stock = (over: Partial<KitStock> = {}, batches = batchesOf(({ putUps }) => putUps)): KitStock => ({
  ...{ copies, spares, soldSpares: 0 },
  threads: {
    needs: key.map(({ threadId, cut }) => ({ threadId, strandTenths: cut })),
    cut: new Map(),
    ...{ batches, promises: [], projectId: 'seven lanterns' },
    lines: new Map(key.map(({ threadId, putUp, lotsMatter }) => [threadId, { lotsMatter, putUpStrandTenths: putUp }])),
  },
  cloth: {
    ...{ cut: 0, kept: 0, free: 0 },
    bolt: {
      ways: [square],
      bolt: { widthUm: 55 * inch, selvedgeUm: inch / 2, straighteningUm: inch, stepUm: 4.5 * inch },
      gapUm: 0,
    },
  },
  chart: { isFile: false, copies: 12 },
  items: [{ id: 'needle', perKit: 1, have: 0, packOf: 6 }],
  ...over,
})

it('takes 7, 3, 2, 5 of one lot and 1 put-ups, 31.5 in of linen, 3 packs of needles and 12 charts', () => {
  expect(spares).toBe(1)
  const { lines } = reckonKits(stock())
  expect(lines.flatMap((line) => (line.kind === 'thread' ? [[line.threadId, line.putUpsForAll]] : []))).toEqual(
    key.map(({ threadId, putUps }) => [threadId, putUps]),
  )
  expect(lines.find(({ key: line }) => line === 'thread:Tarn Blue')).toMatchObject({ lot: '18', kits: 15 })
  expect(lines.find(({ kind }) => kind === 'cloth')).toMatchObject({
    boltForAll: { best: { toBuyUm: 31.5 * inch, gives: 15 } },
    toBuy: { kind: 'cloth', pieces: 13, lengthUm: 31.5 * inch },
  })
  expect(lines.find(({ kind }) => kind === 'item')).toMatchObject({
    ...{ wanted: 13, packsForAll: 3, toBuy: { kind: 'item', count: 13, packs: 3 } },
  })
  expect(lines.find(({ kind }) => kind === 'chart')).toMatchObject({ wanted: 12, toBuy: null })
})

it('wants a thirteenth chart once the spare is sold', () => {
  const { lines } = reckonKits(stock({ soldSpares: 1 }))
  expect(lines.find(({ kind }) => kind === 'chart')).toMatchObject({ wanted: 13, kits: 12, toBuy: { kind: 'chart', copies: 1 } })
})

it('names what stops the thirteenth: one skein of 0311 too few is enough', () => {
  const have = { cloth: { ...(stock().cloth as NonNullable<KitStock['cloth']>), free: 13 } }
  const items = [{ id: 'needle', perKit: 1, have: 18, packOf: 6 }]
  expect(reckonKits(stock({ ...have, items }))).toMatchObject({ makeable: 13, stops: [] })
  const short = batchesOf(({ threadId, putUps }) => (threadId === '0311' ? 6 : putUps))
  expect(reckonKits(stock({ ...have, items }, short))).toMatchObject({
    makeable: 12,
    stops: [{ key: 'thread:0311', toBuy: { kind: 'thread', putUps: 1 } }],
  })
})
