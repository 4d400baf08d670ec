import { expect, it } from 'vitest'
import {
  compartmentLabels,
  type FilingChoice,
  filingMoves,
  frontsChanged,
  nextLabel,
  planAfresh,
  planGrowth,
} from '#lib/place/filing-moves'
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

it('numbers the compartments of a new drawer as those beside it are', () => {
  const like = (label: string, compartments: string[], count = 2) =>
    compartmentLabels('T5.3', { beside: { label, compartments }, count })
  expect(like('T5.1', ['T5.1-01', 'T5.1-02'], 3)).toEqual(['T5.3-01', 'T5.3-02', 'T5.3-03'])
  expect(like('T5.1', ['T5.1/1'])).toEqual(['T5.3/1', 'T5.3/2'])
  expect(like('T5.1', ['A7', 'A8'])).toEqual(['T5.3-01', 'T5.3-02'])
})

it('deals all out afresh, each drawer to a share with its gaps even, and counts what moves', () => {
  const places = [
    ['a1', 'a2', 'a3', 'a4'],
    ['b1', 'b2', 'b3', 'b4'],
  ]
  const compartments = { at: ['a1', 'a2', 'a3', 'b1'], places, added: [] }
  // By hand: two of four in each, in the first and the third; the third thing goes on to b1, and the fourth from there to b3.
  expect(planAfresh([0, 0, 0, 1], [4, 4], 50, compartments)).toMatchObject({
    ...{ way: 'afresh', moved: 1, shifted: 2, placeOf: ['a1', 'a3', 'b1', 'b3'] },
  })
  expect(planAfresh([0, 0, 0, 1], [4, 4], 25, compartments)).toBeNull()
  expect(planAfresh([0, 0, 0, 1], [0, 4], 100)).toMatchObject({ moved: 3, shifted: 0, placeOf: null })
})
