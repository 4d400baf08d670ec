import { describe, expect, it } from 'vitest'
import { jobsOf, partDays } from '#lib/planning/pace/schedule-jobs'

const work = { id: 'w', left: 1_000, fromOn: null, stitchedBy: '2027-03-01', parts: [] }
const part = (id: string, stitches: number | null, comesOn: string | null = null, dueOn: string | null = null) => ({
  ...{ id, stitches, comesOn, dueOn },
})

describe('what a work asks of the weeks', () => {
  it('is one job without parts, and none where nobody knows what is left', () => {
    expect(jobsOf(work)).toEqual([{ id: 'w', left: 1_000, fromOn: null, stitchedBy: '2027-03-01' }])
    expect(jobsOf({ ...work, left: null })).toEqual([])
  })

  it('is a job for each part, by its own days or the work’s, and one for the rest', () => {
    const parts = [part('a', 300, '2027-01-01', '2027-01-31'), part('b', 200)]
    expect(jobsOf({ ...work, parts })).toEqual([
      { id: 'w/a', left: 300, fromOn: '2027-01-01', stitchedBy: '2027-01-31' },
      { id: 'w/b', left: 200, fromOn: null, stitchedBy: '2027-03-01' },
      { id: 'w', left: 500, fromOn: null, stitchedBy: '2027-03-01' },
    ])
  })

  it('shares what is left among parts that say nothing', () => {
    const parts = [part('a', 300), part('b', null), part('c', null), part('d', null)]
    expect(jobsOf({ ...work, parts }).map(({ left }) => left)).toEqual([300, 234, 233, 233])
  })

  it('goes by its parts where only they are known, or say more than the whole', () => {
    const parts = [part('a', 700), part('b', 700)]
    expect(jobsOf({ ...work, left: null, parts }).map(({ left }) => left)).toEqual([700, 700, 0])
    expect(jobsOf({ ...work, parts }).map(({ left }) => left)).toEqual([700, 700, 0])
  })

  it('comes out no sooner than the work is planned', () => {
    const [only] = jobsOf({ ...work, fromOn: '2027-02-01', parts: [part('a', 10, '2027-01-01')] })
    expect(only?.fromOn).toBe('2027-02-01')
  })
})

describe('parts made by a rule', () => {
  it('come on a day of each month, the last where a month has fewer', () => {
    expect(partDays({ kind: 'monthly', day: 1, from: '2026-11-30', count: 3 })).toEqual([
      '2026-12-01',
      '2027-01-01',
      '2027-02-01',
    ])
    expect(partDays({ kind: 'monthly', day: 31, from: '2026-12-31', count: 3 })).toEqual([
      '2026-12-31',
      '2027-01-31',
      '2027-02-28',
    ])
  })
  it('come every two weeks from a day', () => {
    expect(partDays({ kind: 'days', days: 14, from: '2026-12-24', count: 2 })).toEqual(['2026-12-24', '2027-01-07'])
  })
})
