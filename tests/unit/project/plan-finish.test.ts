import { describe, expect, it } from 'vitest'
import { planFinish, usedByLeftover } from '#lib/project/plan-finish'
import type { Batch } from '#lib/stock/batch'

const skein = 480_000

const aBatch = (id: string, change: Partial<Batch> = {}): Batch => ({
  id,
  threadId: '0311',
  ownerId: 'shop',
  lot: null,
  putUpWord: null,
  putUpStrandTenths: skein,
  wholePutUps: 1,
  partStrandTenths: 0,
  partCertainty: 'none',
  homePlaceId: 'drawer',
  currentPlaceId: 'K-07',
  ...change,
})
const finish = (change: Partial<Parameters<typeof planFinish>[0]>) => {
  const plan = planFinish({ projectId: 'rooks', batches: [], promises: [], needs: [], walkRanks: new Map(), ...change })
  if (!plan.ok) throw new Error(plan.error.kind)
  return plan.value
}
const needs = [{ threadId: '0311', strandTenths: 0.25 * skein }]

describe('closing the stock of a project', () => {
  it('takes the need as used when nothing else is said, as far as it is there', () => {
    expect(finish({ batches: [aBatch('a')], needs }).putBack).toMatchObject([{ partStrandTenths: 0.75 * skein }])
    const all = finish({ batches: [aBatch('a')], needs: [{ threadId: '0311', strandTenths: 3 * skein }] })
    expect(all).toMatchObject({ putBack: [], usedUp: [{ threadId: '0311', putUps: 1 }] })
    expect(all.change.batches).toMatchObject([{ id: 'a', wholePutUps: 0, currentPlaceId: 'drawer' }])
  })

  it('puts everything back when nothing was used', () => {
    const plan = finish({ batches: [aBatch('a')], needs, used: new Map([['0311', 0]]) })
    expect(plan.change.movements.map((movement) => movement.kind)).toEqual(['return'])
    expect(plan.check).toEqual({ pulled: 1, back: 1, usedUp: 0, missing: 0 })
  })

  it('joins leftovers to the equal batch at home, one after another', () => {
    const home = aBatch('home', { wholePutUps: 3, currentPlaceId: 'drawer' })
    const plan = finish({
      batches: [aBatch('a'), aBatch('b')],
      used: new Map([['0311', 1.5 * skein]]),
      mergeInto: new Map([
        ['a', home],
        ['b', home],
      ]),
    })
    const joined = plan.change.batches.find((batch) => batch.id === 'home')
    expect(joined).toMatchObject({ wholePutUps: 3, partStrandTenths: 0.5 * skein, partCertainty: 'label' })
    expect(plan.change.batches.filter((batch) => batch.isGone).map((batch) => batch.id)).toEqual(['a', 'b'])
    const summed = plan.change.movements.filter((movement) => movement.batchId === 'home')
    expect(summed.reduce((sum, movement) => sum + movement.partDeltaStrandTenths, 0)).toBe(0.5 * skein)
  })

  it('uses of a batch still at home no more than was promised, and frees the promises', () => {
    const batches = [aBatch('home', { wholePutUps: 5, currentPlaceId: 'drawer' })]
    const promises = [
      { id: 'p', batchId: 'home', projectId: 'rooks', strandTenths: skein },
      { id: 'q', batchId: 'home', projectId: 'lanterns', strandTenths: skein },
    ]
    const plan = finish({ batches, promises, needs: [{ threadId: '0311', strandTenths: 2 * skein }] })
    expect(plan.change.batches).toMatchObject([{ wholePutUps: 4 }])
    expect(plan.change.promises).toEqual([{ batchId: 'home', projectId: 'rooks', strandTenths: 0 }])
    expect(plan.check.pulled).toBe(0)
  })

  it('refuses more than was there', () => {
    const used = new Map([['0311', 2 * skein]])
    expect(planFinish({ projectId: 'rooks', batches: [aBatch('a')], promises: [], needs, used, walkRanks: new Map() })).toEqual({
      ok: false,
      error: { kind: 'not-enough', threadId: '0311', heldStrandTenths: skein, requestedStrandTenths: 2 * skein },
    })
    expect(planFinish({ projectId: 'rooks', batches: [], promises: [], needs, used, walkRanks: new Map() }).ok).toBe(false)
  })

  it('refuses to join batches that are not equal', () => {
    const mergeInto = new Map([['a', aBatch('home', { lot: '18', currentPlaceId: 'drawer' })]])
    expect(() => finish({ batches: [aBatch('a')], mergeInto })).toThrow(RangeError)
  })
})

describe('what was used, by what is left', () => {
  const none = new Set<string>()
  const left = (leftStrandTenths: number, missingIds: ReadonlySet<string> = none) => ({
    threadId: '0311',
    leftStrandTenths,
    missingIds,
  })

  it('is what was brought less what is left', () => {
    const pulled = [
      aBatch('a', { wholePutUps: 2 }),
      aBatch('b', { wholePutUps: 0, partStrandTenths: 100, partCertainty: 'measured' }),
    ]
    expect(usedByLeftover(pulled, left(skein))).toEqual({ ok: true, value: { usedStrandTenths: skein + 100, isReading: true } })
    expect(usedByLeftover(pulled, left(2 * skein + 100))).toMatchObject({ ok: true, value: { usedStrandTenths: 0 } })
  })

  it('teaches nothing where a part was guessed or unknown before, or a batch is missing', () => {
    for (const partCertainty of ['guess', 'some'] as const) {
      const pulled = [aBatch('a', { partStrandTenths: partCertainty === 'guess' ? 100 : 0, partCertainty })]
      expect(usedByLeftover(pulled, left(0))).toMatchObject({ ok: true, value: { isReading: false } })
    }
    const two = [aBatch('a'), aBatch('b')]
    expect(usedByLeftover(two, left(0, new Set(['b'])))).toEqual({
      ok: true,
      value: { usedStrandTenths: skein, isReading: false },
    })
  })

  it('is refused when more is left than was brought, or nothing was in the bag', () => {
    expect(usedByLeftover([aBatch('a')], left(skein + 1))).toEqual({
      ok: false,
      error: { kind: 'more-left-than-brought', threadId: '0311', broughtStrandTenths: skein, leftStrandTenths: skein + 1 },
    })
    expect(usedByLeftover([aBatch('a')], left(0, new Set(['a'])))).toEqual({
      ok: false,
      error: { kind: 'nothing-in-bag', threadId: '0311' },
    })
  })

  it('makes the part that goes back a measured one, when all that is left is in one batch', () => {
    const used = new Map([['0311', 0.25 * skein]])
    const measuredThreadIds = new Set(['0311'])
    const certainties = (...batches: Batch[]) =>
      finish({ batches, used, measuredThreadIds }).change.batches.map(({ id, partCertainty }) => [id, partCertainty])
    expect(certainties(aBatch('a'))).toEqual([['a', 'measured']])
    expect(finish({ batches: [aBatch('a')], used }).change.batches).toMatchObject([{ partCertainty: 'label' }])
    expect(certainties(aBatch('a'), aBatch('b', { lot: '18' })).filter(([, certainty]) => certainty === 'measured')).toEqual([])
  })
})
