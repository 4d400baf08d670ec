import { describe, expect, it } from 'vitest'
import { type CutRequest, cutWaysOn } from '#lib/cloth/cut-plan'
import { searchCuts } from '#lib/cloth/cutting/search-cuts'
import { aPiece, aRequest, inches, toTheInch } from './cloth-pieces'

const wayInInches = ({ widthUm, heightUm, isTurned }: ReturnType<typeof cutWaysOn>[number]) => [
  widthUm / 25_400,
  heightUm / 25_400,
  isTurned,
]

describe('cutWaysOn', () => {
  it('is the size to cut, upright and turned, along the cloth’s own sides', () => {
    expect(cutWaysOn(aRequest(), aPiece()).map(wayInInches)).toEqual([
      [16, 13, false],
      [13, 16, true],
    ])
  })

  it('is upright only where the cloth may not be turned, and nothing where the design does not fit', () => {
    expect(cutWaysOn(aRequest(), aPiece({ isTurnable: false })).map(wayInInches)).toEqual([[16, 13, false]])
    expect(cutWaysOn(aRequest(), aPiece({ widthUm: inches(9), heightUm: inches(9) }))).toEqual([])
  })

  it('takes the exact size where the rounded one is more than the piece has', () => {
    // 12 × 12 stitches on 30 over two is 0.8 in; with 3 in all round 6.8, to cut 7, from a piece of 6.9.
    const small = aPiece({ ends: toTheInch(30), picks: toTheInch(30), widthUm: inches(6.9), heightUm: inches(9) })
    expect(cutWaysOn(aRequest({ width: 12, height: 12 }), small).map(wayInInches)).toEqual([
      [6.8, 7, false],
      [6.8, 7, true],
    ])
  })
})

const request = (overrides: Partial<CutRequest>): CutRequest => ({
  pieces: [{ id: 'piece', widthUm: 100, heightUm: 100 }],
  wishes: [{ id: 'wish', copies: 1, value: 1, ways: { piece: [{ widthUm: 40, heightUm: 40, isTurned: false }] } }],
  ...{ objective: 'largest offcut', gapUm: 0, leastOffcutUm: 10, seed: 1 },
  ...overrides,
})

describe('searchCuts', () => {
  it('has nothing to do, and says so, where nothing is wanted or nothing lies on any piece', () => {
    for (const nothing of [request({ wishes: [] }), request({ pieces: [] })])
      expect(searchCuts(nothing).next()).toMatchObject({ done: true, value: { layouts: [], isProved: true } })
    const nowhere = request({ wishes: [{ id: 'wish', copies: 2, value: 1, ways: {} }] })
    expect(searchCuts(nowhere).next()).toMatchObject({
      done: true,
      value: {
        layouts: [],
        leftOut: [
          { wishId: 'wish', copy: 1 },
          { wishId: 'wish', copy: 2 },
        ],
      },
    })
  })

  it('refuses sides and copies that are not whole numbers above nought', () => {
    expect(() => searchCuts(request({ gapUm: 0.5 })).next()).toThrow(RangeError)
    expect(() => searchCuts(request({ pieces: [{ id: 'piece', widthUm: 0, heightUm: 5 }] })).next()).toThrow(RangeError)
    const half = { id: 'wish', copies: 1.5, value: 1, ways: {} }
    expect(() => searchCuts(request({ wishes: [half] })).next()).toThrow(RangeError)
  })
})
