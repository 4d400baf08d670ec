import { describe, expect, it } from 'vitest'
import type { CutPlan } from '#lib/cloth/cut-plan'
import { boundWords, leftOutWords } from '#words/cut-plan'
import { fatQuarter } from '../cloth/cut-layouts'

const aPlan = (over: Partial<CutPlan>): CutPlan => ({
  ...{
    layouts: [fatQuarter()],
    leftOut: [],
    value: 4,
    cutCount: 7,
    wasteUm2: 100,
    largestOffcutsUm2: 960,
    valueBound: 4,
    bound: 0,
  },
  isProved: false,
  ...over,
})

describe('how good a plan of cuts is said to be', () => {
  it('is proved, or held against what could at best be', () => {
    expect(boundWords(aPlan({ isProved: true }), 'fewest cuts')).toBe('Proved: nothing better exists.')
    // 960 of at best 1,000 is 4 % less; 7 cuts where 6 might do are one in seven more.
    expect(boundWords(aPlan({ bound: 1_000 }), 'largest offcut')).toContain('within 4 %')
    expect(boundWords(aPlan({ bound: 6 }), 'fewest cuts')).toContain('within 15 %')
    expect(boundWords(aPlan({ bound: 99.9 }), 'least waste')).toContain('within 1 %')
  })

  it('is first a question of how much is cut', () => {
    expect(boundWords(aPlan({ value: 9, valueBound: 10, bound: 1_000 }), 'largest offcut')).toBe(
      'Within 10 % of the most, by worth, that could at best be cut.',
    )
  })

  it('claims nothing where nothing is known', () => {
    expect(boundWords(aPlan({ bound: 0 }), 'least waste')).toContain('is not known yet')
    expect(boundWords(aPlan({ bound: 100 }), 'least waste')).toBe('As good as can be, as far as is known.')
    expect(boundWords(aPlan({ layouts: [] }), 'least waste')).toBe('Nothing found yet.')
  })

  it('says why something is left out', () => {
    expect(leftOutWords(false, true)).toBe('fits none of the pieces')
    expect(leftOutWords(true, true)).toContain('proved')
    expect(leftOutWords(true, false)).not.toContain('proved')
  })
})
