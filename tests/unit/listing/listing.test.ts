import { describe, expect, it } from 'vitest'
import { type ColumnsKnown, columnsText, isUsual, readColumns, withMoved, withTicked } from '#lib/listing/columns'
import { inRuns } from '#lib/listing/in-runs'
import { RunLines } from '#lib/listing/runs'
import {
  allChosen,
  chosenOf,
  countChosen,
  isChosen,
  mostTicked,
  nothingChosen,
  readSelection,
  selectionText,
  withChosen,
} from '#lib/listing/selection'
import { groupsOf } from '../../../app/_listing/groups-of'

const known: ColumnsKnown<'cover' | 'title' | 'cloth' | 'place'> = {
  every: ['cover', 'title', 'cloth', 'place'],
  usual: ['cover', 'title', 'place'],
  fixed: 'title',
}

describe('columns of a list', () => {
  it.each([
    [null, ['cover', 'title', 'place']],
    ['', ['cover', 'title', 'place']],
    // Of another version of the program: nothing of it is known here.
    ['weight.height', ['cover', 'title', 'place']],
    ['place.cloth.title', ['place', 'cloth', 'title']],
    ['place.weight.place.title', ['place', 'title']],
    ['place', ['title', 'place']],
  ])('reads %j', (text, columns) => {
    expect(readColumns(text, known)).toEqual(columns)
  })

  it('reads back what it wrote, and knows the house’s own', () => {
    expect(readColumns(columnsText(['place', 'title']), known)).toEqual(['place', 'title'])
    expect(isUsual(['cover', 'title', 'place'], known)).toBe(true)
    expect(isUsual(['title', 'cover', 'place'], known)).toBe(false)
  })

  it('moves one by a step, and not past an end', () => {
    expect(withMoved(['cover', 'title', 'place'], 'place', -1)).toEqual(['cover', 'place', 'title'])
    expect(withMoved(['cover', 'title', 'place'], 'cover', -1)).toEqual(['cover', 'title', 'place'])
    expect(withMoved(['cover', 'title', 'place'], 'place', 1)).toEqual(['cover', 'title', 'place'])
  })

  it('keeps the order of those that stay, puts new ones last, and never loses the fixed one', () => {
    expect(withTicked(['place', 'title', 'cover'], new Set(['place', 'cloth']), known)).toEqual(['place', 'title', 'cloth'])
  })
})

describe('what is chosen of a list', () => {
  it('is some, or all but some', () => {
    const some = withChosen(nothingChosen, ['a', 'b'], true)
    expect(chosenOf(withChosen(some, ['a'], false), ['a', 'b', 'c'])).toEqual(['b'])
    const most = withChosen(allChosen, ['b'], false)
    expect(chosenOf(most, ['a', 'b', 'c'])).toEqual(['a', 'c'])
    expect(countChosen(most, 1_240)).toBe(1_239)
    expect(isChosen(withChosen(most, ['b'], true), 'b')).toBe(true)
  })

  it('is kept as a filter and its exceptions, however many they are', () => {
    expect(selectionText(withChosen(allChosen, ['b'], false))).toBe('{"except":["b"]}')
    expect(readSelection('{"except":["b"]}')).toEqual({ kind: 'all', except: new Set(['b']) })
    expect(readSelection('{"these":["a"]}')).toEqual({ kind: 'these', ids: new Set(['a']) })
  })

  it.each(['', 'nonsense', '[]', '{}', '{"these":"a"}', '{"these":[""]}', '{"these":[7]}'])('does not read %j', (text) => {
    expect(readSelection(text)).toBeNull()
  })

  it('does not read more ids than are kept', () => {
    const ids = Array.from({ length: mostTicked + 1 }, (_, at) => `d${at}`)
    expect(readSelection(JSON.stringify({ these: ids }))).toBeNull()
  })
})

describe('lines of a list with headings', () => {
  const head = (title: string, first: number) => ({ title, note: '', first })
  const lines = new RunLines([head('Now', 0), head('Swaps', 2), head('More', 5)], 7)

  it('puts each heading before its first row', () => {
    const drawn = Array.from({ length: lines.count }, (_, at) => lines.at(at)).map((line) =>
      line.kind === 'head' ? line.run.title : line.row,
    )
    expect(drawn).toEqual(['Now', 0, 1, 'Swaps', 2, 3, 4, 'More', 5, 6])
  })

  it('finds the line of a row', () => {
    expect([0, 1, 2, 4, 5, 6].map((row) => lines.lineOf(row))).toEqual([1, 2, 4, 6, 8, 9])
  })

  it('goes without headings, and not past its end', () => {
    const plain = new RunLines([], 2)
    expect(plain.at(1)).toEqual({ kind: 'row', row: 1 })
    expect(() => plain.at(2)).toThrow(RangeError)
  })
})

describe('rows under headings', () => {
  it('stand together by key, in the order in which each first comes', () => {
    const rows = ['b1', 'a1', 'b2', 'c1', 'a2']
    const headOf = (group: readonly string[]) => ({ title: group[0] as string, note: `${group.length}` })
    expect(inRuns(rows, (row) => row.charAt(0), headOf)).toEqual({
      rows: ['b1', 'b2', 'a1', 'a2', 'c1'],
      runs: [
        { title: 'b1', note: '2', first: 0 },
        { title: 'a1', note: '2', first: 2 },
        { title: 'c1', note: '1', first: 4 },
      ],
    })
    expect(inRuns([], String, headOf)).toEqual({ rows: [], runs: [] })
  })

  it('stand on a page of the list under the headings they are of', () => {
    const runs = [
      { title: 'one', note: '', first: 0 },
      { title: 'two', note: '', first: 2 },
      { title: 'three', note: '', first: 5 },
    ]
    // The second page of two rows: the two of the heading that began just there.
    expect(groupsOf(['c', 'd'], runs, 2).map(({ title, rows }) => [title, rows])).toEqual([['two', ['c', 'd']]])
    expect(groupsOf(['d', 'e', 'f', 'g'], runs, 3).map(({ title, rows }) => [title, rows])).toEqual([
      ['two', ['d', 'e']],
      ['three', ['f', 'g']],
    ])
  })
})
