import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { choosePiece } from '#lib/cloth/choose-piece'
import type { ClothPiece } from '#lib/cloth/cloth-piece'
import { type ClothRequest, fitOneWay, fitPiece } from '#lib/cloth/fit'
import { compareCodes } from '#lib/thread/code-order'
import { stitches } from '#lib/thread/stitches'
import { stitchesFrom, threadUse } from '#lib/thread/thread-use'

const settings = { seed: 20260907, numRuns: 200 }

const count = fc.integer({ min: 10, max: 60 }).map((threads) => ({ threads, perUm: 25_400 }))
const sideUm = fc.integer({ min: 20_000, max: 900_000 })
const piece = (id: string): fc.Arbitrary<ClothPiece> =>
  fc.record({
    id: fc.constant(id),
    ownerId: fc.constant('owner'),
    label: fc.constantFrom(null, 'C1', 'C2'),
    name: fc.constant('linen'),
    colourName: fc.constant(null),
    lab: fc.constant(null),
    dyeing: fc.constant(null),
    washState: fc.constantFrom('unknown' as const, 'new' as const, 'washed' as const, 'never' as const),
    isCountStale: fc.constant(false),
    weave: fc.constantFrom('single' as const, 'block' as const),
    ends: count,
    picks: count,
    widthUm: sideUm,
    heightUm: sideUm,
    isSquared: fc.boolean(),
    sizeCertainty: fc.constant('measured' as const),
    isTurnable: fc.boolean(),
    isReserved: fc.boolean(),
    isOffcut: fc.boolean(),
    homePlaceId: fc.constant(null),
    currentPlaceId: fc.constant(null),
  })
const marginUm = fc.integer({ min: 0, max: 100_000 })
const request: fc.Arbitrary<ClothRequest> = fc.record({
  width: fc.integer({ min: 1, max: 400 }),
  height: fc.integer({ min: 1, max: 400 }),
  over: fc.constantFrom(1 as const, 2 as const),
  margins: fc.record({ leftUm: marginUm, rightUm: marginUm, topUm: marginUm, bottomUm: marginUm }),
  shrinkPercent: fc.constantFrom(0, 3, 10),
  roundingUm: fc.constantFrom(6_350, 12_700, 10_000),
  uncertaintyUm: fc.constantFrom(0, 3_175),
})
const shuffled = <T>(items: T[]) => fc.shuffledSubarray(items, { minLength: items.length })

describe('choosing a piece', () => {
  it('gives the same answer whatever order the pieces come in', () => {
    const case_ = fc
      .tuple(request, fc.tuple(...['a', 'b', 'c', 'd', 'e', 'f'].map(piece)))
      .chain(([asked, pieces]) => fc.tuple(fc.constant(asked), fc.constant(pieces), shuffled(pieces)))
    fc.assert(
      fc.property(case_, ([asked, pieces, other]) => {
        const choice = { ...asked, buyCount: { threads: 28, perUm: 25_400 } }
        expect(choosePiece(choice, other)).toEqual(choosePiece(choice, pieces))
      }),
      settings,
    )
  })
})

/** The same cloth turned a quarter on the table: what was its weft is its warp. */
const quarterTurned = (held: ClothPiece): ClothPiece => ({
  ...held,
  ...{ ends: held.picks, picks: held.ends, widthUm: held.heightUm, heightUm: held.widthUm },
})

describe('fitting a piece', () => {
  it('is the same whether the cloth is turned or the design, and turned back nothing has changed', () => {
    fc.assert(
      fc.property(request, piece('a'), (asked, held) => {
        const turned = quarterTurned(held)
        expect({ ...fitOneWay(asked, turned, false), isTurned: true }).toEqual(fitOneWay(asked, held, true))
        expect(quarterTurned(turned)).toEqual(held)
        expect(fitPiece(asked, quarterTurned(turned))).toEqual(fitPiece(asked, held))
      }),
      settings,
    )
  })

  it('never gains a margin, fits at the margin it offers, and not with a tenth of a millimetre less room', () => {
    fc.assert(
      fc.property(request, piece('a'), (asked, held) => {
        const fit = fitPiece(asked, held)
        if (fit.kind !== 'smaller-margin') return
        const { margins } = fit
        for (const side of ['leftUm', 'rightUm', 'topUm', 'bottomUm'] as const) {
          expect(margins[side]).toBeGreaterThanOrEqual(0)
          expect(margins[side]).toBeLessThanOrEqual(asked.margins[side])
        }
        expect(fitPiece({ ...asked, margins }, held).kind).toBe('fits')
        const smaller = { ...held, widthUm: held.widthUm - 100, heightUm: held.heightUm - 100, isTurnable: false }
        if (!fit.isTurned) expect(fitPiece({ ...asked, margins }, smaller).kind).not.toBe('fits')
      }),
      settings,
    )
  })

  it('still fits a larger piece', () => {
    fc.assert(
      fc.property(request, piece('a'), sideUm, sideUm, (asked, held, widerUm, higherUm) => {
        const larger = { ...held, widthUm: held.widthUm + widerUm, heightUm: held.heightUm + higherUm }
        if (fitPiece(asked, held).kind === 'fits') expect(fitPiece(asked, larger).kind).toBe('fits')
      }),
      settings,
    )
  })

  it('cuts a rounded size that holds the exact one, by less than a step', () => {
    fc.assert(
      fc.property(request, piece('a'), (asked, held) => {
        const { cut } = fitPiece(asked, held)
        for (const [exactUm, um] of [
          [cut.exactWidthUm, cut.widthUm],
          [cut.exactHeightUm, cut.heightUm],
        ] as const) {
          expect(um % asked.roundingUm).toBe(0)
          expect(um).toBeGreaterThanOrEqual(exactUm - 0.01)
          expect(um - exactUm).toBeLessThan(asked.roundingUm)
        }
      }),
      settings,
    )
  })
})

describe('the order of codes', () => {
  const code = fc.oneof(
    fc.stringMatching(/^0{0,3}[0-9]{1,3}[A-Ca]?$/),
    fc.stringMatching(/^(The )?[A-Ca-c ]{1,4}$/),
    fc.stringMatching(/^[A-B]?[0-9]{1,2}-[0-9]{1,2}$/),
    fc.string({ maxLength: 5 }),
  )

  it('is total: nought only for the same text, the same both ways round, and never in a ring', () => {
    fc.assert(
      fc.property(code, code, code, (a, b, c) => {
        expect(compareCodes(a, b) === 0).toBe(a === b)
        expect(Math.sign(compareCodes(a, b)) + Math.sign(compareCodes(b, a))).toBe(0)
        if (compareCodes(a, b) <= 0 && compareCodes(b, c) <= 0) expect(compareCodes(a, c)).toBeLessThanOrEqual(0)
      }),
      { ...settings, numRuns: 2_000 },
    )
  })
})

describe('thread use', () => {
  const tally = fc.record(Object.fromEntries(stitches.map((stitch) => [stitch, fc.integer({ min: 0, max: 20_000 })])), {
    requiredKeys: [],
  })
  const setting = fc.record({
    strands: fc.integer({ min: 1, max: 6 }),
    working: fc.constantFrom('rows' as const, 'crosses' as const),
    acrossUm: fc.double({ min: 400, max: 4_000, noNaN: true }),
    upUm: fc.double({ min: 400, max: 4_000, noNaN: true }),
    allowance: fc.double({ min: 1, max: 3, noNaN: true }),
  })

  it('is whole, and no more than a tenth from the sum of its parts', () => {
    fc.assert(
      fc.property(tally, setting, (stitched, how) => {
        const use = threadUse({ tally: stitched, ...how })
        const bare = use.parts.reduce((sum, part) => sum + part.strandTenths, 0)
        const flat = use.parts.reduce((sum, part) => sum + part.flatStrandTenths, 0)
        const exact = bare * how.allowance + flat
        expect(Number.isSafeInteger(use.strandTenths)).toBe(true)
        expect(use.strandTenths).toBeGreaterThanOrEqual(exact - 1e-5)
        expect(use.strandTenths).toBeLessThan(exact + 1 + 1e-5)
      }),
      settings,
    )
  })

  it('says of any length how many stitches it covers: so many fit, and one more does not', () => {
    const stitch = fc.constantFrom(...stitches)
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 5_000_000 }), stitch, setting, (strandTenths, kind, how) => {
        const count = stitchesFrom(strandTenths, { stitch: kind, ...how })
        const need = (tally: number) => threadUse({ tally: { [kind]: tally }, ...how }).strandTenths
        expect(need(count)).toBeLessThanOrEqual(strandTenths)
        expect(need(count + 1)).toBeGreaterThan(strandTenths)
      }),
      settings,
    )
  })

  it('gives back at least the stitches a need was worked out from, and no more than rounding adds', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 20_000 }), fc.constantFrom(...stitches), setting, (count, kind, how) => {
        const strandTenths = threadUse({ tally: { [kind]: count }, ...how }).strandTenths
        const again = stitchesFrom(strandTenths, { stitch: kind, ...how })
        expect(again).toBeGreaterThanOrEqual(count)
        expect(threadUse({ tally: { [kind]: again }, ...how }).strandTenths).toBe(strandTenths)
      }),
      settings,
    )
  })

  it('of two tallies apart is at least that of both together, and over by a tenth at most', () => {
    fc.assert(
      fc.property(tally, tally, setting, (one, other, how) => {
        const together = Object.fromEntries(stitches.map((stitch) => [stitch, (one[stitch] ?? 0) + (other[stitch] ?? 0)]))
        const need = (stitched: typeof one) => threadUse({ tally: stitched, ...how }).strandTenths
        const apart = need(one) + need(other)
        expect(apart - need(together)).toBeGreaterThanOrEqual(0)
        expect(apart - need(together)).toBeLessThanOrEqual(1)
      }),
      settings,
    )
  })
})
