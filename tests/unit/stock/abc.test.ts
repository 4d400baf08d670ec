import { expect, it } from 'vitest'
import { classifyUse, valueOfUse } from '#lib/stock/abc'

const classesOf = (values: Record<string, number>) =>
  Object.fromEntries(
    [...classifyUse(Object.entries(values).map(([threadId, valueMinor]) => ({ threadId, strandTenths: 1, valueMinor })))].map(
      ([threadId, standing]) => [threadId, standing.class],
    ),
  )

it('makes the first 80% of the value A, the next 15% B, the rest C', () => {
  // Running sums 50, 80, 90, 95, 98, 100 of 100.
  expect(classesOf({ a: 50, b: 30, c: 10, d: 5, e: 3, f: 2 })).toEqual({ a: 'A', b: 'A', c: 'B', d: 'B', e: 'C', f: 'C' })
})

it('gives the one that crosses a line the better class', () => {
  expect(classesOf({ a: 70, b: 20, c: 10 })).toEqual({ a: 'A', b: 'A', c: 'B' })
  expect(classesOf({ a: 100 })).toEqual({ a: 'A' })
})

it('never parts threads of one value, whatever their order', () => {
  const ties = { a: 40, b: 20, c: 20, d: 20 }
  expect(classesOf(ties)).toEqual({ a: 'A', b: 'A', c: 'A', d: 'A' })
  expect(classesOf(Object.fromEntries(Object.entries(ties).reverse()))).toEqual(classesOf(ties))
})

it('makes what was not used C', () => {
  expect(classesOf({ a: 10, b: 0 })).toEqual({ a: 'A', b: 'C' })
  expect(classesOf({ a: 0, b: 0 })).toEqual({ a: 'C', b: 'C' })
})

it('ranks threads without a price by length, among themselves', () => {
  const classes = classifyUse([
    { threadId: 'dear', strandTenths: 1, valueMinor: 100_000 },
    { threadId: 'long', strandTenths: 9_000, valueMinor: null },
    { threadId: 'short', strandTenths: 100, valueMinor: null },
  ])
  expect(classes.get('dear')).toEqual({ class: 'A', by: 'value', sharePerMille: 1_000 })
  expect(classes.get('long')).toEqual({ class: 'A', by: 'length', sharePerMille: 989 })
  expect(classes.get('short')).toEqual({ class: 'C', by: 'length', sharePerMille: 10 })
})

it('values a length at the price of one put-up', () => {
  expect(valueOfUse(1_200_000, 480_000, 120)).toBe(300)
})
