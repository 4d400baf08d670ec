import { describe, expect, it } from 'vitest'
import { type FilingChoice, filingMoves, frontsChanged, nextLabel, planGrowth } from '#lib/place/filing-moves'
import { planFiling } from '#lib/place/filing-plan'

// Source: the project's trade notes, scenario A13 "Drawer overflow", worked by hand. 480 colours, 40 compartments a drawer, kept 75 % full: 30
// a drawer, 16 drawers (12 if packed). 36 new colours all fall in T5.1: 66, 26 over. Forward only: 26 -> T5.2 (56), 16 -> T6.1 (46), 6 -> T6.2
// (36): 48 lines change drawer, new arrivals counted. Both ways: 10 back to T4.2, then 16 and 6: 32. A new drawer T5.3: 26, no ripple.
// Recommended: T5.3, or 32 if no drawer can be added.

const columns = Array.from({ length: 8 }, (_, column) => [`T${column + 1}.1`, `T${column + 1}.2`])
const labels = columns.flat()
const overfull = labels.indexOf('T5.1')
/** The 36 come in one after another behind the twentieth of T5.1. */
const filed = labels.flatMap((_, drawer) => {
  const held = new Array<number | null>(30).fill(drawer)
  return drawer === overfull ? held.toSpliced(20, 0, ...new Array<null>(36).fill(null)) : held
})
const { choices, recommended } = planGrowth(
  filed,
  labels.map(() => 40),
  40,
)
const choiceOf = (way: string) => choices.find((choice) => choice.way === way) as FilingChoice
const countsFrom = (choice: FilingChoice, label: string) =>
  choice.drawers.slice(labels.indexOf(label)).map(({ items }) => items.length)

describe('drawer overflow', () => {
  it('lays 480 colours out in 16 drawers of 30, or 12 packed', () => {
    const colours = Array.from({ length: 480 }, (_, index) => index)
    const plan = planFiling(colours, { compartments: 40, percent: 75 })
    expect(plan.perDrawer).toBe(30)
    expect(plan.drawers.map((drawer) => drawer.length)).toEqual(new Array(16).fill(30))
    expect(plan.drawersPacked).toBe(12)
    expect(planFiling(colours, { compartments: 40, percent: 100 }).drawers).toHaveLength(12)
    expect(plan.drawers.flat().map(({ item }) => item)).toEqual(colours)
  })

  it('starts with 516 to file, 66 of them in T5.1', () => {
    expect(filed).toHaveLength(516)
    expect(filed.slice(overfull * 30, overfull * 30 + 66).every((drawer) => drawer === null || drawer === overfull)).toBe(true)
  })

  it('pushes 48 forward: 26, 16 and 6', () => {
    const forward = choiceOf('forward')
    expect(forward.moved).toBe(48)
    expect(countsFrom(forward, 'T4.2')).toEqual([30, 40, 40, 40, 36, 30, 30, 30, 30])
  })

  it('moves 32 both ways: 10 back, 16 and 6 forward', () => {
    const both = choiceOf('both')
    expect(both.moved).toBe(32)
    expect(countsFrom(both, 'T4.1')).toEqual([30, 40, 40, 40, 36, 30, 30, 30, 30, 30])
  })

  it('moves 26 into one drawer put in after T5.1, and nothing else', () => {
    const added = choiceOf('added')
    expect(added.moved).toBe(26)
    const at = added.drawers.findIndex(({ before }) => before === null)
    expect(at).toBe(overfull + 1)
    expect(countsFrom(added, 'T5.1')).toEqual([40, 26, 30, 30, 30, 30, 30, 30, 30])
    expect(nextLabel('T5.1', (label) => labels.includes(label))).toBe('T5.3')
    expect(filingMoves(added, filed).map(({ from, to }) => [from, to])).toEqual([
      [overfull, at],
      [null, overfull],
      [null, at],
    ])
    expect(frontsChanged(added, filed)).toEqual([overfull, at])
  })

  it('recommends the drawer put in, and names the fronts that change without it', () => {
    expect(recommended).toBe('added')
    const fronts = (way: string) => frontsChanged(choiceOf(way), filed).map((drawer) => labels[drawer])
    // Whose first or last colour is another: all that give or take, and no other.
    expect(fronts('forward')).toEqual(['T5.1', 'T5.2', 'T6.1', 'T6.2'])
    expect(fronts('both')).toEqual(['T4.2', 'T5.1', 'T5.2', 'T6.1'])
  })

  // Common practice, no published source: ten gaps to a drawer of forty lie evenly among its thirty colours.
  it('moves as many where every compartment is a place of its own, and counts what shifts inside apart', () => {
    const places = labels.map((label) => Array.from({ length: 40 }, (_, turn) => `${label}-${String(turn + 1).padStart(2, '0')}`))
    const turns = labels.map(() => 0)
    const at = filed.map((drawer) => {
      if (drawer === null) return null
      const turn = turns[drawer] as number
      turns[drawer] = turn + 1
      return places[drawer]?.[Math.floor((turn * 40) / 30)] ?? null
    })
    const added = Array.from({ length: 40 }, (_, turn) => `T5.3-${String(turn + 1).padStart(2, '0')}`)
    const growth = planGrowth(
      filed,
      labels.map(() => 40),
      40,
      { at, places, added },
    )
    expect(growth.choices.map(({ way, moved }) => [way, moved])).toEqual([
      ['forward', 48],
      ['both', 32],
      ['added', 26],
    ])
    // Put in after T5.1, which then is full.
    expect(growth.recommended).toBe('added')
    expect(growth.choices[2]?.drawers[overfull + 1]?.before).toBeNull()
    const withDrawer = growth.choices[2]
    const inFirst = withDrawer?.drawers[overfull]?.items ?? []
    expect(inFirst).toHaveLength(40)
    expect(inFirst.map((item) => withDrawer?.placeOf?.[item])).toEqual(places[overfull])
    expect(withDrawer?.shifted).toBe(
      inFirst.filter((item, turn) => at[item] !== null && at[item] !== places[overfull]?.[turn]).length,
    )
  })
})
