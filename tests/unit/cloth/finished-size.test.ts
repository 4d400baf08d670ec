import { describe, expect, it } from 'vitest'
import { cutSize, estimateStitches, finishedSize } from '#lib/cloth/finished-size'
import { defaultFinishing, finishingMargins, finishings, marginsAllRound } from '#lib/cloth/margins'
import { inches, toTheInch } from './cloth-pieces'

describe('finishedSize', () => {
  // A ruler's 2 in hold 64 threads across and 61 down: 128 × 128 over two comes to 8.000 × 8.393 in.
  it('is taller than wide where picks are fewer than ends, and the other way about when turned', () => {
    const cloth = {
      width: 128,
      height: 128,
      ends: { threads: 64, perUm: 50_800 },
      picks: { threads: 61, perUm: 50_800 },
      over: 2,
    } as const
    const upright = finishedSize({ ...cloth, isTurned: false })
    expect([(upright.widthUm / 25_400).toFixed(3), (upright.heightUm / 25_400).toFixed(3)]).toEqual(['8.000', '8.393'])
    const turned = finishedSize({ ...cloth, isTurned: true })
    expect(turned.widthUm).toBe(upright.heightUm)
    expect(turned.acrossUm).toBe(upright.upUm)
    const cut = cutSize({ finished: upright, margins: marginsAllRound(inches(3)), shrinkPercent: 0, roundingUm: inches(0.5) })
    expect([cut.widthUm, cut.heightUm]).toEqual([inches(14), inches(14.5)])
  })

  it('throws on a size that is not in whole stitches', () => {
    const cloth = { ends: toTheInch(28), picks: toTheInch(28), over: 2, isTurned: false } as const
    expect(() => finishedSize({ ...cloth, width: 0, height: 5 })).toThrow(RangeError)
    expect(() => finishedSize({ ...cloth, width: 5, height: 2.5 })).toThrow(RangeError)
  })
})

describe('estimateStitches', () => {
  it('reads 8 × 6 in at 14 to the inch as 112 × 84, give or take an eighth of an inch', () => {
    expect(estimateStitches({ widthUm: inches(8), heightUm: inches(6), count: toTheInch(28), over: 2 })).toEqual({
      width: 112,
      height: 84,
      uncertaintyUm: inches(0.125),
    })
  })

  it('throws on no size', () => {
    expect(() => estimateStitches({ widthUm: 0, heightUm: 1, count: toTheInch(14), over: 1 })).toThrow(RangeError)
  })
})

describe('cutSize', () => {
  const finished = { widthUm: inches(10), heightUm: inches(7) }
  const plain = { finished, margins: marginsAllRound(inches(2)), shrinkPercent: 0, roundingUm: inches(0.5) }

  it('adds four separate margins', () => {
    const margins = { leftUm: inches(1), rightUm: inches(2), topUm: inches(3), bottomUm: inches(4) }
    expect(cutSize({ ...plain, margins })).toMatchObject({ widthUm: inches(13), heightUm: inches(14) })
  })

  it('allows for washing after cutting: 14 in less 3 % shrinkage is cut 14.433 in', () => {
    const cut = cutSize({ ...plain, shrinkPercent: 3 })
    expect((cut.exactWidthUm / 25_400).toFixed(3)).toBe('14.433')
    expect(cut.widthUm).toBe(inches(14.5))
  })

  it('adds the uncertainty of an estimated size once to each dimension', () => {
    const cut = cutSize({ ...plain, uncertaintyUm: inches(0.125) })
    expect([cut.exactWidthUm, cut.exactHeightUm]).toEqual([inches(14.125), inches(11.125)])
  })

  it('rounds up to a centimetre', () => expect(cutSize({ ...plain, roundingUm: 10_000 }).widthUm).toBe(360_000))

  it('throws on what cannot be', () => {
    expect(() => cutSize({ ...plain, shrinkPercent: 100 })).toThrow(RangeError)
    expect(() => cutSize({ ...plain, margins: marginsAllRound(-1) })).toThrow(RangeError)
  })
})

describe('finishings', () => {
  it('each have margins, framed with 3 in all round being the first choice', () => {
    expect(Object.keys(finishingMargins)).toEqual([...finishings])
    expect(finishingMargins[defaultFinishing]).toEqual(marginsAllRound(inches(3)))
    expect(finishingMargins['bell pull']).toEqual({
      leftUm: inches(2),
      rightUm: inches(2),
      topUm: inches(3),
      bottomUm: inches(3),
    })
  })
})
