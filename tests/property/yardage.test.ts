import fc from 'fast-check'
import { expect, it } from 'vitest'
import { type ClassPiece, planClassCloth } from '#lib/cloth/class-cloth'
import type { CutWay } from '#lib/cloth/cut-plan'
import { type LaidBox, mostFrom } from '#lib/cloth/most-from'
import { searchSetYardage } from '#lib/cloth/set-yardage'
import { planYardage, type YardageRequest } from '#lib/cloth/yardage'

type Sheet = { widthUm: number; heightUm: number }

/** The most copies, by trying every cut at every unit of every sheet. */
function slowMost(ways: readonly CutWay[], gapUm: number): (wide: number, high: number) => number {
  const known = new Map<string, number>()
  const most = (wide: number, high: number): number => {
    if (wide <= 0 || high <= 0) return 0
    const key = `${wide} ${high}`
    let best = known.get(key)
    if (best !== undefined) return best
    best = ways.some(({ widthUm, heightUm }) => widthUm <= wide && heightUm <= high) ? 1 : 0
    for (let cut = 1; cut < wide; cut++) best = Math.max(best, most(cut, high) + most(wide - cut - gapUm, high))
    for (let cut = 1; cut < high; cut++) best = Math.max(best, most(wide, cut) + most(wide, high - cut - gapUm))
    known.set(key, best)
    return best
  }
  return most
}

/** Whether boxes can be parted from one another by straight cuts from edge to edge, with the gap between them. */
function canBeParted(boxes: readonly LaidBox[], gapUm: number): boolean {
  if (boxes.length < 2) return true
  for (const [at, size] of [
    ['xUm', 'widthUm'],
    ['yUm', 'heightUm'],
  ] as const) {
    for (const end of new Set(boxes.map((box) => box[at] + box[size]))) {
      const before = boxes.filter((box) => box[at] + box[size] <= end)
      const after = boxes.filter((box) => box[at] >= end + gapUm)
      if (after.length > 0 && before.length > 0 && before.length + after.length === boxes.length)
        return canBeParted(before, gapUm) && canBeParted(after, gapUm)
    }
  }
  return false
}

function expectLaid(boxes: readonly LaidBox[], sheet: Sheet, ways: readonly CutWay[], gapUm: number): void {
  for (const { xUm, yUm, widthUm, heightUm, isTurned } of boxes) {
    expect(ways).toContainEqual({ widthUm, heightUm, isTurned })
    expect(Math.min(xUm, yUm)).toBeGreaterThanOrEqual(0)
    expect(xUm + widthUm).toBeLessThanOrEqual(sheet.widthUm)
    expect(yUm + heightUm).toBeLessThanOrEqual(sheet.heightUm)
  }
  expect(canBeParted(boxes, gapUm)).toBe(true)
}

const side = fc.integer({ min: 2, max: 9 })
/** One way round; both; or two ways that are not each other turned, as on cloth that is not square. */
const ways: fc.Arbitrary<CutWay[]> = fc
  .tuple(side, side, fc.constantFrom('one', 'both', 'skew'), fc.integer({ min: -1, max: 1 }))
  .map(([w, h, kind, skew]) => [
    { widthUm: w, heightUm: h, isTurned: false },
    ...(kind === 'one' ? [] : [{ widthUm: kind === 'skew' ? Math.max(1, h + skew) : h, heightUm: w, isTurned: true }]),
  ])
const gap = fc.constantFrom(0, 0, 1)

const request: fc.Arbitrary<YardageRequest> = fc.record({
  copies: fc.integer({ min: 1, max: 14 }),
  ways,
  gapUm: gap,
  bolt: fc.record({
    widthUm: fc.integer({ min: 6, max: 26 }),
    selvedgeUm: fc.integer({ min: 0, max: 2 }),
    straighteningUm: fc.integer({ min: 0, max: 2 }),
    stepUm: fc.integer({ min: 1, max: 6 }),
  }),
})
const seeded = { seed: 20_260_907 }

it('the most from one piece is what trying every cut finds, and it is laid so', () => {
  fc.assert(
    fc.property(ways, gap, fc.integer({ min: 1, max: 26 }), fc.integer({ min: 1, max: 26 }), (own, gapUm, widthUm, heightUm) => {
      const sheet = { widthUm, heightUm }
      const { copies, boxes, isProved } = mostFrom(sheet, own, { gapUm })
      expect(isProved).toBe(true)
      expect(copies).toBe(slowMost(own, gapUm)(widthUm, heightUm))
      expect(boxes).toHaveLength(copies)
      expectLaid(boxes, sheet, own, gapUm)
    }),
    { ...seeded, numRuns: 400 },
  )
})

it('what is bought gives never fewer than are wanted, and one step less is too short', () => {
  fc.assert(
    fc.property(request, (asked) => {
      const { copies, bolt, gapUm } = asked
      const plan = planYardage(asked)
      const most = slowMost(asked.ways, gapUm)
      const wide = Math.max(0, bolt.widthUm - 2 * bolt.selvedgeUm)
      const from = (boughtUm: number) => most(wide, boughtUm - bolt.straighteningUm)
      if (plan.best === null) {
        expect(from(60)).toBe(0)
        return
      }
      const { toBuyUm, lengthUm, gives, boxes } = plan.best
      expect(plan.isProved).toBe(true)
      expect(toBuyUm % bolt.stepUm).toBe(0)
      expect(lengthUm + bolt.straighteningUm).toBeLessThanOrEqual(toBuyUm)
      expect(gives).toBeGreaterThanOrEqual(copies)
      expect(from(toBuyUm)).toBeGreaterThanOrEqual(gives)
      expect(from(toBuyUm - bolt.stepUm)).toBeLessThan(copies)
      expect(boxes).toHaveLength(copies)
      expectLaid(boxes, { widthUm: wide, heightUm: lengthUm }, asked.ways, gapUm)
    }),
    { ...seeded, numRuns: 300 },
  )
})

it('being allowed to turn is never worse', () => {
  fc.assert(
    fc.property(request, (asked) => {
      const toBuy = (some: readonly CutWay[]) => planYardage({ ...asked, ways: some }).best?.toBuyUm ?? Number.POSITIVE_INFINITY
      expect(toBuy(asked.ways)).toBeLessThanOrEqual(toBuy(asked.ways.slice(0, 1)))
    }),
    { ...seeded, numRuns: 300 },
  )
})

it('a set of one size takes the length that size takes', () => {
  fc.assert(
    fc.property(request, ({ copies, ways: own, bolt, gapUm }) => {
      const search = searchSetYardage({ wishes: [{ id: 'one', copies: Math.min(copies, 7), ways: own }], bolt, gapUm })
      let step = search.next()
      while (!step.done) step = search.next()
      const plan = planYardage({ copies: Math.min(copies, 7), ways: own, bolt, gapUm })
      expect(step.value?.toBuyUm ?? null).toBe(plan.best?.toBuyUm ?? null)
      if (step.value) expect(step.value.isProved).toBe(true)
    }),
    { ...seeded, numRuns: 80 },
  )
})

const classPieces: fc.Arbitrary<ClassPiece[]> = fc
  .array(
    fc.record({
      cloth: fc.constantFrom('oat', 'oat', 'grey'),
      widthUm: fc.integer({ min: 1, max: 9 }),
      heightUm: fc.integer({ min: 1, max: 9 }),
      isOffcut: fc.boolean(),
    }),
    { maxLength: 8 },
  )
  .map((pieces) => pieces.map((piece, at) => ({ ...piece, id: `p${at}`, ways: [{ widthUm: 3, heightUm: 2, isTurned: false }] })))

it('the pieces for a class are those of one cloth that give most, with the least whole cloth cut into', () => {
  fc.assert(
    fc.property(classPieces, fc.integer({ min: 1, max: 20 }), (pieces, wanted) => {
      const plan = planClassCloth(wanted, pieces, 0)
      const gives = ({ widthUm, heightUm }: ClassPiece) => Math.floor(widthUm / 3) * Math.floor(heightUm / 2)
      const areas = (some: readonly ClassPiece[]): [number, number] => [
        some.reduce((sum, one) => sum + (one.isOffcut ? 0 : one.widthUm * one.heightUm), 0),
        some.reduce((sum, one) => sum + (one.isOffcut ? one.widthUm * one.heightUm : 0), 0),
      ]
      const sum = (some: readonly ClassPiece[]) =>
        Math.min(
          wanted,
          some.reduce((total, one) => total + gives(one), 0),
        )
      let best: { sum: number; whole: number; offcut: number } = { sum: 0, whole: 0, offcut: 0 }
      for (const cloth of ['oat', 'grey']) {
        const own = pieces.filter((one) => one.cloth === cloth && gives(one) > 0)
        for (let set = 0; set < 2 ** own.length; set++) {
          const some = own.filter((_, at) => set & (1 << at))
          const [whole, offcut] = areas(some)
          const isBetter =
            sum(some) > best.sum ||
            (sum(some) === best.sum && (whole < best.whole || (whole === best.whole && offcut < best.offcut)))
          if (isBetter) best = { sum: sum(some), whole, offcut }
        }
      }
      expect(plan.onHand).toBe(best.sum)
      expect(plan.onHand + plan.toBuy).toBe(wanted)
      expect(plan.from.reduce((total, { takes }) => total + takes, 0)).toBe(plan.onHand)
      const used = plan.from.map(({ pieceId }) => pieces.find(({ id }) => id === pieceId) as ClassPiece)
      expect(new Set(used.map(({ cloth }) => cloth)).size).toBeLessThanOrEqual(1)
      expect(areas(used)[0]).toBe(best.whole)
      const turned = planClassCloth(wanted, [...pieces].reverse(), 0)
      expect(turned).toEqual(plan)
    }),
    { ...seeded, numRuns: 300 },
  )
})
