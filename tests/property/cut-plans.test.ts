import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type CutNode, type CutPlan, type CutRequest, cutObjectives, nodesOf } from '#lib/cloth/cut-plan'
import { searchCuts } from '#lib/cloth/cutting/search-cuts'
import { bestByTryingAll, reached } from './cut-by-trying-all'

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
        fc.record({ width: side, height: side, copies: fc.integer({ min: 1, max: 2 }), value: fc.integer({ min: 1, max: 9 }), isTurnable: fc.boolean() }),
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

function lastPlan(request: CutRequest): CutPlan {
  const search = searchCuts(request)
  for (;;) {
    const { value, done } = search.next()
    if (done) return value
  }
}

/** Every half lies in its whole, straight across, and with the gap makes it up; a wanted piece is cut to one of its sizes. */
function checkNode(node: CutNode, request: CutRequest, pieceId: string): void {
  if (node.kind === 'wanted') {
    const ways = request.wishes.find(({ id }) => id === node.wishId)?.ways[pieceId] ?? []
    expect(ways).toContainEqual({ widthUm: node.widthUm, heightUm: node.heightUm, isTurned: node.isTurned })
  }
  if (node.kind !== 'cut') return
  const { first, second, gapUm } = { ...node, gapUm: request.gapUm }
  const isUp = node.way === 'up'
  const { xUm, yUm, widthUm, heightUm } = node
  expect(node.atUm).toBeGreaterThan(0)
  expect(node.atUm).toBeLessThan(isUp ? widthUm : heightUm)
  expect(first).toMatchObject(isUp ? { xUm, yUm, widthUm: node.atUm, heightUm } : { xUm, yUm, widthUm, heightUm: node.atUm })
  const rest = (isUp ? widthUm : heightUm) - node.atUm - gapUm
  if (second === null) expect(rest).toBeLessThanOrEqual(0)
  else
    expect(second).toMatchObject(
      isUp
        ? { xUm: xUm + node.atUm + gapUm, yUm, widthUm: rest, heightUm }
        : { xUm, yUm: yUm + node.atUm + gapUm, widthUm, heightUm: rest },
    )
  checkNode(first, request, pieceId)
  if (second) checkNode(second, request, pieceId)
}

function checkPlan(plan: CutPlan, request: CutRequest): void {
  const cut = new Map<string, number[]>()
  for (const { pieceId, root } of plan.layouts) {
    const piece = request.pieces.find(({ id }) => id === pieceId)
    expect(root).toMatchObject({ xUm: 0, yUm: 0, widthUm: piece?.widthUm, heightUm: piece?.heightUm })
    checkNode(root, request, pieceId)
    for (const node of nodesOf(root))
      if (node.kind === 'wanted') cut.set(node.wishId, [...(cut.get(node.wishId) ?? []), node.copy])
  }
  for (const { id, copies } of request.wishes) {
    const leftOut = plan.leftOut.filter(({ wishId }) => wishId === id).map(({ copy }) => copy)
    // Every copy is cut once or left out once.
    expect([...(cut.get(id) ?? []), ...leftOut].sort((a, b) => a - b)).toEqual(Array.from({ length: copies }, (_, at) => at + 1))
  }
  const boxes = plan.layouts.flatMap(({ root }) => [...nodesOf(root)])
  const area = (kind: CutNode['kind']) =>
    boxes.filter((node) => node.kind === kind).reduce((sum, { widthUm, heightUm }) => sum + widthUm * heightUm, 0)
  expect(plan.cutCount).toBe(boxes.filter(({ kind }) => kind === 'cut').length)
  expect(plan.wasteUm2).toBe(area('waste'))
  if (request.gapUm === 0) {
    const whole = plan.layouts.reduce((sum, { root }) => sum + root.widthUm * root.heightUm, 0)
    expect(area('wanted') + area('offcut') + area('waste')).toBe(whole)
  }
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

  it('is the same for the same request', () => {
    fc.assert(
      fc.property(aRequest({ mostPieces: 2, mostWishes: 4, mostSide: 10 }), (request) => {
        expect(lastPlan(request)).toEqual(lastPlan(request))
      }),
      { ...settings, numRuns: 30 },
    )
  })
})
