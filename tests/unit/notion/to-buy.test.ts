import { describe, expect, it } from 'vitest'
import { toBuy } from '#lib/notion/to-buy'

describe('what to buy of a notion', () => {
  it('is whole packs: 13 needles in packs of 6 are 3', () => {
    expect(toBuy({ count: 0, minimum: 13, packOf: 6 })).toEqual({ short: 13, packs: 3 })
  })

  it('counts what is there against it: 1 short of 13 is one pack, exactly 6 short too', () => {
    expect(toBuy({ count: 12, minimum: 13, packOf: 6 })).toEqual({ short: 1, packs: 1 })
    expect(toBuy({ count: 7, minimum: 13, packOf: 6 })).toEqual({ short: 6, packs: 1 })
  })

  it('is nothing at the minimum, or where nobody said one', () => {
    expect(toBuy({ count: 13, minimum: 13, packOf: 6 })).toBeNull()
    expect(toBuy({ count: 0, minimum: null, packOf: 6 })).toBeNull()
  })

  it('is also what kits want of it, beside the minimum', () => {
    expect(toBuy({ count: 6, minimum: null, packOf: 6, forKits: 13 })).toEqual({ short: 7, packs: 2 })
    expect(toBuy({ count: 15, minimum: 3, packOf: null, forKits: 13 })).toEqual({ short: 1, packs: null })
    expect(toBuy({ count: 13, minimum: null, packOf: 6, forKits: 13 })).toBeNull()
  })

  it('knows no packs where it is sold singly', () => {
    expect(toBuy({ count: 0, minimum: 2, packOf: null })).toEqual({ short: 2, packs: null })
  })
})
