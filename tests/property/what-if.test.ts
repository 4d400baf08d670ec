import fc from 'fast-check'
import { expect, it } from 'vitest'
import { CoverageEngine, type EngineThread } from '#lib/coverage/engine'
import { supposeStock } from '#lib/coverage/suppose'
import type { Batch, StockPromise } from '#lib/stock/batch'
import { freeStock } from '#lib/stock/free-stock'

const threadIds = ['t0', 't1', 't2']
const threads = threadIds.map(
  (threadId, i): EngineThread => ({
    ...{ threadId, lotsMatter: i === 1, putUpStrandTenths: 10 },
    standInThreadIds: i === 2 ? ['t0'] : [],
  }),
)

const aWorld = fc.record({
  batches: fc.array(
    fc.record({
      threadId: fc.constantFrom(...threadIds),
      lot: fc.constantFrom(null, '18'),
      wholePutUps: fc.nat(3),
      isInBag: fc.boolean(),
      promised: fc.nat(12),
    }),
    { maxLength: 6 },
  ),
  lists: fc.array(
    fc.uniqueArray(fc.record({ threadId: fc.constantFrom(...threadIds), strandTenths: fc.integer({ min: 1, max: 30 }) }), {
      selector: ({ threadId }) => threadId,
      maxLength: 3,
    }),
    { maxLength: 6 },
  ),
  buy: fc.array(fc.record({ threadId: fc.constantFrom(...threadIds), putUps: fc.integer({ min: 1, max: 3 }) }), { maxLength: 3 }),
  unpacks: fc.boolean(),
})

it('says what an engine made of the supposed stock says, and then what it said before', () => {
  let changes = 0
  fc.assert(
    fc.property(aWorld, ({ batches: rows, lists: needs, buy, unpacks }) => {
      const batches = rows.map(
        ({ isInBag, promised: _, ...row }, i): Batch => ({
          ...{ ...row, id: `b${i}`, ownerId: 'shop', putUpWord: null, putUpStrandTenths: 10 },
          ...{ partStrandTenths: 0, partCertainty: 'none', homePlaceId: 'drawer', currentPlaceId: isInBag ? 'K-07' : 'drawer' },
        }),
      )
      const promises = rows.flatMap(({ promised }, i): StockPromise[] =>
        promised === 0 ? [] : [{ id: `p${i}`, batchId: `b${i}`, projectId: 'rooks', strandTenths: promised }],
      )
      const stock = new Map(
        threadIds.map((threadId) => {
          const own = batches.filter((batch) => batch.threadId === threadId)
          return [threadId, { batches: own, promises: promises.filter((p) => own.some(({ id }) => id === p.batchId)) }]
        }),
      )
      const free = (from: typeof stock) =>
        [...from].map(([threadId, held]) => freeStock({ threadId, ...held, ownerIds: ['shop'] }))
      const lists = needs.map((own, i) => ({ listId: `l${i}`, designId: `d${i % 4}`, needs: own }))
      const supposed = supposeStock(stock, {
        buy: buy.map((one) => ({ ...one, putUpStrandTenths: 10, lot: null, ownerId: 'shop' })),
        unpack: unpacks ? [{ projectId: 'rooks', placeId: 'K-07' }] : [],
      })
      const engine = CoverageEngine.of({ threads, lists, stock: free(stock) })
      const designIds = ['d0', 'd1', 'd2', 'd3']
      const saidBefore = designIds.map((id) => engine.answerFor(id))
      const whatIf = engine.whatIf(free(supposed))
      changes += whatIf.length
      const other = CoverageEngine.of({ threads, lists, stock: free(new Map([...stock, ...supposed])) })
      for (const [i, designId] of designIds.entries()) {
        const [was, is] = [saidBefore[i]?.best, other.answerFor(designId)?.best]
        const found = whatIf.find((one) => one.designId === designId)
        const stateOf = (answer: typeof was) =>
          answer && {
            status: answer.status,
            isStitchable: answer.isStitchable,
            isStitchableWithSwaps: answer.isStitchableWithSwaps,
            buyPutUps: answer.shortPutUps + answer.lotPutUps,
          }
        if (found) expect(found).toEqual({ designId, before: stateOf(was), after: stateOf(is) })
        else expect(stateOf(is)).toEqual(stateOf(was))
      }
      expect(designIds.map((id) => engine.answerFor(id))).toEqual(saidBefore)
      const { rankAt, rowOf } = engine.designs
      const { rankAt: again, rowOf: rowAgain } = CoverageEngine.of({ threads, lists, stock: free(stock) }).designs
      for (const id of designIds) if (rowOf(id) >= 0) expect(rankAt(rowOf(id))).toBe(again(rowAgain(id)))
    }),
    { seed: 20261125, numRuns: 600 },
  )
  expect(changes).toBeGreaterThan(300)
})
