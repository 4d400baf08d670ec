import { describe, expect, it } from 'vitest'
import { findDoubles, type HeldDesign } from '#lib/chart/doubles'

const design = (chartId: string, title: string, change: Partial<HeldDesign> = {}): HeldDesign => ({
  ...{ chartId, title, chartTitle: `Chart ${chartId}`, kind: 'leaflet', copies: 1, isWhole: true, designerIds: ['quayle'] },
  ...change,
})

describe('charts held more often than once', () => {
  it('can do without every copy but one', () => {
    expect(findDoubles([design('a', 'Seven Lanterns', { copies: 3 }), design('b', 'Nine Wrens')])).toEqual([
      { chartId: 'a', spareCopies: 2, alsoIn: [] },
    ])
  })

  it('finds a design in two charts however it is spelt, and names the other', () => {
    expect(findDoubles([design('a', 'Seven Lanterns'), design('b', 'SEVEN lanterns', { kind: 'issue' })])).toEqual([
      { chartId: 'a', spareCopies: 1, alsoIn: ['Chart b'] },
      { chartId: 'b', spareCopies: 1, alsoIn: ['Chart a'] },
    ])
  })

  it('keeps a booklet that has a design besides', () => {
    const booklet = [design('a', 'Seven Lanterns', { kind: 'booklet' }), design('a', 'Nine Wrens', { kind: 'booklet' })]
    expect(findDoubles([...booklet, design('b', 'Seven Lanterns')])).toEqual([
      { chartId: 'b', spareCopies: 1, alsoIn: ['Chart a'] },
    ])
  })

  it('takes another designer’s design of the same name, and one that names nobody, for another', () => {
    expect(findDoubles([design('a', 'Rose'), design('b', 'Rose', { designerIds: ['ashdale'] })])).toEqual([])
    expect(findDoubles([design('a', 'Rose', { designerIds: [] }), design('b', 'Rose', { designerIds: [] })])).toEqual([])
  })

  it('passes no file on, and takes neither a file, a part nor a chart that is not here for a double', () => {
    expect(findDoubles([design('a', 'Rose', { kind: 'file', copies: 2 }), design('b', 'Rose')])).toEqual([])
    expect(findDoubles([design('a', 'Rose', { isWhole: false }), design('b', 'Rose')])).toEqual([])
    expect(findDoubles([design('a', 'Rose', { copies: 0 }), design('b', 'Rose')])).toEqual([])
  })
})
