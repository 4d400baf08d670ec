import { describe, expect, it } from 'vitest'
import { type ClassPiece, planClassCloth } from '#lib/cloth/class-cloth'
import { inches } from './cloth-pieces'

const ways = [{ widthUm: inches(10), heightUm: inches(10), isTurned: false }]
const piece = (id: string, wide: number, high: number, more: Partial<ClassPiece> = {}): ClassPiece => ({
  ...{ id, cloth: 'oat', widthUm: inches(wide), heightUm: inches(high), isOffcut: false, ways },
  ...more,
})

describe('cloth for a class', () => {
  it('cuts offcuts first and leaves the rest to be bought', () => {
    const plan = planClassCloth(13, [piece('quarter', 20, 30), piece('offcut', 20, 10, { isOffcut: true })], 0)
    expect(plan).toMatchObject({ onHand: 8, toBuy: 5, cloth: 'oat' })
    expect(plan.from).toEqual([
      { pieceId: 'offcut', gives: 2, takes: 2 },
      { pieceId: 'quarter', gives: 6, takes: 6 },
    ])
  })

  it('cuts into the least whole cloth that is enough', () => {
    const plan = planClassCloth(6, [piece('yard', 54, 36), piece('quarter', 20, 30), piece('strip', 50, 10)], 0)
    expect(plan.from).toEqual([{ pieceId: 'quarter', gives: 6, takes: 6 }])
  })

  it('takes all from one cloth, and says what others would give', () => {
    const pieces = [piece('oat', 20, 20), piece('grey', 20, 30, { cloth: 'grey' })]
    const plan = planClassCloth(8, pieces, 0)
    expect(plan).toMatchObject({ cloth: 'grey', onHand: 6, toBuy: 2, otherCloths: [{ cloth: 'oat', gives: 4 }] })
  })

  it('prefers the cloth of which it need cut only an offcut', () => {
    const pieces = [piece('whole', 20, 20), piece('left', 30, 20, { cloth: 'grey', isOffcut: true })]
    expect(planClassCloth(4, pieces, 0)).toMatchObject({ cloth: 'grey', toBuy: 0, from: [{ pieceId: 'left', takes: 4 }] })
  })

  it('buys all where no piece gives one', () => {
    expect(planClassCloth(3, [piece('small', 9, 9)], 0)).toMatchObject({ cloth: null, from: [], onHand: 0, toBuy: 3 })
  })

  it('refuses a number that is none', () => {
    expect(() => planClassCloth(0, [], 0)).toThrow(RangeError)
  })
})
