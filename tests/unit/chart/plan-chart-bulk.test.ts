import { describe, expect, it } from 'vitest'
import { type BulkChart, type BulkDesign, type ChartBulkStep, planChartBulk, planChartBulkUndo } from '#lib/chart/plan-chart-bulk'

const aChart = (changed: Partial<BulkChart> = {}): BulkChart => ({
  ...{ id: 'c1', kind: 'leaflet', ownerId: 'shop', copies: 1, homePlaceId: 'b3', currentPlaceId: 'b3', inWork: 0 },
  ...changed,
})
const aDesign = (changed: Partial<BulkDesign> = {}): BulkDesign => ({
  ...{ id: 'd1', chartId: 'c1', hasTheme: false, wishes: [] },
  ...changed,
})
const outcomesOf = (asked: Parameters<typeof planChartBulk>[0]) =>
  planChartBulk(asked).map(({ outcome, isOut }) => (isOut ? 'stays out' : outcome.kind))

describe('one change to many charts', () => {
  it('moves what is at home, and leaves out what is out', () => {
    const charts = [
      aChart(),
      aChart({ id: 'c2', currentPlaceId: 'framer' }),
      aChart({ id: 'c3', homePlaceId: 'box', currentPlaceId: 'box' }),
      aChart({ id: 'c4', homePlaceId: null, currentPlaceId: null }),
      // Out in the very place that is to be its home.
      aChart({ id: 'c5', currentPlaceId: 'box' }),
    ]
    expect(outcomesOf({ change: { kind: 'home', toPlaceId: 'box' }, charts, designs: [] })).toEqual([
      ...['changes', 'stays out', 'same', 'changes', 'changes'],
    ])
  })

  it('gives no file to a person', () => {
    const asked = { change: { kind: 'home' as const, toPlaceId: 'hanne' }, charts: [aChart({ kind: 'file' })], designs: [] }
    expect(planChartBulk({ ...asked, toPlaceKind: 'person' })[0]?.outcome).toEqual({
      kind: 'refused',
      why: { kind: 'is-a-file' },
    })
    expect(outcomesOf({ ...asked, toPlaceKind: 'folder' })).toEqual(['changes'])
  })

  it('keeps what is worked from', () => {
    const charts = [aChart(), aChart({ id: 'c2', inWork: 2 })]
    expect(
      planChartBulk({ change: { kind: 'gone', ending: 'lost' }, charts, designs: [] }).map(({ outcome }) => outcome),
    ).toEqual([{ kind: 'changes' }, { kind: 'refused', why: { kind: 'in-work', projects: 2 } }])
  })

  it('puts a theme on those without it, and takes it off those with it', () => {
    const designs = [aDesign(), aDesign({ id: 'd2', hasTheme: true })]
    const theme = { axis: 'season', name: 'Midwinter' } as const
    expect(outcomesOf({ change: { kind: 'add-theme', ...theme }, charts: [], designs })).toEqual(['changes', 'same'])
    expect(outcomesOf({ change: { kind: 'take-theme', themeId: 't' }, charts: [], designs })).toEqual(['same', 'changes'])
  })

  it('puts stars on wishes alone', () => {
    const designs = [
      aDesign(),
      aDesign({
        id: 'd2',
        wishes: [
          { projectId: 'p1', stars: null },
          { projectId: 'p2', stars: 3 },
        ],
      }),
    ]
    expect(outcomesOf({ change: { kind: 'stars', stars: 3 }, charts: [], designs })).toEqual(['refused', 'changes', 'same'])
  })
})

describe('taking it back', () => {
  const step = (changed: Partial<ChartBulkStep> = {}): ChartBulkStep => ({
    ...{ id: 'c1', chartId: 'c1', designId: null, before: { homePlaceId: 'b3', currentPlaceId: 'b3' }, versionAfter: 4 },
    ...changed,
  })

  it('leaves alone what was changed since, is gone, or has lost its place', () => {
    const steps = [
      step(),
      step({ id: 'c2' }),
      step({ id: 'c3' }),
      step({ id: 'c4', before: { homePlaceId: 'x', currentPlaceId: null } }),
    ]
    const versions = new Map([
      ['c1', 4],
      ['c2', 5],
      ['c4', 4],
    ])
    const { back, left } = planChartBulkUndo(steps, versions, new Set(['b3']))
    expect(back.map(({ id }) => id)).toEqual(['c1'])
    expect(left.map(({ id, why }) => [id, why])).toEqual([
      ['c2', 'changed-since'],
      ['c3', 'gone'],
      ['c4', 'place-gone'],
    ])
  })
})
