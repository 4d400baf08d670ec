import { describe, expect, it } from 'vitest'
import { type FilteredProject, type ProjectFilter, passesFilter } from '#lib/project/filter-projects'

const today = '2026-12-01'
const all: ProjectFilter = { status: null, words: '', due: null }
const rook: FilteredProject = {
  ...{ status: 'planned', title: 'Rook Hill in Snow', designers: ['Mirabel Stoat'] },
  ...{ forWhom: 'Petra Lisle', dueOn: '2026-12-24' },
}
const passes = (filter: Partial<ProjectFilter>, change: Partial<FilteredProject> = {}) =>
  passesFilter({ ...rook, ...change }, { ...all, ...filter }, today)

describe('a list of projects narrowed', () => {
  it('to a state, and to words wherever they stand', () => {
    expect(passes({})).toBe(true)
    expect(passes({ status: 'planned' })).toBe(true)
    expect(passes({ status: 'kitted' })).toBe(false)
    expect(passes({ words: 'petra rook' })).toBe(true)
    expect(passes({ words: 'stoat' })).toBe(true)
    expect(passes({ words: 'rook heron' })).toBe(false)
  })

  it('to when it is due: today is not late yet, and four weeks are soon', () => {
    const due = (dueOn: string | null) => (['late', 'soon', 'none'] as const).filter((one) => passes({ due: one }, { dueOn }))
    expect(due('2026-11-30')).toEqual(['late'])
    expect(due('2026-12-01')).toEqual(['soon'])
    // 28 days on from 1 December.
    expect(due('2026-12-29')).toEqual(['soon'])
    expect(due('2026-12-30')).toEqual([])
    expect(due(null)).toEqual(['none'])
  })
})
