import { describe, expect, it } from 'vitest'
import { levelSchedule, type ScheduleJob } from '#lib/planning/pace/schedule'

const job = (id: string, left: number, more: Partial<ScheduleJob> = {}): ScheduleJob => ({
  ...{ id, left, fromOn: null, stitchedBy: null },
  ...more,
})
/** A thousand stitches a week. */
const pace = { amount: 1_000, weeks: 1 }
// A Monday.
const today = '2026-06-01'
const plan = (jobs: ScheduleJob[], more: Partial<Parameters<typeof levelSchedule>[0]> = {}) =>
  levelSchedule({ jobs, pace, away: [], today, ...more })
const of = (schedule: ReturnType<typeof plan>, id: string) => schedule.jobs.find((one) => one.id === id)

describe('several works share a week', () => {
  it('the one due first has as much as it needs, the next the rest of its week', () => {
    // 2,500 take the first two weeks and half of the third; the other 500 of that, and 1,000 of the fourth.
    const schedule = plan([job('b', 1_500, { stitchedBy: '2026-07-06' }), job('a', 2_500, { stitchedBy: '2026-06-22' })])
    expect(of(schedule, 'a')).toMatchObject({ beginsOn: '2026-06-01', endsOn: '2026-06-22', daysLate: 0 })
    expect(of(schedule, 'b')).toMatchObject({ beginsOn: '2026-06-15', endsOn: '2026-06-29', daysLate: -7 })
  })

  it('says what slips and by how much', () => {
    // Two of two weeks each, both due after three: the second is a week late.
    const schedule = plan([job('a', 2_000, { stitchedBy: '2026-06-22' }), job('b', 2_000, { stitchedBy: '2026-06-22' })])
    expect(schedule.jobs.map(({ daysLate }) => daysLate)).toEqual([-7, 7])
  })

  it('puts a work by when something more urgent comes out, and takes it up again', () => {
    // Of four weeks for a, the second is the part's, which comes out on the 8th and is due on the 15th.
    const schedule = plan([
      job('a', 4_000, { stitchedBy: '2026-07-20' }),
      job('part', 1_000, { fromOn: '2026-06-08', stitchedBy: '2026-06-15' }),
    ])
    expect(of(schedule, 'part')).toMatchObject({ beginsOn: '2026-06-08', endsOn: '2026-06-15', daysLate: 0 })
    expect(of(schedule, 'a')?.spans).toEqual([
      { beginsOn: '2026-06-01', endsOn: '2026-06-08', amount: 1_000 },
      { beginsOn: '2026-06-15', endsOn: '2026-07-06', amount: 3_000 },
    ])
  })

  it('leaves what is not due for the time that is left, in the order given', () => {
    const schedule = plan([job('x', 1_500), job('y', 500), job('due', 1_000, { stitchedBy: '2027-01-04' })])
    expect(of(schedule, 'due')).toMatchObject({ beginsOn: '2026-06-01' })
    expect(of(schedule, 'x')).toMatchObject({ beginsOn: '2026-06-08', endsOn: '2026-06-22', daysLate: null, latestStart: null })
    expect(of(schedule, 'y')).toMatchObject({ beginsOn: '2026-06-15', endsOn: '2026-06-22' })
  })

  it('leaves out weeks away', () => {
    const away = [{ fromOn: '2026-06-08', toOn: '2026-06-14' }]
    const schedule = plan([job('a', 2_000, { stitchedBy: '2026-06-22' })], { away })
    expect(of(schedule, 'a')).toMatchObject({
      beginsOn: '2026-06-01',
      endsOn: '2026-06-22',
      daysLate: 0,
      latestStart: '2026-06-01',
    })
    // Begun on the way out, it begins when she is back.
    const second = plan([job('b', 1_000, { fromOn: '2026-06-08' })], { away })
    expect(of(second, 'b')).toMatchObject({ beginsOn: '2026-06-15', endsOn: '2026-06-22' })
  })

  it('names the time that nothing due takes', () => {
    const schedule = plan([
      job('a', 500, { stitchedBy: '2026-06-08' }),
      job('b', 500, { fromOn: '2026-06-22', stitchedBy: '2026-07-06' }),
      job('x', 9_000),
    ])
    expect(schedule.gaps).toEqual([{ fromOn: '2026-06-08', toOn: '2026-06-21' }])
  })

  it('gives no day to what ends beyond a hundred years, nor to what is done', () => {
    const schedule = plan([job('endless', 6_000_000, { stitchedBy: '2026-07-06' }), job('done', 0, { stitchedBy: '2026-07-06' })])
    expect(of(schedule, 'endless')).toMatchObject({ endsOn: null, daysLate: null, latestStart: null })
    expect(of(schedule, 'done')).toMatchObject({ beginsOn: null, endsOn: null, latestStart: null })
  })

  it('refuses a pace of nothing', () => {
    expect(() => plan([], { pace: { amount: 0, weeks: 4 } })).toThrow(RangeError)
    expect(() => plan([job('half', 0.5)])).toThrow(RangeError)
  })
})

describe('the last day to begin', () => {
  it('is earlier where another has to be stitched after it', () => {
    // b needs the two weeks to 13 July; a, due then too but begun before it, the three weeks to 29 June.
    const schedule = plan([job('a', 3_000, { stitchedBy: '2026-07-06' }), job('b', 2_000, { stitchedBy: '2026-07-13' })])
    expect(of(schedule, 'b')?.latestStart).toBe('2026-06-29')
    expect(of(schedule, 'a')?.latestStart).toBe('2026-06-08')
  })

  it('rounds a run of small works up to weeks once', () => {
    // Ten of 300 are three weeks, not ten.
    const small = Array.from({ length: 10 }, (_, at) => job(`s${at}`, 300, { stitchedBy: '2026-07-06' }))
    expect(of(plan(small), 's0')?.latestStart).toBe('2026-06-15')
  })

  it('lets a work end when it has to, though the next is begun long after', () => {
    const schedule = plan([job('a', 1_000, { stitchedBy: '2026-06-15' }), job('b', 1_000, { stitchedBy: '2026-12-07' })])
    expect(schedule.jobs.map(({ latestStart }) => latestStart)).toEqual(['2026-06-08', '2026-11-30'])
  })
})
