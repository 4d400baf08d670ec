import { describe, expect, it } from 'vitest'
import {
  correctionTo,
  faultKinds,
  faultsOfTree,
  pathsToWrite,
  repairsOf,
  standingAbove,
  type TreePlace,
  weightOf,
} from '#lib/checking/fault'

const place = (id: string, parentId: string | null, path: string, isGone = false): [string, TreePlace] => [
  id,
  { id, label: id.toUpperCase(), parentId, path, isGone },
]

describe('faultsOfTree', () => {
  it('finds a tree sound whose paths lead down to each place', () => {
    expect(faultsOfTree(new Map([place('a', null, '/a/'), place('b', 'a', '/a/b/'), place('c', 'b', '/a/b/c/')]))).toEqual([])
  })

  it('tells a circle once, from the least id round, and not what hangs on it', () => {
    const places = new Map([place('c', 'b', '/c/'), place('b', 'a', '/b/'), place('a', 'c', '/a/'), place('d', 'c', '/c/d/')])
    expect(faultsOfTree(places)).toEqual([{ kind: 'place-in-circle', placeId: 'a', labels: ['A', 'C', 'B'] }])
  })

  it('tells two circles apart, and a place inside itself', () => {
    const places = new Map([place('a', 'b', ''), place('b', 'a', ''), place('x', 'x', '')])
    expect(faultsOfTree(places).map(({ placeId }) => placeId)).toEqual(['a', 'x'])
  })

  it('tells what stands in what is gone, and of what is gone nothing', () => {
    const places = new Map([place('a', null, '/a/', true), place('b', 'a', '/a/b/'), place('c', 'a', '/nowhere/', true)])
    expect(faultsOfTree(places)).toEqual([{ kind: 'place-in-gone-place', placeId: 'b', inside: 'A' }])
  })

  it('tells a path that is not its parent’s and its own', () => {
    const places = new Map([place('a', null, '/a/'), place('b', 'a', '/b/')])
    expect(faultsOfTree(places)).toEqual([{ kind: 'place-path-differs', placeId: 'b' }])
  })
})

describe('what mends a tree', () => {
  const places = new Map([
    place('a', null, '/a/'),
    place('b', 'a', '/a/b/', true),
    place('c', 'b', '/a/b/c/', true),
    place('d', 'c', '/a/b/c/d/'),
    place('e', 'd', '/a/b/c/d/e/'),
  ])

  it('is the nearest place above that stands, or the top', () => {
    expect(standingAbove(places, 'd')).toBe('a')
    expect(standingAbove(new Map([place('a', 'b', ''), place('b', 'a', '', true)]), 'a')).toBeNull()
  })

  it('is a path for the place and all within it, where that is another', () => {
    expect(pathsToWrite(places, { id: 'd', parentId: 'a' })).toEqual([
      { id: 'd', path: '/a/d/' },
      { id: 'e', path: '/a/d/e/' },
    ])
    expect(pathsToWrite(places, { id: 'd', parentId: 'c' })).toEqual([])
  })
})

describe('repairsOf', () => {
  const amount = (whole: number, partStrandTenths = 0) => ({ whole, partStrandTenths })
  const differs = (held: number, journal: number, over: object = {}) =>
    repairsOf({
      ...{ kind: 'stock-differs', noun: 'batch', held: amount(held), journal: amount(journal), isGone: false },
      ...over,
    })

  it('asks which is true where record and journal differ', () => {
    expect(differs(5, 3)).toEqual(['trust-record', 'trust-journal'])
  })

  it('never sets a record below nothing, brings back what is gone, or holds a piece of cloth twice', () => {
    expect(differs(5, -1)).toEqual(['trust-record'])
    expect(differs(0, 2, { isGone: true })).toEqual(['trust-record'])
    expect(differs(1, 2, { noun: 'cloth' })).toEqual(['trust-record'])
    expect(differs(1, 0, { noun: 'cloth' })).toEqual(['trust-record', 'trust-journal'])
    expect(differs(-1, 2)).toEqual(['trust-journal'])
    expect(differs(-1, -2)).toEqual([])
  })
})

it('corrects by what is wanting, and not where nothing is', () => {
  // 5 put-ups and 12 m held, 3 and 14 m in the journal: 2 more, 2 m less.
  const [held, journal] = [
    { whole: 5, partStrandTenths: 120_000 },
    { whole: 3, partStrandTenths: 140_000 },
  ]
  expect(correctionTo(held, journal)).toEqual({ wholeDelta: 2, partDeltaStrandTenths: -20_000 })
  expect(correctionTo(held, held)).toBeNull()
})

it('lets a sound collection have what only wants a look', () => {
  expect(faultKinds.filter((kind) => weightOf(kind) === 'mind')).toEqual([
    ...['promise-beyond', 'unlent-with-somebody', 'label-of-nothing', 'told-apart-gone'],
    ...['file-unnamed', 'half-written', 'staged-old'],
  ])
})
