import fc from 'fast-check'
import { expect, it } from 'vitest'
import type { ThreadNeed } from '#lib/coverage/need'
import { type BuyingCost, chooseLeastBuying, type ListsOfDesign } from '#lib/planning/buying/least-buying'

const need = (threadId: string, strandTenths: number): ThreadNeed => ({
  ...{ threadId, strandTenths, leastStrandTenths: strandTenths, certainty: 'measured', from: [] },
})
const list = (listId: string, needs: Record<string, number>) => ({
  listId,
  needs: Object.entries(needs).map(([threadId, length]) => need(threadId, length)),
})

/** Whole put-ups of ten, after what is held. */
const costFrom =
  (held: Record<string, number>) =>
  (threadId: string, needs: readonly { need: ThreadNeed }[]): BuyingCost => {
    const wanted = needs.reduce((sum, { need: one }) => sum + one.strandTenths, 0)
    const putUps = Math.ceil(Math.max(0, wanted - (held[threadId] ?? 0)) / 10)
    return [putUps, 0]
  }
const chosen = (designs: ListsOfDesign[], held: Record<string, number> = {}) =>
  Object.fromEntries(chooseLeastBuying({ designs, costOf: costFrom(held) }).listIdOf)

it('takes the list that is held in full', () => {
  const orchard = { key: 'Orchard Gate', lists: [list('cotton', { a: 10, b: 10 }), list('hand-dyed', { x: 10 })] }
  expect(chosen([orchard], { x: 10, a: 10 })).toEqual({ 'Orchard Gate': 'hand-dyed' })
})

it('chooses for all together: what is held is enough for one of them only', () => {
  // Each alone would take what is held of x. Both cannot; the second is two short otherwise, the first one.
  const first = { key: 'first', lists: [list('1x', { x: 10 }), list('1a', { a: 10 })] }
  const second = { key: 'second', lists: [list('2x', { x: 10 }), list('2b', { b: 20 })] }
  expect(chosen([first, second], { x: 10 })).toEqual({ first: '1x', second: '2x' })
  expect(chosen([first, second], { x: 20 })).toEqual({ first: '1x', second: '2x' })
  // x in two halves: 5 + 5 of one put-up bought together cost one, apart two.
  const half = (key: string) => ({ key, lists: [list(`${key} own`, { [key]: 5 }), list(`${key} x`, { x: 5 })] })
  expect(chosen([half('p'), half('q')])).toEqual({ p: 'p x', q: 'q x' })
})

it('of ways alike takes the nearer list', () => {
  const alike = { key: 'd', lists: [list('near', { a: 10 }), list('far', { b: 10 })] }
  expect(chosen([alike])).toEqual({ d: 'near' })
})

it('refuses a design without a list', () => {
  expect(() => chosen([{ key: 'd', lists: [] }])).toThrow(RangeError)
})

const aList = fc.dictionary(fc.constantFrom('a', 'b', 'c', 'd', 'e'), fc.integer({ min: 1, max: 25 }), { maxKeys: 4 })

it('finds what weighing every way finds', () => {
  fc.assert(
    fc.property(
      fc.array(fc.array(aList, { minLength: 1, maxLength: 3 }), { minLength: 1, maxLength: 4 }),
      fc.dictionary(fc.constantFrom('a', 'b', 'c', 'd', 'e'), fc.integer({ min: 0, max: 40 })),
      (lists, held) => {
        const designs = lists.map((some, at) => ({
          key: `${at}`,
          lists: some.map((needs, turn) => list(`${at} ${turn}`, needs)),
        }))
        const costOf = costFrom(held)
        const totalOf = (listIdOf: (key: string) => string) => {
          const needs = designs.flatMap(({ key, lists: all }) => all.find(({ listId }) => listId === listIdOf(key))?.needs ?? [])
          return [...new Set(needs.map(({ threadId }) => threadId))].reduce(
            (sum, threadId) =>
              sum +
              costOf(
                threadId,
                needs.flatMap((one) => (one.threadId === threadId ? [{ need: one }] : [])),
              )[0],
            0,
          )
        }
        let least = Number.POSITIVE_INFINITY
        const go = (at: number, ids: Record<string, string>): void => {
          const design = designs[at]
          if (!design)
            least = Math.min(
              least,
              totalOf((key) => ids[key] as string),
            )
          else for (const { listId } of design.lists) go(at + 1, { ...ids, [design.key]: listId })
        }
        go(0, {})
        const { listIdOf, isProven } = chooseLeastBuying({ designs, costOf })
        expect(isProven).toBe(true)
        expect(totalOf((key) => listIdOf.get(key) as string)).toBe(least)
      },
    ),
    { seed: 20261130, numRuns: 300 },
  )
})

it('with many designs tied together says that it did not weigh every way, and is never worse than the nearest lists', () => {
  const designs = Array.from({ length: 20 }, (_, at) => ({
    key: `${at}`,
    lists: [list(`${at} own`, { [`own ${at}`]: 4 }), list(`${at} shared`, { shared: 4, [`more ${at % 3}`]: 2 })],
  }))
  const { listIdOf, isProven } = chooseLeastBuying({ designs, costOf: costFrom({}) })
  expect(isProven).toBe(false)
  // All by their own list are 20 put-ups; all by the shared one 80 ÷ 10 = 8, and of the three others 14, 14 and 12, two each: 14.
  expect([...listIdOf.values()].filter((id) => id.endsWith('shared')).length).toBeGreaterThan(10)
})
