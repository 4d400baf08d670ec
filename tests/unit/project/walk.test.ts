import { describe, expect, it } from 'vitest'
import { tickMoment } from '#lib/project/later-tick'
import { afterTick, walkProgress } from '#lib/project/walk'
import { planCarry, planHomecoming } from '#lib/project/walk-carry'
import { inWalkingOrder, pullsOf, type WalkStop } from '#lib/project/walk-lines'
import type { Batch } from '#lib/stock/batch'

/** Common practice, no published source: an 8 m skein of six strands, in tenths of a millimetre of one strand. */
const skein = 8_000 * 10 * 6

const aBatch = (change: Partial<Batch> = {}): Batch => ({
  ...{ id: 'b', threadId: 't', ownerId: 'shop', lot: null, putUpWord: null, putUpStrandTenths: skein, wholePutUps: 3 },
  ...{ partStrandTenths: 0, partCertainty: 'none', homePlaceId: 'drawer', currentPlaceId: 'drawer' },
  ...change,
})
const promise = (projectId: string, strandTenths: number) => ({ id: projectId, batchId: 'b', projectId, strandTenths })
const noThing = { batchId: null, clothPieceId: null, chartId: null, notionId: null }

describe('what to lift out of one batch for several bags', () => {
  it('gives the part skein to the first and whole ones to the next', () => {
    const batch = aBatch({ partStrandTenths: skein / 2, partCertainty: 'measured' })
    const promises = [promise('first', skein / 4), promise('second', skein * 1.5)]
    const wants = promises.map(({ projectId, strandTenths }) => ({ projectId, strandTenths, leastCutStrandTenths: 0 }))
    expect(pullsOf(batch, wants, promises)).toEqual({
      pulls: [
        { projectId: 'first', wholePutUps: 0, takesPart: true },
        { projectId: 'second', wholePutUps: 2, takesPart: false },
      ],
      leftThere: [],
    })
  })

  it('names the project for which nothing can be lifted without lifting what another was promised', () => {
    const promises = [promise('first', skein / 2), promise('second', skein / 2)]
    const wants = promises.map(({ projectId, strandTenths }) => ({ projectId, strandTenths, leastCutStrandTenths: 0 }))
    // One skein cannot be in two bags, though half of it was promised to each.
    expect(pullsOf(aBatch({ wholePutUps: 1 }), wants, promises)).toEqual({ pulls: [], leftThere: ['first', 'second'] })
  })

  it('leaves out what is in hand already', () => {
    const promises = [promise('first', skein), promise('second', skein * 2)]
    const wants = [
      { projectId: 'second', strandTenths: skein * 2, leastCutStrandTenths: 0 },
      { projectId: 'first', inHand: { wholePutUps: 1, takesPart: false } },
    ]
    expect(pullsOf(aBatch(), wants, promises).pulls).toEqual([{ projectId: 'second', wholePutUps: 2, takesPart: false }])
  })
})

describe('the order of a walk', () => {
  it('goes by place, in a place by number (2 before 10, names first), then cloth, charts and notions; no place last', () => {
    const stop = (code: string, placeId: string | null, more: Partial<WalkStop> = {}): WalkStop => ({
      ...{ ...noThing, batchId: code, projectId: 'p', placeId, maker: 'Larkholm', code },
      ...more,
    })
    const stops = [
      stop('10', 'near'),
      stop('Linen', 'near', { batchId: null, clothPieceId: 'Linen', maker: '' }),
      stop('lost', null),
      stop('2', 'near'),
      stop('Ecru', 'near'),
      stop('1', 'far'),
    ]
    const walked = inWalkingOrder(stops, {
      rankOf: new Map([
        ['near', 0],
        ['far', 1],
      ]),
      projectIds: ['p'],
    })
    expect(walked.map(({ code }) => code)).toEqual(['Ecru', '2', '10', 'Linen', '1', 'lost'])
  })
})

describe('a tick', () => {
  const line = { status: 'open' as const, tickedAtMs: null, tickedBy: null }

  it('stands over an earlier one, also when that arrives later', () => {
    const ticked = afterTick(line, { status: 'done', tickedAtMs: 20, by: 'Ines Coldwell' })
    expect(afterTick(ticked, { status: 'open', tickedAtMs: 10, by: 'Nell Oxtoby' })).toBe(ticked)
    expect(afterTick(ticked, { status: 'open', tickedAtMs: 30, by: 'Nell Oxtoby' })).toEqual({
      ...{ status: 'open', tickedAtMs: 30, tickedBy: 'Nell Oxtoby' },
    })
  })

  it('of a clock that is an hour slow is put right, one of ten seconds is left', () => {
    const now = 10_000_000
    const hour = 3_600_000
    expect(tickMoment({ tickedAtMs: now - hour - 500, sentAtMs: now - hour }, now)).toBe(now - 500)
    expect(tickMoment({ tickedAtMs: now - 10_500, sentAtMs: now - 10_000 }, now)).toBe(now - 10_500)
    expect(tickMoment({ tickedAtMs: now + 500 }, now)).toBe(now)
  })
})

it('counts things, not lines: one for two bags is done when both have it', () => {
  const red = { ...noThing, batchId: 'red', isCarried: false }
  const lines = [
    { ...red, status: 'done' as const },
    { ...red, status: 'open' as const },
    { ...noThing, chartId: 'c', status: 'instead' as const, isCarried: false },
    { ...noThing, notionId: 'n', status: 'not there' as const, isCarried: false },
  ]
  expect(walkProgress(lines)).toEqual({ things: 3, done: 1, notThere: 1, waiting: 2 })
})

describe('carrying out', () => {
  const line = (change: object) => ({
    ...{ lineId: 'l', batchId: 'b', projectId: 'p', wholePutUps: 1, takesPart: false, toPlaceId: 'bag', newBatchId: 'new' },
    ...change,
  })

  it('carries the same thing to two bags, and what lies in the bag already without a movement', () => {
    const plan = planCarry({
      batches: [aBatch(), aBatch({ id: 'there', currentPlaceId: 'bag' })],
      promises: [],
      lines: [
        line({}),
        line({ lineId: 'm', projectId: 'q', toPlaceId: 'other bag', wholePutUps: 2 }),
        line({ lineId: 'n', batchId: 'there', wholePutUps: 3 }),
      ],
    })
    expect(plan.carried).toEqual(['l', 'm', 'n'])
    const ends = plan.change.batches.map(({ id, wholePutUps, currentPlaceId }) => [id, wholePutUps, currentPlaceId])
    expect(ends).toEqual([
      ['b', 2, 'other bag'],
      ['new', 1, 'bag'],
    ])
  })

  it('says why a line stays: not so much there, promised to others, gone', () => {
    const plan = planCarry({
      batches: [aBatch()],
      promises: [promise('other', skein * 2.5)],
      lines: [line({ wholePutUps: 9 }), line({ lineId: 'm' }), line({ lineId: 'n', batchId: 'merged' })],
    })
    expect(plan.left).toEqual([
      { lineId: 'l', why: 'not-enough' },
      { lineId: 'm', why: 'promised' },
      { lineId: 'n', why: 'gone' },
    ])
    expect(plan.change).toEqual({ batches: [], movements: [], promises: [] })
  })

  it('puts back: merged at home, to live where the list says without a home, or not at all', () => {
    const home = aBatch({ id: 'home' })
    const away = aBatch({ wholePutUps: 2, currentPlaceId: 'bag' })
    const homeless = aBatch({ id: 'h', homePlaceId: null, currentPlaceId: 'bag' })
    const lost = aBatch({ id: 'i', homePlaceId: null, currentPlaceId: 'bag' })
    const plan = planHomecoming({
      batches: [away, homeless, lost],
      promises: [],
      mergeInto: new Map([['b', home]]),
      lines: [
        line({ wholePutUps: 2 }),
        line({ lineId: 'm', batchId: 'h', wholePutUps: 3, toPlaceId: 'ring' }),
        line({ lineId: 'n', batchId: 'i', toPlaceId: null }),
      ],
    })
    expect(plan.carried).toEqual(['l', 'm'])
    expect(plan.left).toEqual([{ lineId: 'n', why: 'no-home' }])
    expect(plan.change.batches).toMatchObject([
      { id: 'home', wholePutUps: 5, isGone: false },
      { id: 'b', isGone: true },
      { id: 'h', homePlaceId: 'ring', currentPlaceId: 'ring' },
    ])
  })
})
