import { describe, expect, it } from 'vitest'
import { type ChoiceRequest, choosePiece } from '#lib/cloth/choose-piece'
import { clothKindKey, isAdvisedCloth } from '#lib/cloth/match-cloth'
import { parseCount } from '#lib/quantity/count'
import { aPiece, aRequest, inches, toTheInch } from './cloth-pieces'

const request: ChoiceRequest = { ...aRequest(), buyCount: toTheInch(28) }
const idsOf = (choice: ReturnType<typeof choosePiece>) => choice.ranked.map(({ piece }) => piece.id)

describe('choosePiece', () => {
  it('never offers a reserved piece', () => {
    expect(choosePiece(request, [aPiece({ isReserved: true })])).toMatchObject({ ranked: [], best: null })
  })

  it('prefers what fits, then an offcut, then the least left over', () => {
    const pieces = [
      aPiece({ id: 'tight', widthUm: inches(15), heightUm: inches(15) }),
      aPiece({ id: 'large', widthUm: inches(36), heightUm: inches(54) }),
      aPiece({ id: 'quarter' }),
      aPiece({ id: 'offcut', widthUm: inches(20), heightUm: inches(30), isOffcut: true }),
    ]
    const choice = choosePiece(request, pieces)
    expect(idsOf(choice)).toEqual(['offcut', 'quarter', 'large', 'tight'])
    expect(choice.best?.piece.id).toBe('offcut')
    expect(choice.toBuy).toBeNull()
  })

  it('prefers a piece that will still fit once squared', () => {
    const pieces = [
      aPiece({ id: 'nominal', widthUm: inches(16.25), heightUm: inches(13.25), isSquared: false, isOffcut: true }),
      aPiece({ id: 'sure' }),
    ]
    expect(idsOf(choosePiece(request, pieces))).toEqual(['sure', 'nominal'])
  })

  it('breaks ties by label, then id', () => {
    const pieces = [aPiece({ id: 'b', label: 'C2' }), aPiece({ id: 'd', label: 'C1' }), aPiece({ id: 'c', label: 'C1' })]
    expect(idsOf(choosePiece(request, pieces))).toEqual(['c', 'd', 'b'])
  })

  it('says what to buy when none fits with its margins, and still shows the one that nearly does', () => {
    const choice = choosePiece(request, [
      aPiece({ id: 'near', widthUm: inches(13), heightUm: inches(15.5) }),
      aPiece({ id: 'no', widthUm: inches(5), heightUm: inches(5) }),
    ])
    expect(idsOf(choice)).toEqual(['near'])
    expect(choice.best).toBeNull()
    expect(choice.toBuy).toMatchObject({ widthUm: inches(16), heightUm: inches(13) })
    expect(choosePiece({ ...request, buyCount: null }, []).toBuy).toBeNull()
  })
})

describe('isAdvisedCloth', () => {
  const advised = { count: toTheInch(28), weave: 'single', insists: false, name: null } as const

  it('takes single-thread cloths for one another and block cloth for neither', () => {
    expect(isAdvisedCloth(aPiece(), advised)).toBe(true)
    expect(isAdvisedCloth(aPiece({ weave: 'block' }), advised)).toBe(false)
    expect(isAdvisedCloth(aPiece({ weave: 'block' }), { ...advised, weave: null })).toBe(true)
    expect(isAdvisedCloth(aPiece(), { ...advised, weave: 'block' })).toBe(false)
  })

  it('holds to the named cloth only where the chart insists', () => {
    const linen = { ...advised, name: 'Linen' }
    const evenweave = aPiece({ name: 'Ostravane evenweave' })
    expect(isAdvisedCloth(evenweave, linen)).toBe(true)
    expect(isAdvisedCloth(evenweave, { ...linen, insists: true })).toBe(false)
    expect(isAdvisedCloth(aPiece(), { ...linen, insists: true })).toBe(true)
  })

  it.each([
    [28, 28, true],
    [27, 28, true],
    [29.4, 29.4, true],
    [26, 26, false],
    [30, 30, false],
    [34, 22, true],
  ])('takes %d × %d for 28: %s', (ends, picks, isTaken) => {
    expect(
      isAdvisedCloth(
        aPiece({ ends: { threads: ends * 10, perUm: 254_000 }, picks: { threads: picks * 10, perUm: 254_000 } }),
        advised,
      ),
    ).toBe(isTaken)
  })
})

describe('clothKindKey', () => {
  it.each([
    ['28', 'single 28'],
    ['110/10cm', 'single 28'],
    ['34 x 31', 'single 34 × 31'],
  ])('groups %s as %s', (text, key) => {
    const count = parseCount(text)
    if (!count) throw new Error(text)
    expect(clothKindKey(aPiece(count))).toBe(key)
  })
})
