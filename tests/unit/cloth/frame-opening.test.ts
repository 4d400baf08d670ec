import { describe, expect, it } from 'vitest'
import { fitOpening, frameSizeOf, type OpeningQuestion, sizeForOpening } from '#lib/cloth/frame-opening'
import { defaultFraming } from '#lib/cloth/framing'
import { aPiece, inches, toTheInch } from './cloth-pieces'

/** 70 × 42 stitches: 5 × 3 in at 14 to the inch. An opening of 5 × 7 in, ½ in of plain cloth seen at least. */
const question = (overrides: Partial<OpeningQuestion> = {}): OpeningQuestion => ({
  width: 70,
  height: 42,
  uncertaintyUm: 0,
  opening: { widthUm: inches(5), heightUm: inches(7) },
  leastSeenUm: inches(0.5),
  framing: defaultFraming,
  shrinkPercent: 0,
  roundingUm: inches(0.5),
  ...overrides,
})
const on = (count: number, over: 1 | 2 = 2) => ({ ends: toTheInch(count), picks: toTheInch(count), over, isTurned: false })

describe('frameSizeOf', () => {
  it('adds plain cloth for the opening, the rabbet for the board, and board edge and turning back for the cut', () => {
    // 10 × 7: opening 11.5 × 8.5; board 12 × 9; exact cut 10 + 2 × 2.625 = 15.25 × 12.25, up to 15.5 × 12.5.
    const size = { widthUm: inches(10), heightUm: inches(7) }
    const frame = frameSizeOf(size, defaultFraming, { shrinkPercent: 0, roundingUm: inches(0.5), uncertaintyUm: 0 })
    expect(frame.opening).toEqual({ widthUm: inches(11.5), heightUm: inches(8.5) })
    expect(frame.board).toEqual({ widthUm: inches(12), heightUm: inches(9) })
    expect([frame.cut.exactWidthUm, frame.cut.exactHeightUm]).toEqual([inches(15.25), inches(12.25)])
    expect([frame.cut.widthUm, frame.cut.heightUm]).toEqual([inches(15.5), inches(12.5)])
  })
})

describe('fitOpening', () => {
  it('hangs the opening whichever way shows more, and cuts for the opening', () => {
    // On 28 over two it is 5 × 3: in 7 × 5 there is 1 in seen on every side. Cut 7 + 2 × 1.875 = 10.75, 8.75: 11 × 9 in.
    const way = fitOpening(question(), on(28))
    expect(way).toMatchObject({ kind: 'fits', isOpeningTurned: true, opening: { widthUm: inches(7), heightUm: inches(5) } })
    expect([way.seenAcrossUm, way.seenUpUm].map(Math.round)).toEqual([inches(1), inches(1)])
    expect([way.cut.exactWidthUm, way.cut.exactHeightUm]).toEqual([inches(10.75), inches(8.75)])
    expect([way.cut.widthUm, way.cut.heightUm]).toEqual([inches(11), inches(9)])
  })

  it('says when less is seen than asked, and when stitches would be covered', () => {
    // 20 over two, 10 to the inch: 7 × 4.2 in 7 × 5: nothing to see at the sides. 18 over two, 9 to the inch: 7.78 wide.
    expect(fitOpening(question(), on(20))).toMatchObject({ kind: 'little-seen' })
    const covered = fitOpening(question(), on(18))
    expect(covered.kind).toBe('too-large')
    expect(covered.seenAcrossUm / 25_400).toBeCloseTo((7 - 70 / 9) / 2, 6)
  })

  it('counts half the uncertainty of an estimated size against each side', () => {
    // 1 in seen as reckoned; out by 1⅛ in over all, 0.5625 of it on a side, less than half an inch may be seen.
    expect(fitOpening(question({ uncertaintyUm: inches(1) }), on(28)).kind).toBe('fits')
    expect(fitOpening(question({ uncertaintyUm: inches(1.125) }), on(28)).kind).toBe('little-seen')
  })
})

describe('sizeForOpening', () => {
  it('puts what fits from a piece held first, then other counts on hand, then those that are not', () => {
    const counts = sizeForOpening(question(), [
      aPiece({ id: 'held', widthUm: inches(12), heightUm: inches(9) }),
      aPiece({ id: 'small', ends: toTheInch(32), picks: toTheInch(32), widthUm: inches(6), heightUm: inches(6) }),
    ])
    expect(counts[0]).toMatchObject({
      over: 2,
      ends: toTheInch(28),
      pieces: [{ piece: { id: 'held' }, turnBackUm: inches(1.5) }],
    })
    const named = counts.map(({ weave, ends, over, pieceCount }) => `${weave} ${ends.threads} over ${over}: ${pieceCount}`)
    expect(named.indexOf('single 32 over 2: 1')).toBeLessThan(named.indexOf('block 14 over 1: 0'))
    expect(named).toContain('single 28 over 1: 1')
    // A count on hand is not among those that are not.
    expect(named).not.toContain('single 28 over 2: 0')
    expect(counts.at(-1)?.way.kind).toBe('too-large')
  })

  it('lets a piece do that is short only of what is turned back, and says how much is left of it', () => {
    // It needs 10.75 × 8.75; 8.25 high leaves 1.25 in to turn back.
    const [first] = sizeForOpening(question(), [aPiece({ widthUm: inches(12), heightUm: inches(8.25), isTurnable: false })])
    expect(first?.pieces[0]).toMatchObject({ fit: { kind: 'smaller-margin' }, turnBackUm: inches(1.25) })
    // 5.5 in is less than opening, rabbet and board edge together: 5.75.
    expect(
      sizeForOpening(question(), [aPiece({ widthUm: inches(12), heightUm: inches(5.5), isTurnable: false })])[0]?.pieces,
    ).toEqual([])
  })

  it('turns a piece where that helps and it may be turned, and passes over reserved ones', () => {
    const tall = { widthUm: inches(9), heightUm: inches(12) }
    const ofFirst = (overrides: object) => {
      const counts = sizeForOpening(question(), [aPiece({ ...tall, ...overrides })])
      return counts.find(({ ends, over }) => ends.threads === 28 && over === 2)
    }
    expect(ofFirst({})?.pieces[0]?.way.isTurned).toBe(true)
    // Upright 9 in are 1.75 short of 10.75: 0.875 on each side, of the 1.5 that are turned back.
    expect(ofFirst({ isTurnable: false })?.pieces[0]).toMatchObject({ turnBackUm: inches(0.625), way: { isTurned: false } })
    expect(ofFirst({ isReserved: true })).toMatchObject({ pieceCount: 0, pieces: [] })
  })
})
