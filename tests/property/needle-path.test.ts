import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { pitchedLengthUm } from '#lib/thread/stitch-geometry'
import { type Stitch, stitches, type Working } from '#lib/thread/stitches'

type Hole = [across: number, up: number]

const squares = (count: number): number[] => Array.from({ length: count }, (_, index) => index)

/** Round the edge of an eyelet from the middle of its left side, of its lower side, and from its lower left corner. */
const fromTheLeft: Hole[] = [
  [-1, 0],
  [-1, 1],
  [0, 1],
  [1, 1],
  [1, 0],
  [1, -1],
  [0, -1],
  [-1, -1],
]
const fromBelow: Hole[] = fromTheLeft.map(([across, up]) => [up, across])
const fromTheCorner: Hole[] = [...fromTheLeft.slice(-1), ...fromTheLeft.slice(0, -1)]

/** Up at each hole of the edge by turns, down in the middle. */
const eyelet = ([across, up]: Hole, edge: Hole[]): Hole[] =>
  edge.flatMap(([right, above]): Hole[] => [
    [across + right, up + above],
    [across, up],
  ])

/**
 * The holes the needle goes through, in order, to work a row of stitches: up at the first, down at the second, and so on by turns. The
 * length of a stitch in the long run is what one more of them adds.
 */
const routes: Record<string, { stitch: Stitch; working: Working; holes: (count: number) => Hole[] }> = {
  'crosses in rows': {
    stitch: 'full',
    working: 'rows',
    holes: (count) => [
      ...squares(count).flatMap((at): Hole[] => [
        [at, 0],
        [at + 1, 1],
      ]),
      ...squares(count)
        .reverse()
        .flatMap((at): Hole[] => [
          [at + 1, 0],
          [at, 1],
        ]),
    ],
  },
  'crosses one by one': {
    stitch: 'full',
    working: 'crosses',
    holes: (count) =>
      squares(count).flatMap((at): Hole[] => [
        [at, 1],
        [at + 1, 0],
        [at + 1, 1],
        [at, 0],
      ]),
  },
  'half crosses in a row': {
    stitch: 'half',
    working: 'rows',
    holes: (count) =>
      squares(count).flatMap((at): Hole[] => [
        [at, 0],
        [at + 1, 1],
      ]),
  },
  'beads in a row': {
    stitch: 'bead',
    working: 'rows',
    holes: (count) =>
      squares(count).flatMap((at): Hole[] => [
        [at, 0],
        [at + 1, 1],
      ]),
  },
  'quarters in a row': {
    stitch: 'quarter',
    working: 'rows',
    holes: (count) =>
      squares(count).flatMap((at): Hole[] => [
        [at, 0],
        [at + 0.5, 0.5],
      ]),
  },
  'three-quarters in a row': {
    stitch: 'threeQuarter',
    working: 'rows',
    holes: (count) =>
      squares(count).flatMap((at): Hole[] => [
        [at, 0],
        [at + 1, 1],
        [at + 1, 0],
        [at + 0.5, 0.5],
      ]),
  },
  'tent in a row': {
    stitch: 'tent',
    working: 'rows',
    holes: (count) =>
      squares(count).flatMap((at): Hole[] => [
        [-at, 0],
        [1 - at, 1],
      ]),
  },
  'backstitch across squares': {
    stitch: 'backstitchDiagonal',
    working: 'rows',
    holes: (count) =>
      squares(count).flatMap((at): Hole[] => [
        [at + 1, at + 1],
        [at, at],
      ]),
  },
  'eyelets side by side': {
    stitch: 'eyelet',
    working: 'rows',
    holes: (count) => squares(count).flatMap((at) => eyelet([2 * at, 0], fromTheLeft)),
  },
  'eyelets one above the other': {
    stitch: 'eyelet',
    working: 'rows',
    holes: (count) => squares(count).flatMap((at) => eyelet([0, 2 * at], fromBelow)),
  },
  'eyelets corner to corner': {
    stitch: 'eyelet',
    working: 'rows',
    holes: (count) => squares(count).flatMap((at) => eyelet([2 * at, 2 * at], fromTheCorner)),
  },
}

/** Lines along a thread of the cloth, by the direction they run in; the formula takes the mean of the two. */
const lines: Record<string, { stitch: Stitch; places: (count: number) => number[] }> = {
  backstitch: { stitch: 'backstitch', places: (count) => squares(count).flatMap((at) => [at + 1, at]) },
  'double running': { stitch: 'doubleRunning', places: (count) => [...squares(count + 1), ...squares(count).reverse()] },
  // One throw of so many units, and back behind to where the next begins.
  satin: { stitch: 'satin', places: (count) => [0, count, 0] },
}

function pathUm(holes: Hole[], acrossUm: number, upUm: number): number {
  let lengthUm = 0
  for (let index = 1; index < holes.length; index++) {
    const [from, to] = [holes[index - 1] as Hole, holes[index] as Hole]
    lengthUm += Math.hypot((to[0] - from[0]) * acrossUm, (to[1] - from[1]) * upUm)
  }
  return lengthUm
}

const pitch = fc.double({ min: 200, max: 5_000, noNaN: true })
const settings = { seed: 20260907, numRuns: 200 }

describe('thread per stitch against a needle followed hole by hole', () => {
  it.each(Object.entries(routes))('%s', (_name, { stitch, working, holes }) => {
    fc.assert(
      fc.property(pitch, pitch, fc.integer({ min: 1, max: 60 }), (acrossUm, upUm, count) => {
        const oneMoreUm = pathUm(holes(count + 1), acrossUm, upUm) - pathUm(holes(count), acrossUm, upUm)
        expect(pitchedLengthUm(stitch, working, { acrossUm, upUm })).toBeCloseTo(oneMoreUm, 5)
      }),
      settings,
    )
  })

  it.each(Object.entries(lines))('%s, the mean of a line across and a line up', (_name, { stitch, places }) => {
    fc.assert(
      fc.property(pitch, pitch, fc.integer({ min: 1, max: 60 }), (acrossUm, upUm, count) => {
        const oneMoreUm = (along: (place: number) => Hole) =>
          pathUm(places(count + 1).map(along), acrossUm, upUm) - pathUm(places(count).map(along), acrossUm, upUm)
        const meanUm = (oneMoreUm((place) => [place, 0]) + oneMoreUm((place) => [0, place])) / 2
        expect(pitchedLengthUm(stitch, 'rows', { acrossUm, upUm })).toBeCloseTo(meanUm, 5)
      }),
      settings,
    )
  })

  it('of a satin band lies between the formula and 1.6 % more, with throws of two units or longer a thread apart over two', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 200, max: 5_000 }),
        fc.integer({ min: 2, max: 12 }),
        fc.integer({ min: 1, max: 60 }),
        (pitchUm, units, throws) => {
          const band = (count: number) =>
            squares(count).flatMap((at): Hole[] => [
              [at / 2, 0],
              [at / 2, units],
            ])
          const oneMoreUm = pathUm(band(throws + 1), pitchUm, pitchUm) - pathUm(band(throws), pitchUm, pitchUm)
          const formulaUm = units * pitchedLengthUm('satin', 'rows', { acrossUm: pitchUm, upUm: pitchUm })
          expect(oneMoreUm).toBeGreaterThan(formulaUm)
          expect(oneMoreUm).toBeLessThan(formulaUm * 1.016)
        },
      ),
      settings,
    )
  })

  it('leaves out no stitch but the knots, which do not follow the cloth', () => {
    const followed = new Set([...Object.values(routes), ...Object.values(lines)].map(({ stitch }) => stitch))
    expect(stitches.filter((stitch) => !followed.has(stitch))).toEqual(['knotOneWrap', 'knotTwoWrap'])
  })
})
