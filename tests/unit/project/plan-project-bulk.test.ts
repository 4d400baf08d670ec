import { describe, expect, it } from 'vitest'
import { type BulkProject, planProjectBulk } from '#lib/project/plan-project-bulk'

const aProject = (facts: Partial<BulkProject>): BulkProject => ({
  ...{ id: 'j', status: 'planned', dueOn: null, occasionKey: null, plannedOn: null, forWhom: null, stars: null },
  ...facts,
})

describe('one change to many projects', () => {
  it('says what was there of what it writes, and nothing else', () => {
    const before = aProject({ dueOn: '2026-12-01', occasionKey: 'easter', forWhom: 'Petra Lisle', stars: 3 })
    expect(planProjectBulk({ kind: 'due', dueOn: '2026-12-24' }, [before])).toEqual([
      { id: 'j', before: { dueOn: '2026-12-01', occasionKey: 'easter' }, outcome: 'changes' },
    ])
    expect(planProjectBulk({ kind: 'stars', stars: null }, [before])).toEqual([
      { id: 'j', before: { stars: 3 }, outcome: 'changes' },
    ])
  })

  it('leaves alone what is so already, and what is over', () => {
    const outcomes = (change: Parameters<typeof planProjectBulk>[0], projects: BulkProject[]) =>
      planProjectBulk(change, projects).map(({ outcome }) => outcome)
    expect(outcomes({ kind: 'for-whom', forWhom: 'Ines Coldwell' }, [aProject({ forWhom: 'Ines Coldwell' })])).toEqual(['same'])
    expect(outcomes({ kind: 'planned', plannedOn: null }, [aProject({}), aProject({ plannedOn: '2026-12-02' })])).toEqual([
      'same',
      'changes',
    ])
    // The same day, but an occasion still sets it: that changes.
    const easter = aProject({ dueOn: '2027-03-28', occasionKey: 'easter' })
    expect(outcomes({ kind: 'due', dueOn: '2027-03-28' }, [easter])).toEqual(['changes'])
    const over = [aProject({ status: 'finished' }), aProject({ status: 'abandoned' }), aProject({ status: 'stitched' })]
    expect(outcomes({ kind: 'stars', stars: 5 }, over)).toEqual(['over', 'over', 'changes'])
  })
})
