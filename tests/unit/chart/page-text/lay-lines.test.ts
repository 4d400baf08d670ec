import { describe, expect, it } from 'vitest'
import { layLines } from '#lib/chart/page-text/lay-lines'
import { aPage, at, said, tableAt, turned } from './pages'

const head = ['Symbol', 'Larkholm', 'Colour', 'Strands', 'Skeins']
const rows = [
  ['A', '0311', 'Pale Pine', '2', '1'],
  ['B', '0742', 'Winter Rook', '2', '2'],
  ['C', '0087', 'Old Brick', '1', '1'],
  ['D', '1204', 'Quince', '2', '3'],
  ['E', '0905', 'Salt', '2', '1'],
]
const lefts = [50, 100, 160, 300, 360]

describe('lines of a page', () => {
  it('have a cell for each column of their table, the header among them', () => {
    expect(said(layLines([aPage(tableAt(lefts, 100, [head, ...rows]))]))).toEqual([head, ...rows].map((row) => row.join(' | ')))
  })

  it('keep the place of a cell that is empty', () => {
    const lacking = rows.map((row, line) => row.map((text, column) => (line === 2 && (column === 2 || column === 3) ? '' : text)))
    expect(said(layLines([aPage(tableAt(lefts, 100, lacking))]))[2]).toBe('C | 0087 |  |  | 1')
  })

  it('keep the words of a cell together that stand far apart', () => {
    const words = tableAt(lefts, 100, rows).filter(({ text }) => text !== 'Old Brick')
    const apart = [...words, at(160, 132, 'Old'), at(190, 132, 'Brick')]
    expect(said(layLines([aPage(apart)]))[2]).toBe('C | 0087 | Old Brick | 1 | 1')
  })

  it('do not depend on the order the file has its words in', () => {
    const words = tableAt(lefts, 100, [head, ...rows])
    const mixed = words.map((word, place) => ({ word, key: (place * 7_919) % words.length })).sort((a, b) => a.key - b.key)
    expect(layLines([aPage(mixed.map(({ word }) => word))])).toEqual(layLines([aPage(words)]))
  })

  it('climb across the page and are lines still', () => {
    for (const degrees of [-4, -1.5, 2, 5]) {
      const page = turned(aPage(tableAt(lefts, 100, [head, ...rows])), degrees)
      expect(said(layLines([page])), `${degrees} degrees`).toEqual([head, ...rows].map((row) => row.join(' | ')))
    }
  })

  it('take a name that was wrapped as one, under its row or about its middle', () => {
    const under = [...tableAt(lefts, 100, rows, 30), at(160, 142, 'very light')]
    expect(said(layLines([aPage(under)]))[1]).toBe('B | 0742 | Winter Rook very light | 2 | 2')
    const about = tableAt(lefts, 100, rows, 30).map((word) =>
      word.text === 'Winter Rook' ? { ...word, box: { ...word.box, top: word.box.top - 6, bottom: word.box.bottom - 6 } } : word,
    )
    expect(said(layLines([aPage([...about, at(160, 136, 'very light')])]))[1]).toBe('B | 0742 | Winter Rook very light | 2 | 2')
  })

  it('leave a second code below the first on a line of its own', () => {
    const blended = [...tableAt(lefts, 100, rows, 30), at(100, 142, '0043')]
    expect(said(layLines([aPage(blended)])).slice(1, 3)).toEqual(['B | 0742 | Winter Rook | 2 | 2', ' | 0043 |  |  | '])
  })

  it('keep a heading between rows as a line, and a sentence across the table whole', () => {
    const page = aPage(tableAt(lefts, 100, rows.slice(0, 3)), [at(50, 148, 'Backstitch')], tableAt(lefts, 164, rows.slice(3)), [
      at(50, 200, 'Stitch with two strands throughout unless the key says one strand only'),
    ])
    expect(said(layLines([page]))).toEqual([
      ...rows.slice(0, 3).map((row) => row.join(' | ')),
      'Backstitch',
      ...rows.slice(3).map((row) => row.join(' | ')),
      'Stitch with two strands throughout unless the key says one strand only',
    ])
  })

  it('read two keys side by side one after the other', () => {
    const [left, right] = [
      rows.map((row) => row.slice(0, 3)),
      rows.map((row) => row.slice(0, 3).map((text) => text.replace('0', '9'))),
    ]
    const onOneLine = aPage(tableAt([40, 70, 110], 100, left), tableAt([320, 350, 390], 100, right))
    const expected = [...left, ...right].map((row) => row.join(' | '))
    expect(said(layLines([onOneLine]))).toEqual(expected)
    const apart = aPage(
      [at(40, 60, 'Rook Hill in Snow')],
      tableAt([40, 70, 110], 100, left),
      tableAt([320, 350, 390], 107, right),
    )
    expect(said(layLines([apart]))).toEqual(['Rook Hill in Snow', ...expected])
  })

  it('keep two makers’ lists of one key together', () => {
    const two = [
      ['Symbol', 'Larkholm', 'Oddny Loft'],
      ...rows.map(([symbol, code], line) => [
        symbol as string,
        code as string,
        ['Tarn Blue', 'Moss', 'Rust', 'Hay', 'Flint'][line] as string,
      ]),
    ]
    expect(said(layLines([aPage(tableAt([50, 120, 220], 100, two))]))).toEqual(two.map((row) => row.join(' | ')))
  })

  it('take a key beside how to stitch apart from it', () => {
    const prose = [
      'Find the middle of the cloth and begin there',
      'Work the full crosses first and outline after',
      'Wash only when every colour was tested wet',
      'Press from the back on a thick dry towel',
    ].map((text, line) => at(300, 100 + line * 13, text))
    const key = rows.map((row) => row.slice(0, 3))
    const lines = said(layLines([aPage(tableAt([40, 70, 110], 100, key), prose)]))
    expect(lines.slice(0, 5)).toEqual(key.map((row) => row.join(' | ')))
    expect(lines.slice(5)).toHaveLength(4)
  })

  it('go on over pages in the same columns, one of which may be empty there', () => {
    const second = rows.map((row) => row.map((text, column) => (column === 3 ? '' : text)))
    const lines = layLines([aPage(tableAt(lefts, 100, [head, ...rows])), aPage(tableAt(lefts, 60, second))])
    expect(said(lines).slice(6)).toEqual(
      rows.map(([symbol, code, name, , skeins]) => `${symbol} | ${code} | ${name} |  | ${skeins}`),
    )
    expect(lines.map(({ page }) => page)).toEqual([0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 1])
  })

  it('show a glyph without a letter as a question, and are unsure of it', () => {
    const [line] = layLines([aPage([at(50, 100, '\ue021'), at(100, 100, '0311'), at(160, 100, 'Pale Pine')])])
    expect(line?.cells.map(({ text }) => text)).toEqual(['?', '0311', 'Pale Pine'])
    expect(line?.cells[0]?.certainty).toBeLessThan(0.5)
    expect(line?.cells[1]?.certainty).toBe(1)
  })

  it('are as sure of a cell as of its least certain word', () => {
    const [line] = layLines([aPage([at(50, 100, 'Pale', 0.9), at(73, 100, 'Pine', 0.4)])])
    expect(line?.cells).toMatchObject([{ text: 'Pale Pine', certainty: 0.4 }])
  })

  it('are parted where dots lead from one cell to the next', () => {
    expect(said(layLines([aPage([at(50, 100, 'Pale Pine ........... 0311'), at(50, 116, 'Quince......1204')])]))).toEqual([
      'Pale Pine | 0311',
      'Quince | 1204',
    ])
  })

  it('leave codes of any shape on lines of their own', () => {
    for (const code of ['L-12', '3.07', '17A', '7', 'E4021']) {
      const blended = [...tableAt(lefts, 100, rows, 30), at(100, 142, code)]
      expect(said(layLines([aPage(blended)]))[2], code).toBe(` | ${code} |  |  | `)
    }
  })

  it('leave out what runs along the edge of every page, and keep a header that is said again', () => {
    const page = (number: number) =>
      aPage([at(50, 20, `Rook Hill in Snow, page ${number}`)], tableAt(lefts, 60, [head, ...rows]), [
        at(290, 825, String(number)),
      ])
    const table = [head, ...rows].map((row) => row.join(' | '))
    expect(said(layLines([page(1), page(2)]))).toEqual([...table, ...table])
  })

  it('leave out the squares of a chart set in type, and its numbers', () => {
    const marks = ['A', 'K', '+', 'S', '▲']
    const squares = Array.from({ length: 12 * 15 }, (_, square) =>
      at(60 + (square % 15) * 12, 300 + Math.floor(square / 15) * 12, marks[(square * 7) % 5] as string),
    )
    const numbers = [at(168, 286, '10'), at(40, 408, '10')]
    expect(said(layLines([aPage(tableAt(lefts, 100, rows), squares, numbers)]))).toEqual(rows.map((row) => row.join(' | ')))
  })

  it('part words at a tab or wide run of spaces within one run', () => {
    expect(said(layLines([aPage([at(50, 100, 'A   0311\tPale Pine')])]))).toEqual(['A | 0311 | Pale Pine'])
  })

  it('are none of an empty page, and end with senseless boxes', () => {
    expect(layLines([aPage([])])).toEqual([])
    const odd = [Number.NaN, Number.POSITIVE_INFINITY, 1e30, -1e30].map((left) => ({
      ...at(0, 100, 'odd'),
      box: { left, right: left, top: 1, bottom: 2 },
    }))
    expect(Array.isArray(layLines([aPage(odd, [at(50, 100, 'Pale Pine')])]))).toBe(true)
  })
})

describe('boxes of a grid', () => {
  const colours = [
    ['A', '0311', 'Pale Pine', '2 strands'],
    ['B', '0742', 'Winter Rook', '2 strands'],
    ['C', '0087', 'Old Brick', '1 strand'],
    ['D', '1204', 'Quince', '2 strands'],
    ['E', '0905', 'Salt', '2 strands'],
  ]
  const places = [50, 200, 350, 50, 200].map((left, nth) => [left, nth < 3 ? 100 : 190] as const)
  const asLines = colours.map((colour) => colour.join(' | '))
  const boxes = (placed: (colour: string[], left: number, top: number) => [number, number, string][]) =>
    colours.flatMap((colour, nth) => {
      const [left, top] = places[nth] as readonly [number, number]
      return placed(colour, left, top).map((one) => at(...one))
    })

  it('are read one by one, what stands below one another in each as one line', () => {
    const stacked = boxes((colour, left, top) => colour.map((text, row) => [left, top + row * 14, text]))
    expect(said(layLines([aPage([at(50, 60, 'Larkholm Stranded')], stacked)]))).toEqual(['Larkholm Stranded', ...asLines])
  })

  it('may have their mark to the left of the rest', () => {
    const beside = boxes(([mark, ...rest], left, top) => [
      [left, top + 7, mark as string],
      ...rest.map((text, row): [number, number, string] => [left + 30, top + row * 14, text]),
    ])
    expect(said(layLines([aPage(beside)]))).toEqual(asLines)
  })

  it('take a name over two rows as one, and a heading between them as a line', () => {
    const page = aPage(
      tableAt(
        [50, 200, 350],
        100,
        [
          ['0311', '0742', '0087'],
          ['Pale', 'Old Brick', 'Salt'],
          ['Winter Pine', '', ''],
        ],
        13,
      ),
      [at(50, 172, 'Backstitch')],
      tableAt(
        [50, 200, 350],
        190,
        [
          ['1204', '0905', '0043'],
          ['Quince', 'Rook', 'Slate'],
        ],
        13,
      ),
    )
    expect(said(layLines([page]))).toEqual([
      '0311 | Pale Winter Pine',
      '0742 | Old Brick',
      '0087 | Salt',
      'Backstitch',
      '1204 | Quince',
      '0905 | Rook',
      '0043 | Slate',
    ])
  })
})

describe('designs beside each other', () => {
  it('are read one after the other, head and key, though their rows are level', () => {
    const design = (left: number, title: string, key: string[][]) => [
      at(left, 60, title),
      at(left, 80, '70 by 90 stitches'),
      at(left, 100, 'Linen 28 count'),
      ...tableAt([left, left + 30, left + 70], 130, key),
    ]
    const [one, other] = [rows.map((row) => row.slice(0, 3)), [...rows].reverse().map((row) => row.slice(0, 3))]
    const page = aPage(design(40, 'Rook Hill', one), design(320, 'Seven Lanterns', other))
    const whole = (title: string, key: string[][]) => [
      title,
      '70 by 90 stitches',
      'Linen 28 count',
      ...key.map((row) => row.join(' | ')),
    ]
    expect(said(layLines([page]))).toEqual([...whole('Rook Hill', one), ...whole('Seven Lanterns', other)])
  })
})

describe('heads of tables', () => {
  it('set over two rows are one', () => {
    const page = aPage(
      tableAt(
        lefts,
        100,
        [
          ['', '', '', 'No. of', ''],
          ['Symbol', 'Larkholm', 'Colour', 'strands', 'Skeins'],
        ],
        12,
      ),
      tableAt(lefts, 130, rows),
    )
    expect(said(layLines([page]))[0]).toBe('Symbol | Larkholm | Colour | No. of strands | Skeins')
  })

  it('told from a picture with a slip are put right, and doubted; those that came with a file stand', () => {
    const slips = ['Symbo1', 'Larkholm', 'Colour', 'Strancls', 'Skoins']
    const page = (certainty: number) => aPage(tableAt(lefts, 100, [slips, ...rows]).map((word) => ({ ...word, certainty })))
    const [mended] = layLines([page(0.9)])
    expect(mended?.cells.map(({ text }) => text)).toEqual(['symbol', 'Larkholm', 'Colour', 'Strancls', 'skeins'])
    expect(mended?.cells[0]?.certainty).toBeLessThan(0.8)
    expect(said(layLines([page(1)]))[0]).toBe(slips.join(' | '))
  })

  it('join a head over two rows though a title stands above it', () => {
    const title = at(50, 70, 'Winter Post')
    const two = [...tableAt(lefts, 100, [head]), at(300, 112, 'used'), at(360, 112, 'needed')]
    const lines = said(layLines([aPage([title, ...two, ...tableAt(lefts, 130, rows)])]))
    expect(lines.filter((line) => line.startsWith('Symbol'))).toEqual([
      'Symbol | Larkholm | Colour | Strands used | Skeins needed',
    ])
  })

  it('are read one part after the other where each has a heading and rows of its own', () => {
    const crosses = [
      at(50, 100, 'Cross stitch'),
      ...tableAt(
        [50, 80, 130],
        116,
        rows.map((row) => row.slice(0, 3)),
      ),
    ]
    const outlines = [
      at(330, 100, 'Backstitch'),
      ...tableAt(
        [330, 380],
        116,
        rows.slice(0, 3).map((row) => row.slice(1, 3)),
      ),
    ]
    const lines = said(layLines([aPage(crosses, outlines)]))
    expect(lines[0]).toBe('Cross stitch')
    expect(lines.slice(6)).toEqual(['Backstitch', '0311 | Pale Pine', '0742 | Winter Rook', '0087 | Old Brick'])
  })
})
