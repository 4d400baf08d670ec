import { describe, expect, it } from 'vitest'
import { amountWords, heldWords, partWords } from '#words/stock'

const line = { strands: 6, putUpWord: 'skein' }
const metre = 60_000

describe('words for stock', () => {
  it('say how the part is known', () => {
    const part = (partCertainty: 'measured' | 'label' | 'guess') =>
      partWords({ partStrandTenths: 2 * metre, partCertainty }, 6, 'm')
    expect([part('measured'), part('label'), part('guess')]).toEqual(['2 m, measured', '2 m, by the label', '2 m, a guess'])
  })

  it('keep an unknown part and none apart', () => {
    expect(partWords({ partStrandTenths: 0, partCertainty: 'some' }, 6, 'm')).toBe('some, length unknown')
    expect(partWords({ partStrandTenths: 0, partCertainty: 'none' }, 6, 'm')).toBe('')
  })

  it('name whole put-ups and the part of a batch, or that it is used up', () => {
    const held = { wholePutUps: 2, partStrandTenths: 3 * metre, partCertainty: 'guess' as const }
    expect(heldWords(held, line, 'm')).toBe('2 skeins and 3 m, a guess')
    expect(heldWords({ wholePutUps: 1, partStrandTenths: 0, partCertainty: 'none' }, line, 'm')).toBe('1 skein')
    expect(heldWords({ wholePutUps: 0, partStrandTenths: 0, partCertainty: 'none' }, line, 'm')).toBe('used up')
  })

  it('say an amount that was moved, without how it is known', () => {
    expect(amountWords({ wholePutUps: 1, partStrandTenths: metre }, line, 'm')).toBe('1 skein and 1 m')
    expect(amountWords({ wholePutUps: 0, partStrandTenths: 0 }, line, 'm')).toBe('')
  })
})
