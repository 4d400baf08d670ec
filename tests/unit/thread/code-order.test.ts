import { describe, expect, it } from 'vitest'
import { codeKey, compareCodes, isCloseCode } from '#lib/thread/code-order'

describe('compareCodes', () => {
  it('puts names first by alphabet, without a leading The', () => {
    expect(['2', 'Tarn Blue', 'The Salt Road', 'ecru', 'Raw'].sort(compareCodes)).toEqual([
      'ecru',
      'Raw',
      'The Salt Road',
      'Tarn Blue',
      '2',
    ])
  })

  it('reads figures inside a code as numbers', () => {
    expect(['N10', 'N9', '3-12', '3-2', '3'].sort(compareCodes)).toEqual(['N9', 'N10', '3', '3-2', '3-12'])
  })

  it('orders codes that read the same by their exact text', () => {
    expect(['17', '017', '0017'].sort(compareCodes)).toEqual(['0017', '017', '17'])
    expect(compareCodes('0017', '0017')).toBe(0)
  })

  it('compares figures too long for a number', () => {
    expect(compareCodes('90071992547409931', '90071992547409932')).toBeLessThan(0)
  })
})

describe('close codes', () => {
  it.each([
    ['0017', '17'],
    ['N-007', 'n7'],
    ['Tarn Blue', 'tarnblue'],
    ['100', '100'],
    ['000', '0'],
  ])('folds %j to %j', (code, key) => expect(codeKey(code)).toBe(key))

  it.each([
    ['17', '0017', true],
    ['17', '17A', true],
    ['17b', '17A', true],
    ['17', '17', false],
    ['17', '170', false],
    ['17', '3-17', false],
    ['ecru', 'Ecru', true],
    ['Ecru', 'Raw', false],
    ['', '-', false],
  ])('%j and %j: %s', (query, code, isClose) => expect(isCloseCode(query, code)).toBe(isClose))
})
