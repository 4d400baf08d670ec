import { describe, expect, it } from 'vitest'
import type { KeyLine, ThreadList } from '#lib/chart/thread-list'
import { beadsOf, needOfList, plainUseOf, swapNeeds } from '#lib/coverage/need'
import type { StitchTally } from '#lib/thread/stitches'
import type { ThreadLine } from '#lib/thread/thread'

const skein = 480_000
const line: ThreadLine = {
  id: 'line',
  makerId: 'maker',
  makerName: 'Larkholm',
  name: 'Stranded cotton',
  fibre: 'cotton',
  strands: 6,
  putUpStrandTenths: skein,
  putUpWord: 'skein',
  dyeing: 'solid',
  lotsMatter: false,
  working: 'rows',
}
const lines = new Map([
  ['0311', line],
  ['0742', line],
])
const tallied = (tally: StitchTally | null, ...threads: [string, number][]): KeyLine => ({
  id: `${threads.map(([id]) => id).join('+')} ${Object.keys(tally ?? {}).join()}`,
  symbol: 'x',
  tally,
  threads: threads.map(([threadId, strands]) => ({ threadId, strands, stated: null })),
})
const stated = (hundredths: number, threadId = '0311'): KeyLine => ({
  id: 'stated',
  symbol: 'x',
  tally: null,
  threads: [{ threadId, strands: 2, stated: { hundredths, putUpTenths: null } }],
})
const aList = (...keyLines: KeyLine[]): ThreadList => ({ id: 'list', designId: 'design', name: 'As charted', keyLines })
const advised = { count: { threads: 28, perUm: 25_400 }, over: 2 as const, weave: null, insists: false, name: null }
const plain = { lines, advised, size: null, coverKind: null, settings: { allowance: 1.5 } }
const linen36 = { ends: { threads: 36, perUm: 25_400 }, picks: { threads: 36, perUm: 25_400 }, over: 2 as const, isTurned: false }

describe('the need of a thread list', () => {
  // Scenario A3 of the trade notes, worked by hand: 78,964 mm of strand, as one line and two others.
  it('sums crosses, outlines and knots of one thread over its lines', () => {
    const needs = needOfList({
      ...plain,
      list: aList(
        tallied({ full: 2_940 }, ['0311', 2]),
        tallied({ backstitch: 120 }, ['0311', 1]),
        tallied({ knotOneWrap: 30 }, ['0311', 2]),
      ),
    })
    expect(needs).toHaveLength(1)
    expect((needs[0]?.strandTenths ?? 0) / 10).toBeCloseTo(78_964, -0.5)
    expect(needs[0]).toMatchObject({ certainty: 'measured', from: [{ kind: 'tally' }, { kind: 'tally' }, { kind: 'tally' }] })
  })

  it('counts each thread of a blend with its own strands, in knots too', () => {
    const blend = aList(tallied({ full: 100, knotTwoWrap: 10 }, ['0311', 2], ['0742', 1]))
    const [two, one] = needOfList({ ...plain, list: blend })
    // Knots are 20 mm a strand: 10 × 200 tenths × 2 strands, no allowance.
    const crosses = 100 * 2 * (Math.SQRT2 + 1) * 18_142.857 * 1.5
    expect(two?.strandTenths).toBeCloseTo((crosses / 1_000) * 2 + 4_000, -1)
    expect(one?.strandTenths).toBeCloseTo(crosses / 1_000 + 2_000, -1)
  })

  it('measures the chosen cloth both ways, and the other way about when turned', () => {
    const cloth = {
      ends: { threads: 34, perUm: 25_400 },
      picks: { threads: 31, perUm: 25_400 },
      over: 2 as const,
      isTurned: false,
    }
    const list = aList(tallied({ full: 100 }, ['0311', 1]))
    const across = 25_400 / 17
    const up = 25_400 / 15.5
    const uprightUm = 100 * (2 * Math.hypot(across, up) + 2 * up) * 1.5
    const turnedUm = 100 * (2 * Math.hypot(across, up) + 2 * across) * 1.5
    expect(needOfList({ ...plain, list, cloth })[0]?.strandTenths).toBe(Math.ceil(uprightUm / 100))
    expect(needOfList({ ...plain, list, cloth: { ...cloth, isTurned: true } })[0]?.strandTenths).toBe(Math.ceil(turnedUm / 100))
  })

  it('rescales stated skeins to another cloth and other strands, and keeps the range', () => {
    // Scenario A10 of the trade notes: two skeins at 14 to the inch worked at 18 are × 14/18.
    const list = aList(stated(200))
    const [need] = needOfList({ ...plain, list, cloth: linen36 })
    expect(need).toMatchObject({
      leastStrandTenths: Math.floor((skein * 14) / 18),
      strandTenths: Math.ceil((2 * skein * 14) / 18),
      certainty: 'label',
    })
    const [halved] = needOfList({ ...plain, list, strands: { charted: 2, yours: 1 } })
    expect(halved?.strandTenths).toBe(skein)
    const [unscaled] = needOfList({ ...plain, advised: null, list, cloth: linen36 })
    expect(unscaled?.strandTenths).toBe(2 * skein)
  })

  it('takes 14 to the inch when no count is known, and says so', () => {
    const list = aList(tallied({ full: 100 }, ['0311', 2]))
    const assumed = needOfList({ ...plain, advised: null, list })[0]
    expect(assumed).toMatchObject({ certainty: 'assumed', strandTenths: needOfList({ ...plain, list })[0]?.strandTenths })
  })

  it('takes one put-up for a thread without an amount, however many lines it has', () => {
    const list = aList(tallied(null, ['0311', 2]), tallied(null, ['0311', 1], ['0742', 1]), tallied({ full: 0 }, ['0742', 2]))
    expect(needOfList({ ...plain, list }).map((need) => [need.threadId, need.strandTenths, need.certainty])).toEqual([
      ['0311', skein, 'assumed'],
      ['0742', skein, 'assumed'],
    ])
  })

  it('shares the crosses of a known size among the lines without amounts', () => {
    const list = aList(tallied({ full: 400 }, ['0311', 2]), tallied(null, ['0742', 2]), tallied(null, ['0311', 2]))
    const size = { width: 100, height: 80, uncertaintyUm: 0, isEstimated: false }
    const [first, second] = needOfList({ ...plain, list, size, coverKind: 'motif sampler' })
    // 100 × 80 × 0.275 = 2,200; less 400 leaves 1,800 for two lines.
    expect(second).toMatchObject({
      certainty: 'estimated',
      from: [{ kind: 'estimated', stitches: 900, sharedByLines: 2, talliedStitches: 400 }],
    })
    expect(first?.from).toMatchObject([{ kind: 'tally' }, { kind: 'estimated', stitches: 900 }])
    expect(first?.certainty).toBe('estimated')
  })

  it('takes an eyelet for the four squares it fills, and satin and outlines for none', () => {
    const list = aList(tallied({ eyelet: 100, satin: 500, backstitch: 300 }, ['0311', 2]), tallied(null, ['0742', 2]))
    const size = { width: 100, height: 10, uncertaintyUm: 0, isEstimated: false }
    expect(needOfList({ ...plain, list, size, coverKind: 'full' })[1]?.from).toMatchObject([{ kind: 'estimated', stitches: 600 }])
  })

  it('falls back to one put-up when the counts leave nothing to share', () => {
    const list = aList(tallied({ full: 4_000 }, ['0311', 2]), tallied(null, ['0742', 2]))
    const size = { width: 50, height: 50, uncertaintyUm: 0, isEstimated: false }
    expect(needOfList({ ...plain, list, size, coverKind: 'picture' })[1]).toMatchObject({
      strandTenths: skein,
      certainty: 'assumed',
    })
  })

  it('refuses a thread whose line is not known', () => {
    expect(() => needOfList({ ...plain, list: aList(stated(100, '9999')) })).toThrow(RangeError)
  })

  it('sums what falls on one thread when another is swapped for it', () => {
    const needs = needOfList({ ...plain, list: aList(stated(60), stated(30, '0742')) })
    expect(swapNeeds(needs, new Map([['0742', '0311']]))).toMatchObject([{ threadId: '0311', strandTenths: 0.9 * skein }])
  })
})

describe('what a measured use is held against', () => {
  it('is the geometry without allowance, and knots apart, of every line and every copy', () => {
    const list = aList(tallied({ full: 2_940, knotOneWrap: 30 }, ['0311', 2]), tallied({ backstitch: 120 }, ['0311', 1]))
    const [need] = needOfList({ ...plain, list })
    // Scenario A3 by hand: 51,510 + 653 mm in the stitches, 720 mm in knots; and three times that.
    const one = need && plainUseOf(need, 1)
    expect((one?.plainStrandTenths ?? 0) / 10).toBeCloseTo(52_163, -0.5)
    expect(one?.flatStrandTenths).toBe(7_200)
    expect(need && plainUseOf(need, 3)?.flatStrandTenths).toBe(21_600)
  })

  it('is nothing where any of it is stated, estimated or assumed, or all of it is knots', () => {
    const needFor = (...keyLines: KeyLine[]) => needOfList({ ...plain, list: aList(...keyLines) })[0]
    const counted = tallied({ full: 10 }, ['0311', 2])
    for (const other of [stated(50), tallied(null, ['0311', 2])]) {
      const need = needFor(counted, other)
      expect(need && plainUseOf(need, 1)).toBeNull()
    }
    const knots = needFor(tallied({ knotTwoWrap: 5 }, ['0311', 1]))
    expect(knots && plainUseOf(knots, 1)).toBeNull()
  })
})

describe('beads', () => {
  it('are counted once for a line, however many threads hold them', () =>
    expect(
      beadsOf(aList(tallied({ bead: 40 }, ['0311', 1], ['0742', 1]), tallied({ bead: 5, full: 2 }, ['0742', 2]), stated(100))),
    ).toBe(45))
})
