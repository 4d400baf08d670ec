import fc from 'fast-check'
import { expect, it } from 'vitest'
import { fitOneWay } from '#lib/cloth/fit'
import { countTakers } from '#lib/coverage/count-takers'
import { ReachTree } from '#lib/coverage/reach-tree'
import { limitKinds, limitStride, writeStitchLimits } from '#lib/coverage/stitch-limits'
import { aPiece, threeInches } from './cloth-worlds'

const runs = { seed: 20260907, numRuns: 300 }

it('knows the first place from any on that reaches so high', () => {
  const height = fc.integer({ min: 1, max: 12 })
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 40 }),
      fc.array(fc.tuple(fc.nat({ max: 39 }), height, fc.nat({ max: 45 }), height), { maxLength: 60 }),
      (count, steps) => {
        const tree = new ReachTree(count)
        const reach = new Array<number>(count).fill(0)
        for (const [place, raisedTo, from, asked] of steps) {
          const at = place % count
          tree.raise(at, raisedTo)
          reach[at] = Math.max(reach[at] as number, raisedTo)
          expect(tree.firstFrom(from, asked)).toBe(reach.findIndex((high, index) => index >= from && high >= asked))
        }
      },
    ),
    runs,
  )
})

const side = fc.integer({ min: 0, max: 30 })
const stitches = fc.integer({ min: 1, max: 32 })

it('counts for each design the pieces that take it upright or turned, once', () => {
  fc.assert(
    fc.property(
      fc.array(fc.tuple(side, side, side, side), { maxLength: 12 }),
      fc.array(fc.tuple(stitches, stitches), { minLength: 1, maxLength: 20 }),
      (pieces, designs) => {
        const sorted = [...designs].sort((a, b) => b[0] - a[0] || b[1] - a[1])
        const limits = new Int32Array(pieces.length * limitStride)
        pieces.forEach((corners, slot) => {
          limits.set(corners, slot * limitStride)
        })
        const counts = new Uint16Array(sorted.length)
        countTakers(
          { limits, slots: [...pieces.keys()], kind: limitKinds.asked },
          {
            over: 2,
            uncertaintyUm: 0,
            rows: Int32Array.from(sorted.keys()),
            widths: Int32Array.from(sorted, ([width]) => width),
            heights: Int32Array.from(sorted, ([, height]) => height),
            tallest: Math.max(...sorted.map(([, height]) => height)),
          },
          counts,
        )
        const takes = (corners: readonly number[], [width, height]: readonly [number, number]) =>
          (width <= (corners[0] as number) && height <= (corners[1] as number)) ||
          (width <= (corners[2] as number) && height <= (corners[3] as number))
        expect([...counts]).toEqual(sorted.map((design) => pieces.filter((corners) => takes(corners, design)).length))
      },
    ),
    runs,
  )
})

it('measures a piece in stitches as its fit has it, to the stitch', () => {
  const settings = { margins: threeInches, shrinkPercent: 3, roundingUm: 12_700 }
  fc.assert(
    fc.property(aPiece, fc.constantFrom(1 as const, 2 as const), fc.constantFrom(0, 3_175), (piece, over, uncertaintyUm) => {
      const limits = new Int32Array(limitStride)
      writeStitchLimits(limits, 0, piece, { over, uncertaintyUm, settings })
      for (const isTurned of piece.isTurnable ? [false, true] : [false]) {
        const way = isTurned ? 2 : 0
        for (const isWidth of [true, false]) {
          for (const beyond of [-1, 0, 1]) {
            for (const kind of ['asked', 'squared', 'bare'] as const) {
              const at = limitKinds[kind] + way
              const [limit, otherLimit] = [limits[at + (isWidth ? 0 : 1)] as number, limits[at + (isWidth ? 1 : 0)] as number]
              const asked = limit + beyond
              if (asked < 1 || otherLimit < 1) continue
              const size = isWidth ? { width: asked, height: 1 } : { width: 1, height: asked }
              const fit = fitOneWay({ ...size, over, uncertaintyUm, ...settings }, piece, isTurned)
              const is = {
                asked: fit.kind === 'fits',
                squared: fit.kind === 'fits' && fit.fitsAfterSquaring,
                bare: fit.kind !== 'too-small',
              }
              expect(is[kind]).toBe(beyond <= 0)
            }
          }
        }
      }
    }),
    runs,
  )
})
