import { describe, expect, it } from 'vitest'
import { barcodeKey, hasWrongCheckDigit, looksLikeBarcode } from '#lib/thread/barcode'

describe('barcodeKey', () => {
  it('takes twelve digits and the same thirteen with a zero before them for one', () => {
    expect(barcodeKey('201234567899')).toBe('00201234567899')
    expect(barcodeKey('0201234567899')).toBe(barcodeKey('201234567899'))
  })

  it('drops spaces and what a scanner sends to end a line', () => {
    expect(barcodeKey(' 2012345 678903\r\n')).toBe('02012345678903')
  })

  it('keeps a code of the shop as it is, zeros and case and all', () => {
    expect(barcodeKey('T-0017a')).toBe('T-0017a')
    expect(barcodeKey('0017')).toBe('0017')
    expect(barcodeKey(' \t')).toBeNull()
  })
})

describe('hasWrongCheckDigit', () => {
  // Worked by hand: 2·1 + 0·3 + 1·1 + 2·3 + 3·1 + 4·3 + 5·1 + 6·3 + 7·1 + 8·3 + 9·1 + 0·3 = 87, and 3 makes 90.
  it('reads a number of goods with its check digit right', () => {
    expect(hasWrongCheckDigit('2012345678903')).toBe(false)
  })

  it('sees one digit misread and two neighbours swapped', () => {
    expect(hasWrongCheckDigit('2012345678904')).toBe(true)
    expect(hasWrongCheckDigit('2012354678903')).toBe(true)
  })

  it('says nothing against codes that have no check digit', () => {
    expect(hasWrongCheckDigit('0017')).toBe(false)
    expect(hasWrongCheckDigit('123456789')).toBe(false)
  })
})

describe('looksLikeBarcode', () => {
  it('tells bars from the codes of thread', () => {
    expect(['0311', '17A', 'Ecru', '1234567'].map(looksLikeBarcode)).toEqual([false, false, false, false])
    expect(looksLikeBarcode('2012 3456')).toBe(true)
  })
})
