import { describe, expect, it } from 'vitest'
import {
  allowedFrom,
  openStatuses,
  planTransition,
  projectStatuses,
  transitions,
  underWayStatuses,
} from '#lib/project/life-cycle'

const fresh = { status: 'planned' as const, startedOn: null, finishedOn: null }

describe('the life of a project', () => {
  it('goes from wanted to finished by every step', () => {
    const steps = ['planned', 'kitted', 'stitching', 'resting', 'stitching', 'stitched', 'finished'] as const
    let project: Parameters<typeof planTransition>[0] = { ...fresh, status: 'wanted' }
    steps.forEach((to, day) => {
      const moved = planTransition(project, to, `2026-03-0${day + 1}`)
      if (!moved.ok) throw new Error(to)
      project = moved.value
    })
    expect(project).toEqual({ status: 'finished', startedOn: '2026-03-03', finishedOn: '2026-03-07' })
  })

  it('keeps a day that was recorded before', () => {
    const resting = { status: 'resting' as const, startedOn: '2025-01-01', finishedOn: null }
    expect(planTransition(resting, 'stitching', '2026-03-01')).toMatchObject({ value: { startedOn: '2025-01-01' } })
  })

  it('can be abandoned until it is finished, and says what is allowed instead', () => {
    for (const status of projectStatuses) {
      expect(transitions[status].includes('abandoned')).toBe(status !== 'finished' && status !== 'abandoned')
    }
    expect(planTransition({ ...fresh, status: 'wanted' }, 'finished', '2026-03-01')).toEqual({
      ok: false,
      error: { kind: 'not-from-here', from: 'wanted', to: 'finished', allowed: ['planned', 'kitted', 'stitching', 'abandoned'] },
    })
    expect(planTransition({ ...fresh, status: 'finished' }, 'stitching', '2026-03-01').ok).toBe(false)
  })

  it('can be planned again after kitting, but not finished before the first stitch', () => {
    expect(planTransition({ ...fresh, status: 'kitted' }, 'planned', '2026-03-01')).toEqual({ ok: true, value: fresh })
    expect(planTransition({ ...fresh, status: 'stitching' }, 'planned', '2026-03-01').ok).toBe(false)
    for (const status of ['planned', 'kitted'] as const)
      expect(planTransition({ ...fresh, status }, 'finished', '2026-03-01')).toMatchObject({
        error: { from: status, to: 'finished' },
      })
  })

  it('counts all but finished and abandoned as under way, and all of those but wanted as holding stock', () => {
    const ended = ['finished', 'abandoned']
    expect([...underWayStatuses].sort()).toEqual(projectStatuses.filter((status) => !ended.includes(status)).sort())
    expect([...openStatuses, 'wanted'].sort()).toEqual([...underWayStatuses].sort())
  })

  it('finishes kits that are for others once they are kitted, and one’s own only once it was begun', () => {
    const dates = { startedOn: null, finishedOn: null }
    expect(planTransition({ status: 'kitted', quantity: 13, ...dates }, 'finished', '2026-12-01')).toMatchObject({ ok: true })
    expect(planTransition({ status: 'kitted', quantity: 1, ...dates }, 'finished', '2026-12-01')).toMatchObject({ ok: false })
    expect(allowedFrom({ status: 'planned', quantity: 13 })).not.toContain('finished')
  })
})
