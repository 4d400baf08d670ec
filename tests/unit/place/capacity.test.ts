import { describe, expect, it } from 'vitest'
import { byFillDescending, fillByPutUps, fillsOf, type Holding, isFullerThan, percentOf } from '#lib/place/capacity'
import type { Place } from '#lib/place/place'

// A compartment takes by trial some 4 to 8 folded skeins, 10 to 15 bobbins, or 20 and more loops on a ring: common practice, no published
// source (trade notes 3.4).
const room = [
  { putUpWord: 'skein', most: 6 },
  { putUpWord: 'card', most: 12 },
  { putUpWord: 'loop', most: 20 },
]

describe('how full a place is', () => {
  it('adds up the share that each kind of put-up takes', () => {
    // 3 of 6 skeins are a half, 6 of 12 cards the other half.
    const full = fillByPutUps(room, [
      { putUpWord: 'skein', count: 3 },
      { putUpWord: 'card', count: 6 },
    ])
    expect(full.fill).toEqual({ filled: 1n, whole: 1n })
    expect(full.byWord.map(({ putUpWord, count, most }) => `${count} of ${most} ${putUpWord}`)).toEqual([
      '3 of 6 skein',
      '6 of 12 card',
      '0 of 20 loop',
    ])
    // 2/6 + 5/20 = 7/12
    expect(
      fillByPutUps(room, [
        { putUpWord: 'loop', count: 5 },
        { putUpWord: 'skein', count: 2 },
      ]).fill,
    ).toEqual({ filled: 7n, whole: 12n })
  })

  it('takes skein, Skeins and SKEIN for one, and names kinds nothing is said about', () => {
    const { fill, unknown } = fillByPutUps(room, [
      { putUpWord: 'Skeins', count: 2 },
      { putUpWord: 'SKEIN', count: 1 },
      { putUpWord: 'hank', count: 4 },
      { putUpWord: 'spool', count: 0 },
    ])
    expect(fill).toEqual({ filled: 1n, whole: 2n })
    expect(unknown).toEqual([{ putUpWord: 'hank', count: 4 }])
  })

  it('is over three-quarters only beyond three-quarters', () => {
    expect(isFullerThan({ filled: 30n, whole: 40n }, 75)).toBe(false)
    expect(isFullerThan({ filled: 31n, whole: 40n }, 75)).toBe(true)
    expect(isFullerThan({ filled: 8n, whole: 6n }, 100)).toBe(true)
    expect(percentOf({ filled: 31n, whole: 40n })).toBe(77.5)
    expect(percentOf({ filled: 2n, whole: 3n })).toBe(66.7)
    const fills = [
      { filled: 1n, whole: 2n },
      { filled: 2n, whole: 3n },
      { filled: 3n, whole: 6n },
    ]
    expect(fills.toSorted(byFillDescending)[0]).toEqual({ filled: 2n, whole: 3n })
  })

  const place = (id: string, over: Partial<Place> = {}): Place => ({
    ...{ id, label: id, name: null, kind: 'drawer', parentId: null, path: `/${id}/`, walkOrder: null, capacity: null },
    ...over,
  })
  const holding = (over: Partial<Holding>): Holding => ({ putUps: [], here: 0, out: 0, sort: 'threads', ...over })
  const skeins = (count: number) => holding({ putUps: [{ putUpWord: 'skein', count }], here: 1 })
  const compartments = ['a', 'b', 'c'].map((id) => place(id, { kind: 'compartment', parentId: 'drawer' }))

  it('takes a drawer’s fill from its compartments, none more than full', () => {
    const six = [{ putUpWord: 'skein', most: 6 }]
    const fills = fillsOf(
      [place('drawer'), ...compartments],
      new Map([
        ['a', six],
        ['b', six],
      ]),
      new Map([
        ['a', skeins(9)],
        ['b', skeins(3)],
        ['c', skeins(5)],
      ]),
    )
    // a is over full (9/6) and counts as full, b half: (1 + 1/2) / 2.
    expect(fills.get('a')).toMatchObject({ by: 'put-ups', fill: { filled: 3n, whole: 2n } })
    expect(fills.get('drawer')).toEqual({ by: 'compartments-room', fill: { filled: 3n, whole: 4n }, compartments: 3, unsaid: 1 })
    expect(fills.get('c')).toBeUndefined()
  })

  it('counts compartments that have something where none says what it takes', () => {
    const fills = fillsOf(
      [place('drawer', { capacity: 4 }), ...compartments],
      new Map(),
      new Map([
        ['a', holding({ here: 2 })],
        ['b', holding({ out: 1 })],
      ]),
    )
    expect(fills.get('drawer')).toEqual({ by: 'compartments', fill: { filled: 2n, whole: 4n }, here: 1, out: 1, capacity: 4 })
  })

  it('counts things against the number a place is said to hold, and says nothing of others', () => {
    const fills = fillsOf(
      [place('box', { capacity: 10 }), place('bag'), place('odd', { capacity: 0 })],
      new Map(),
      new Map([['box', holding({ here: 7, out: 1, sort: 'charts' })]]),
    )
    expect(fills.get('box')).toEqual({
      by: 'things',
      fill: { filled: 8n, whole: 10n },
      here: 7,
      out: 1,
      capacity: 10,
      sort: 'charts',
    })
    expect(fills.has('bag')).toBe(false)
    expect(fills.has('odd')).toBe(false)
  })

  it('goes by what the drawer itself says before its compartments', () => {
    const fills = fillsOf(
      [place('drawer', { capacity: 40 }), ...compartments],
      new Map([
        ['drawer', [{ putUpWord: 'skein', most: 60 }]],
        ['a', [{ putUpWord: 'skein', most: 6 }]],
      ]),
      new Map([
        ['drawer', skeins(45)],
        ['a', skeins(6)],
      ]),
    )
    expect(fills.get('drawer')).toMatchObject({ by: 'put-ups', fill: { filled: 3n, whole: 4n } })
  })
})
