import { expect, it } from 'vitest'
import { type FilingChoice, filingMoves, frontsChanged, nextLabel, planGrowth } from '#lib/place/filing-moves'
import { planFiling } from '#lib/place/filing-plan'

const choiceOf = (choices: readonly FilingChoice[], way: string) => choices.find((choice) => choice.way === way)

it('moves nothing where there is room, and recommends the simplest', () => {
  const filed = [0, null, 0, 1]
  const { choices, recommended } = planGrowth(filed, [3, 3], 3)
  expect(recommended).toBe('forward')
  expect(choiceOf(choices, 'forward')?.moved).toBe(0)
  expect(choiceOf(choices, 'added')).toBeUndefined()
})

it('lets what falls between two drawers go into either', () => {
  expect(choiceOf(planGrowth([0, 0, null, 1], [2, 2], 2).choices, 'forward')?.moved).toBe(0)
  expect(choiceOf(planGrowth([0, null, 1, 1], [2, 2], 2).choices, 'forward')?.moved).toBe(0)
})

it('offers only the drawer put in when the others are full, and nothing when that is not enough', () => {
  const full = [0, 0, null, 0]
  expect(planGrowth(full, [3], 3).choices.map(({ way, moved }) => [way, moved])).toEqual([['added', 1]])
  expect(planGrowth([0, null, null, null], [1], 1)).toEqual({ choices: [], recommended: null })
})

it('puts right what lies out of order', () => {
  const { choices } = planGrowth([0, 1, 0, 1], [3, 3], 3)
  expect(choiceOf(choices, 'both')?.moved).toBe(1)
  expect(choiceOf(choices, 'forward')?.moved).toBe(1)
})

it('walks the drawers taken from in order, then what comes in; labels change where an end does', () => {
  const filed = [0, 0, null, 1, 1]
  const choice = choiceOf(planGrowth(filed, [2, 2, 2], 0).choices, 'forward') as FilingChoice
  expect(filingMoves(choice, filed)).toEqual([
    { from: 1, to: 2, items: [4] },
    { from: null, to: 1, items: [2] },
  ])
  expect(frontsChanged(choice, filed)).toEqual([1, 2])
})

it('labels a new drawer by the next number that is free, as wide as the old', () => {
  expect(nextLabel('T5.1', (label) => label === 'T5.2')).toBe('T5.3')
  expect(nextLabel('H-09', () => false)).toBe('H-10')
  expect(nextLabel('Silks', (label) => label === 'Silks-2')).toBe('Silks-3')
})

it('leaves the gaps of a drawer among its compartments', () => {
  const { drawers } = planFiling(['a', 'b', 'c', 'd'], { compartments: 4, percent: 75 })
  expect(drawers).toEqual([
    [
      { compartment: 1, item: 'a' },
      { compartment: 2, item: 'b' },
      { compartment: 3, item: 'c' },
    ],
    [{ compartment: 1, item: 'd' }],
  ])
})

it('refuses figures that mean nothing', () => {
  expect(() => planFiling([], { compartments: 0, percent: 75 })).toThrow(RangeError)
  expect(() => planFiling([], { compartments: 40, percent: 0 })).toThrow(RangeError)
})
