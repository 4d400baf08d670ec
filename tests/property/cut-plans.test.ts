import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type CutRequest, cutObjectives, measureOf } from '#lib/cloth/cut-plan'
import { bestByTryingAll, reached } from './cut-by-trying-all'
import { checkPlan, lastPlan, sizesAsRequest } from './cut-checks'

const settings = { seed: 20261129, numRuns: 150 }

const side = fc.integer({ min: 1, max: 5 })
const aRequest = ({ mostPieces, mostWishes, mostSide }: { mostPieces: number; mostWishes: number; mostSide: number }) =>
  fc
    .record({
      sides: fc.array(fc.tuple(fc.integer({ min: 2, max: mostSide }), fc.integer({ min: 2, max: mostSide })), {
        minLength: 1,
        maxLength: mostPieces,
      }),
      wanted: fc.array(
        fc.record({
          width: side,
          height: side,
          copies: fc.integer({ min: 1, max: 2 }),
          value: fc.integer({ min: 1, max: 9 }),
          isTurnable: fc.boolean(),
        }),
        { minLength: 1, maxLength: mostWishes },
      ),
      objective: fc.constantFrom(...cutObjectives),
      gapUm: fc.constantFrom(0, 0, 1),
      leastOffcutUm: fc.integer({ min: 0, max: 3 }),
    })
    .map(({ sides, wanted, ...rest }): CutRequest => {
      const pieces = sides.map(([widthUm, heightUm], index) => ({ id: `piece ${index}`, widthUm, heightUm }))
      return {
        ...rest,
        seed: 1,
        pieces,
        wishes: wanted.map(({ width, height, copies, value, isTurnable }, index) => ({
          ...{ id: `wish ${index}`, copies, value },
          ways: Object.fromEntries(
            pieces.map(({ id }) => [
              id,
              [
                { widthUm: width, heightUm: height, isTurned: false },
                ...(isTurnable ? [{ widthUm: height, heightUm: width, isTurned: true }] : []),
              ],
            ]),
          ),
        })),
      }
    })

function quarterTurned(request: CutRequest): CutRequest {
  const turned = <Size extends { widthUm: number; heightUm: number }>(size: Size): Size => ({
    ...size,
    ...{ widthUm: size.heightUm, heightUm: size.widthUm },
  })
  const wishes = request.wishes.map((wish) => ({
    ...wish,
    ways: Object.fromEntries(Object.entries(wish.ways).map(([pieceId, ways]) => [pieceId, ways.map(turned)])),
  }))
  return { ...request, pieces: request.pieces.map(turned), wishes }
}

describe('searchCuts', () => {
  it('cuts from edge to edge, loses no cloth and no wish, whatever is asked', () => {
    fc.assert(
      fc.property(aRequest({ mostPieces: 3, mostWishes: 5, mostSide: 12 }), (request) => checkPlan(lastPlan(request), request)),
      settings,
    )
  })

  it('finds what trying every cut finds, and says so, for one piece', () => {
    fc.assert(
      fc.property(aRequest({ mostPieces: 1, mostWishes: 3, mostSide: 8 }), (request) => {
        const plan = lastPlan(request)
        expect(reached(plan, request.objective)).toEqual(bestByTryingAll(request))
        expect(plan.isProved).toBe(true)
      }),
      settings,
    )
  })

  it('finds what trying every cut finds, for two pieces', () => {
    fc.assert(
      fc.property(aRequest({ mostPieces: 2, mostWishes: 3, mostSide: 6 }), (request) => {
        expect(reached(lastPlan(request), request.objective)).toEqual(bestByTryingAll(request))
      }),
      settings,
    )
  })

  it('cuts many from several pieces as it should, and stays within its bounds', () => {
    const sizes = fc.array(fc.tuple(fc.integer({ min: 3, max: 14 }), fc.integer({ min: 3, max: 14 })), {
      minLength: 15,
      maxLength: 22,
    })
    const sheets = fc.array(fc.tuple(fc.integer({ min: 15, max: 30 }), fc.integer({ min: 15, max: 30 })), {
      minLength: 1,
      maxLength: 3,
    })
    fc.assert(
      fc.property(sizes, sheets, fc.constantFrom(...cutObjectives), fc.constantFrom(0, 1), (items, pieces, objective, gapUm) => {
        const request = sizesAsRequest({ pieces, items, isTurnable: true, objective, gapUm, leastOffcutUm: 4 })
        const plan = lastPlan(request, 150)
        checkPlan(plan, request)
        expect(plan.value).toBeLessThanOrEqual(plan.valueBound)
        const measure = measureOf(plan, objective)
        if (objective === 'least waste' || objective === 'fewest cuts') expect(measure).toBeGreaterThanOrEqual(plan.bound)
        else expect(measure).toBeLessThanOrEqual(plan.bound)
      }),
      { ...settings, numRuns: 6 },
    )
  })

  it('is as good, and as well known, when the cloth and all that is wanted are turned a quarter', () => {
    fc.assert(
      fc.property(aRequest({ mostPieces: 2, mostWishes: 4, mostSide: 10 }), (request) => {
        const [plan, turned] = [lastPlan(request), lastPlan(quarterTurned(request))]
        expect(reached(turned, request.objective)).toEqual(reached(plan, request.objective))
        expect([turned.bound, turned.isProved]).toEqual([plan.bound, plan.isProved])
        expect(lastPlan(quarterTurned(quarterTurned(request)))).toEqual(plan)
      }),
      { ...settings, numRuns: 60 },
    )
  })

  it('is the same for the same request', () => {
    fc.assert(
      fc.property(aRequest({ mostPieces: 2, mostWishes: 4, mostSide: 10 }), (request) => {
        expect(lastPlan(request)).toEqual(lastPlan(request))
      }),
      { ...settings, numRuns: 30 },
    )
  })
})
