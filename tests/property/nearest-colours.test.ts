// Against culori, a general library of colour, as it stands on npm: its CIEDE2000 and a scan of every colour with it.
import { differenceCiede2000 } from 'culori'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { ciede2000, lightnessScale } from '#lib/colour/ciede2000'
import { deltaE00 } from '#lib/colour/convert'
import type { Lab } from '#lib/colour/lab'
import { NearestColours } from '#lib/colour/nearest'

const seeded = { seed: 20260907, numRuns: 200 }
const difference = differenceCiede2000()
const theirs = (one: Lab, other: Lab) => {
  const [a, b] = [one, other].map(({ L, a, b }) => ({ mode: 'lab65' as const, l: L, a, b }))
  return difference(a as NonNullable<typeof a>, b as NonNullable<typeof b>)
}

const figure = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const anywhere = fc.record({ L: figure(0, 100), a: figure(-128, 128), b: figure(-128, 128) })
const dull = fc.record({ L: figure(0, 100), a: figure(-8, 8), b: figure(-8, 8) })
const blue = fc.record({ L: figure(10, 60), a: figure(-10, 60), b: figure(-110, -20) })
/** Whole figures: greys, opposite hues and exactly equal colours come up. */
const whole = fc.record({
  L: fc.integer({ min: 0, max: 100 }),
  a: fc.integer({ min: -6, max: 6 }),
  b: fc.integer({ min: -6, max: 6 }),
})
const aColour = fc.oneof(anywhere, dull, blue, whole)
const near = fc.tuple(aColour, figure(-2, 2), figure(-4, 4), figure(-4, 4)).map(([lab, dL, da, db]): [Lab, Lab] => {
  const inRange = (value: number, least: number, most: number) => Math.min(most, Math.max(least, value))
  return [lab, { L: inRange(lab.L + dL, 0, 100), a: inRange(lab.a + da, -128, 128), b: inRange(lab.b + db, -128, 128) }]
})
const opposite = fc.tuple(anywhere, figure(-0.01, 0.01), figure(0.1, 1)).map(([lab, turn, share]): [Lab, Lab] => {
  const [x, y] = [-lab.a * share, -lab.b * share]
  return [lab, { L: lab.L, a: x - y * turn, b: y + x * turn }]
})
const aPair = fc.oneof(fc.tuple(aColour, aColour), near, opposite)

describe('CIEDE2000', () => {
  it('is the general library’s to a thousand-millionth', () => {
    fc.assert(
      fc.property(aPair, ([one, other]) => {
        expect(Math.abs(deltaE00(one, other) - theirs(one, other))).toBeLessThan(1e-9)
      }),
      { ...seeded, numRuns: 20_000 },
    )
  })

  it('is never less than its lightness term, which only grows as one lightness moves away from the other', () => {
    const lightnessTerm = (one: number, other: number) => Math.abs(other - one) / lightnessScale((one + other) / 2)
    fc.assert(
      fc.property(aPair, figure(0, 100), ([one, other], L) => {
        expect(theirs(one, other)).toBeGreaterThanOrEqual(lightnessTerm(one.L, other.L) - 1e-9)
        const isBetween = (L - one.L) * (other.L - L) >= 0
        if (isBetween) expect(lightnessTerm(one.L, L)).toBeLessThanOrEqual(lightnessTerm(one.L, other.L) + 1e-12)
      }),
      { ...seeded, numRuns: 20_000 },
    )
  })

  it('is the same both ways', () => {
    const chroma = ({ a, b }: Lab) => Math.sqrt(a * a + b * b)
    fc.assert(
      fc.property(aPair, ([p, q]) => {
        const there = ciede2000(p.L, p.a, p.b, chroma(p), q.L, q.a, q.b, chroma(q))
        expect(Math.abs(there - deltaE00(q, p))).toBeLessThan(1e-9)
      }),
      seeded,
    )
  })
})

/** As colours are written down: finer than that two differences could differ in their last bits only, where no order means anything. */
const written = aColour.map(({ L, a, b }): Lab => {
  const [l, x, y] = [L, a, b].map((value) => Math.round(value * 1_000) / 1_000) as [number, number, number]
  return { L: l, a: x, b: y }
})

describe('the nearest of many colours', () => {
  const scan = (colours: readonly { id: string; lab: Lab }[], lab: Lab, count: number, within: number) =>
    colours
      .map(({ id, lab: there }) => ({ id, deltaE00: theirs(lab, there) }))
      .filter(({ deltaE00 }) => deltaE00 <= within)
      .sort((one, other) => one.deltaE00 - other.deltaE00 || (one.id < other.id ? -1 : 1))
      .slice(0, count)
  const ids = (found: readonly { id: string }[]) => found.map(({ id }) => id)
  const named = (labs: readonly Lab[]) => labs.map((lab, index) => ({ id: `t${index}`, lab }))

  it('are those a scan of all with the general library finds, in its order', () => {
    fc.assert(
      fc.property(
        fc.array(written, { minLength: 1, maxLength: 300 }),
        written,
        fc.integer({ min: 1, max: 20 }),
        fc.option(figure(0, 20), { nil: Number.POSITIVE_INFINITY }),
        (labs, lab, count, within) => {
          const colours = named(labs)
          expect(ids(new NearestColours(colours).nearest(lab, { count, within }))).toEqual(ids(scan(colours, lab, count, within)))
        },
      ),
      { ...seeded, numRuns: 1_000 },
    )
  })

  it('are the same among 3,000 threads’ colours', () => {
    const colours = named(fc.sample(written, { seed: seeded.seed, numRuns: 3_000 }))
    const finder = new NearestColours(colours)
    for (const lab of fc.sample(written, { seed: 1, numRuns: 60 }))
      expect(ids(finder.nearest(lab, { count: 12 }))).toEqual(ids(scan(colours, lab, 12, Number.POSITIVE_INFINITY)))
  })

  it('do not depend on the order the colours are given in', () => {
    fc.assert(
      fc.property(fc.array(whole, { minLength: 2, maxLength: 60 }), whole, (labs, lab) => {
        const colours = named(labs)
        const found = new NearestColours(colours).nearest(lab, { count: 5 })
        expect(new NearestColours([...colours].reverse()).nearest(lab, { count: 5 })).toEqual(found)
      }),
      seeded,
    )
  })
})
