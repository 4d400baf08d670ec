import { describe, expect, it } from 'vitest'
import type { NotionKind } from '#lib/notion/notion'
import { byKindAndSize, readSizeNumber, sizeKeyOf } from '#lib/notion/size'

const keyOf = (kind: NotionKind, size: string | null) => sizeKeyOf({ kind, size })
const inOrder = (...sizes: [NotionKind, string | null][]) =>
  sizes
    .map(([kind, size], at) => ({ id: String(at), kind, size, name: 'one' }))
    .sort(byKindAndSize)
    .map(({ size }) => size)

describe('the size of a notion', () => {
  it('is one size however it is written', () => {
    expect(keyOf('hoop', '10 in')).toBe(keyOf('hoop', '25.4 cm'))
    expect(keyOf('hoop', '10"')).toBe(keyOf('hoop', '254 mm'))
    expect(keyOf('needle', 'size 26')).toBe(keyOf('needle', 'No. 26'))
    expect(keyOf('needle', '26')).toBe(keyOf('needle', '#26'))
  })

  it('keeps an inch and a centimetre apart, and neither from a bare number', () => {
    expect(new Set([keyOf('hoop', '10 in'), keyOf('hoop', '10 cm'), keyOf('hoop', '10')]).size).toBe(3)
  })

  it('is no key where none is given', () => {
    expect(keyOf('scissors', null)).toBeNull()
  })

  it('reads the numbers of needles and beads only', () => {
    expect(readSizeNumber('size 26')).toBe(26)
    expect(readSizeNumber('11/0')).toBe(11)
    expect(readSizeNumber('26 mm')).toBeNull()
    expect(readSizeNumber('24 to 26')).toBeNull()
    expect(keyOf('bag', '26')).not.toBe(keyOf('needle', '26'))
  })
})

describe('notions in order', () => {
  it('lays needles from coarse to fine: a larger number is finer', () => {
    expect(inOrder(['needle', 'size 28'], ['needle', '9'], ['needle', 'size 24'], ['needle', 'no. 26'])).toEqual([
      '9',
      'size 24',
      'no. 26',
      'size 28',
    ])
  })

  it('lays hoops from small to large whatever their unit, those without a size last', () => {
    // 15 cm is 5.91 in, 25 cm is 9.84 in.
    expect(
      inOrder(['hoop', null], ['hoop', '10 in'], ['hoop', '25 cm'], ['hoop', '4 in'], ['hoop', '6 in'], ['hoop', '15 cm']),
    ).toEqual(['4 in', '15 cm', '6 in', '25 cm', '10 in', null])
  })

  it('lays frames by width, then height', () => {
    expect(inOrder(['frame', '18 x 12 in'], ['frame', '12 x 18 in'], ['frame', '12 x 9 in'])).toEqual([
      '12 x 9 in',
      '12 x 18 in',
      '18 x 12 in',
    ])
  })

  it('lays kinds in their order, then like sizes by name', () => {
    const named = (id: string, kind: NotionKind, name: string) => ({ id, kind, name, size: null })
    const order = [
      named('a', 'other', 'Abacus'),
      named('b', 'scissors', 'Stork'),
      named('c', 'scissors', 'Shears'),
      named('d', 'hoop', 'Zed'),
    ]
    expect(order.sort(byKindAndSize).map(({ id }) => id)).toEqual(['d', 'c', 'b', 'a'])
  })
})
