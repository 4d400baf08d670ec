import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { editDistance, formKeys, isInitialled, likenessOf, nameForm, pairsSharing, titleForm } from '#lib/chart/likeness'

const titles = (left: string, right: string) => likenessOf(titleForm(left), titleForm(right))
const names = (left: string, right: string) => likenessOf(nameForm(left), nameForm(right))

describe('titles', () => {
  it.each([
    ['The Three Jugs', '3 jugs'],
    ['Kettle at Wend Cross', 'The Kettle, Wend Cross!'],
    ['Quince & Compass', 'quince and compass'],
    ['Hollin Staithe Alphabet', 'Hollin Staithe Alphabets'],
    ['The Miller’s Ledger', "Miller's Ledger"],
    ['Fourth Sunday', '4 Sunday'],
    ['Café Corner', 'Cafe  Corner'],
    ['Wick Lane II', 'Wick Lane 2'],
    ['Snowdrop Inventory 03', 'Snowdrop Inventory 3'],
  ])('%s and %s are the same', (left, right) => expect(titles(left, right)).toBe('same'))

  it.each([
    ['Rook Hill in Snow', 'Rok Hill in Snow'],
    ['Geese over Tarnbeck', 'Geese over Tranbeck'],
    ['Harbour Band Sampler', 'Harbor Band Sampler'],
    ['Moth and Candle', 'Candle and Moth'],
  ])('%s and %s are near', (left, right) => expect(titles(left, right)).toBe('near'))

  it('are one in the other when all words of the shorter are in the longer', () => {
    expect(titles('Rook Hill', 'Rook Hill in Snow')).toBe('part')
    expect(titles('Snow', 'Rook Hill in Snow')).toBe('far')
  })

  it.each([
    ['Winter Post 1', 'Winter Post 2'],
    ['Winter Post, Part One', 'Winter Post, Part Three'],
    ['Nine Wrens', 'Nine Hens'],
    ['Seven Lanterns', 'The Last Lantern'],
    ['Hearth and Heron', 'Hare by the Pump'],
  ])('%s and %s are two', (left, right) => expect(titles(left, right)).toBe('far'))
})

describe('names', () => {
  it.each([
    ['Mirabel Stoat', 'Stoat, Mirabel', 'same'],
    ['Plover & Rye Designs', 'Plover and Rye', 'same'],
    ['Brackwater Samplers', 'Brackwater', 'same'],
    ['Hester Pindar', 'Hester Pinder', 'near'],
    ['Josune Applegarth', 'Corvin Ashdale', 'far'],
  ])('%s and %s: %s', (left, right, likeness) => expect(names(left, right)).toBe(likeness))

  it('are one when a first name is shortened to its letter', () => {
    expect(isInitialled(nameForm('M. Stoat'), nameForm('Mirabel Stoat'))).toBe(true)
    expect(isInitialled(nameForm('T. Stoat'), nameForm('Mirabel Stoat'))).toBe(false)
    expect(isInitialled(nameForm('M. Stoat'), nameForm('Mirabel Quayle'))).toBe(false)
  })
})

describe('the letters between two texts', () => {
  it('are counted, a swap of neighbours as one', () => {
    // Hand-counted; "ca" to "abc" is 3 by optimal string alignment.
    expect([editDistance('kitten', 'sitting', 5), editDistance('stoat', 'staot', 5), editDistance('ca', 'abc', 5)]).toEqual([
      3, 1, 3,
    ])
    expect(editDistance('rook', 'heron', 2)).toBe(3)
  })

  /** The whole table, as the textbook has it. */
  function slow(a: string, b: string): number {
    const d = Array.from({ length: a.length + 1 }, (_, i) =>
      Array.from({ length: b.length + 1 }, (_, j) => (i === 0 ? j : j === 0 ? i : 0)),
    )
    for (let i = 1; i <= a.length; i++)
      for (let j = 1; j <= b.length; j++) {
        const row = d[i] as number[]
        const [above, before] = [d[i - 1] as number[], d[i - 2]]
        row[j] = Math.min(
          (above[j] as number) + 1,
          (row[j - 1] as number) + 1,
          (above[j - 1] as number) + Number(a[i - 1] !== b[j - 1]),
        )
        if (before && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
          row[j] = Math.min(row[j] as number, (before[j - 2] as number) + 1)
      }
    return d[a.length]?.[b.length] as number
  }

  it('are those of the whole table, up to the most that is asked for', () => {
    const word = fc.string({ unit: fc.constantFrom('a', 'b', 'c'), maxLength: 8 })
    fc.assert(
      fc.property(word, word, fc.integer({ min: 0, max: 4 }), (a, b, most) => {
        expect(editDistance(a, b, most)).toBe(Math.min(slow(a, b), most + 1))
      }),
      { seed: 6, numRuns: 500 },
    )
  })
})

describe('pairs that share a key', () => {
  it('are each found once, and a key that too many share tells nothing', () => {
    const keys = [
      ['a', 'all'],
      ['a', 'b', 'all'],
      ['b', 'all'],
      ['c', 'all'],
    ]
    expect([...pairsSharing(keys, 3)]).toEqual([
      [0, 1],
      [1, 2],
    ])
    expect([...pairsSharing(keys, 4)]).toHaveLength(6)
  })

  it('are found of titles that are a slip apart', () => {
    const keysOf = (title: string) => new Set(formKeys('title', titleForm(title)))
    for (const [left, right] of [
      ['Rook Hill in Snow', 'Rok Hill in Snow'],
      ['Weighhouse', 'The Weihghouse'],
    ] as const)
      expect([...keysOf(left)].some((key) => keysOf(right).has(key))).toBe(true)
  })
})
