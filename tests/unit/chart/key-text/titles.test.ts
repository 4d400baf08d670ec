import { describe, expect, it } from 'vitest'
import { readKey } from '#lib/chart/key-text/read-key'
import { type HeadLine, titlesOf } from '#lib/chart/key-text/titles'
import { vocabularyOf } from '#lib/chart/key-text/vocabulary'
import { layLines } from '#lib/chart/page-text/lay-lines'
import type { PlacedWord } from '#lib/chart/page-text/page-text'

// What a person takes for the title by the way a page is set: common practice, no published source.

const line = (at: number, ...parts: [string, number | null][]): HeadLine => ({
  at,
  parts: parts.map(([text, heightPt]) => ({ text, heightPt })),
  certainty: 1,
  isAboveFacts: true,
})
const nothing = { title: false, designer: false }
const names = (lines: HeadLine[], held: Parameters<typeof titlesOf>[1] = nothing) => {
  const { title, designer } = titlesOf(lines, held)
  return [title?.value ?? null, designer?.value ?? null]
}

describe('the title of a page', () => {
  it('is what is set largest, though the designer stands above it', () => {
    expect(names([line(0, ['Bettony Crake', 10]), line(1, ['Larch and Lantern', 22])])).toEqual([
      'Larch and Lantern',
      'Bettony Crake',
    ])
  })

  it('is what is set largest, though the designer stands beside it', () => {
    expect(names([line(0, ['Bettony Crake', 9], ['Winter Post', 20])])).toEqual(['Winter Post', 'Bettony Crake'])
  })

  it('is the first line where nothing tells them apart', () => {
    expect(names([line(0, ['Winter Post', null]), line(1, ['Bettony Crake', null])])).toEqual(['Winter Post', 'Bettony Crake'])
  })

  it('is not the name that another place calls the designer, however large it is set', () => {
    const lines = [line(0, ['Tin Kettle Row', 24]), line(1, ['Winter Post', 14])]
    expect(names(lines, { ...nothing, named: ['tin kettle row'] })).toEqual(['Winter Post', 'Tin Kettle Row'])
  })

  it('is the one with the words of a title, of two bare names', () => {
    expect(names([line(0, ['Wilf Sarratt', null]), line(1, ['Hare by the Pump', null])])).toEqual([
      'Hare by the Pump',
      'Wilf Sarratt',
    ])
  })

  it('may take up two lines of the largest type', () => {
    expect(names([line(0, ['Pear', 30]), line(1, ['Tree Census', 30]), line(2, ['Wilf Sarratt', 12])])).toEqual([
      'Pear Tree Census',
      'Wilf Sarratt',
    ])
  })

  it('is not sure where two bare names stand together', () => {
    const { title, designer } = titlesOf([line(0, ['Orchard Gate', null]), line(1, ['Bettony Crake', null])], nothing)
    expect(title?.confidence).toBeLessThan(0.8)
    expect(designer?.confidence).toBeLessThan(0.8)
  })

  it('stands behind the name of the one whose it is and a colon', () => {
    expect(names([line(0, ['Tin Kettle Row: Winter Post', null])])).toEqual(['Winter Post', 'Tin Kettle Row'])
  })
})

describe('a page with a head and a key', () => {
  const word = (left: number, middle: number, text: string, sizePt = 9): PlacedWord => ({
    text,
    certainty: 1,
    box: { left, right: left + text.length * 0.5 * sizePt, top: middle - sizePt / 2, bottom: middle + sizePt / 2 },
  })
  const threads = ['0311', '0742', '0087', '0905'].map((code, at) => ({
    id: code,
    maker: 'Larkholm',
    threadLine: 'Stranded Cotton',
    code,
    name: ['Pine', 'First Snow', 'Damson', 'Quince'][at] as string,
  }))
  const key = threads.flatMap(({ code, name }, at) => [
    word(50, 200 + at * 15, 'ABCD'.charAt(at)),
    word(80, 200 + at * 15, code),
    word(130, 200 + at * 15, name),
  ])
  const read = (head: PlacedWord[], foot: PlacedWord[] = []) =>
    readKey(layLines([{ widthPt: 595, heightPt: 842, words: [...head, ...key, ...foot] }]), vocabularyOf(threads))

  it('does not take a title for a thread that is called so', () => {
    const { designs } = read([word(50, 60, 'First Snow', 22), word(50, 90, '120 x 90 stitches'), word(50, 180, 'Larkholm', 10)])
    expect(designs).toHaveLength(1)
    expect(designs[0]?.facts.title?.value).toBe('First Snow')
    expect(designs[0]?.lists.map(({ lines }) => lines.length)).toEqual([4])
  })

  it('joins a title wrapped in large type', () => {
    const { designs } = read([
      word(50, 60, 'Rook Hill in', 22),
      word(50, 88, 'Snow', 22),
      word(50, 110, 'by Wilf Sarratt'),
      word(50, 130, '120 x 90 stitches'),
    ])
    expect(designs[0]?.facts.title?.value).toBe('Rook Hill in Snow')
    expect(designs[0]?.facts.designer?.value).toBe('Wilf Sarratt')
  })

  it('reads labels that stand in a column of their own', () => {
    const { designs } = read([
      word(50, 60, 'Title'),
      word(120, 60, 'Winter Post'),
      word(50, 75, 'Designer'),
      word(120, 75, 'Wilf Sarratt'),
      word(50, 90, 'Size'),
      word(120, 90, '120 x 90 stitches'),
    ])
    expect(designs[0]?.facts.title?.value).toBe('Winter Post')
    expect(designs[0]?.facts.designer?.value).toBe('Wilf Sarratt')
    expect(designs[0]?.facts.widthStitches?.value).toBe(120)
  })

  it('takes the maker from a sentence below the key', () => {
    const { designs } = read([word(50, 60, 'Winter Post', 20)], [word(50, 290, 'The numbers are those of Larkholm.')])
    expect(designs[0]?.lists[0]?.lines.map(({ threads: [one] }) => one?.named.maker?.value)).toEqual(
      threads.map(() => 'Larkholm'),
    )
  })

  it('gives no strands that are said of one part of the design', () => {
    const { designs } = read([
      word(50, 60, 'Winter Post', 20),
      word(50, 150, 'Sew the chimney smoke and the gate in one strand when all is done.'),
    ])
    expect(designs[0]?.lists[0]?.lines.map(({ threads: [one] }) => one?.named.strands)).toEqual([null, null, null, null])
  })
})
