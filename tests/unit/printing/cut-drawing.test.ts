import { describe, expect, it } from 'vitest'
import type { CutLayout } from '#lib/cloth/cut-plan'
import { cutSteps } from '#lib/cloth/cut-steps'
import { drawCut, joinLines, roomForPiece } from '#lib/printing/cut-drawing'
import { labelArea } from '#lib/printing/drawing-labels'
import type { Mark, Measure } from '#lib/printing/mark'
import { cutDrawingWords } from '#words/cut-drawing'
import { cutNames } from '#words/cut-steps'
import { across, fatQuarter, fifteenSquares, layoutOf, up, wanted, waste } from '../cloth/cut-layouts'

const em = 12
const measure: Measure = ({ text, size }) => text.length * size * 0.5
const titles = new Map([
  ['eleven', 'Rook Hill in Snow'],
  ['eight', 'Seven Lanterns'],
  ['six', 'Kettle at Wend Cross'],
  ['lanterns', 'Seven Lanterns'],
])

function drawn(layout: CutLayout, room = { width: 358, height: 470 }) {
  const inside = roomForPiece(room, em)
  const perUm = Math.min(inside.width / layout.root.widthUm, inside.height / layout.root.heightUm)
  const words = cutDrawingWords(layout, cutNames([layout], titles), 'in')
  return drawCut({ layout, steps: cutSteps(layout), words, umPerRulerUnit: 25_400, perUm, em, measure })
}

const wordsOf = (marks: readonly Mark[]) => marks.flatMap((mark) => (mark.kind === 'words' ? [mark.text] : []))
const ringsOf = (marks: readonly Mark[]) => marks.flatMap((mark) => (mark.kind === 'ring' ? [mark] : []))

describe('drawCut', () => {
  it('fits the room it was scaled for, with all that stands around the piece', () => {
    const { width, height, marks } = drawn(fatQuarter())
    expect(width).toBeLessThanOrEqual(358 + 1e-9)
    expect(height).toBeLessThanOrEqual(470 + 1e-9)
    for (const mark of marks)
      if (mark.kind === 'ring' || mark.kind === 'box' || mark.kind === 'words') {
        expect(mark.x).toBeGreaterThanOrEqual(0)
        expect(mark.y).toBeGreaterThanOrEqual(0)
        expect(mark.x).toBeLessThanOrEqual(width)
        expect(mark.y).toBeLessThanOrEqual(height)
      }
  })

  it('stands the foot of the cloth at the foot of the drawing', () => {
    const { piece, marks } = drawn(fatQuarter())
    // The 11 in square lies in the lower left corner, 27 in down.
    const square = marks.find(
      (mark) => mark.kind === 'box' && mark !== marks[0] && Math.abs(mark.width - (piece.width * 11) / 18) < 1e-6,
    )
    expect(square).toMatchObject({ x: piece.x })
    expect(square?.kind === 'box' && square.y + square.height).toBeCloseTo(piece.y + piece.height)
  })

  it('has the number of every step on each of its lines', () => {
    const { marks } = drawn(fatQuarter())
    expect(ringsOf(marks)).toHaveLength(7)
    const numbers = marks.flatMap((mark, at) => {
      const next = marks[at + 1]
      return mark.kind === 'ring' && next?.kind === 'words' ? [next.text] : []
    })
    expect(numbers.sort()).toEqual(['1', '2', '3', '4', '5', '6', '6'])
  })

  it('lays no ring over another', () => {
    for (const layout of [fatQuarter(), fifteenSquares()]) {
      const rings = ringsOf(drawn(layout).marks)
      for (const [at, ring] of rings.entries())
        for (const other of rings.slice(at + 1))
          expect(Math.hypot(ring.x - other.x, ring.y - other.y)).toBeGreaterThanOrEqual(ring.radius + other.radius)
    }
  })

  it('draws cuts of a step that go on from one another as one, with one number', () => {
    const marks = drawn(fifteenSquares()).marks
    // Three across; five up through the two equal rows, five more through the odd one.
    expect(ringsOf(marks)).toHaveLength(13)
  })

  it('names what has room and letters what has not', () => {
    const layout = layoutOf('piece', 20, 20, up(14, wanted('eleven'), up(1, wanted('eight'), across(1, wanted('six'), waste))))
    const words = wordsOf(drawn(layout).marks)
    expect(words).toContain('A Rook Hill in Snow')
    expect(words).toContain('14 × 20 in')
    expect(words).not.toContain('B Seven Lanterns')
    expect(words).toContain('C')
  })

  it('has letters down to what can be read', () => {
    const strips = (inches: number) => layoutOf('piece', 10, 20, up(9, wanted('eleven'), across(inches, wanted('six'), waste)))
    // At 18 px to the inch half an inch is 9 px high, a quarter 4½: 7 px are the least that is read.
    expect(wordsOf(drawn(strips(0.5)).marks)).toContain('B')
    expect(wordsOf(drawn(strips(0.25)).marks)).not.toContain('B')
  })

  it('says a plain size once', () => {
    const layout = layoutOf('piece', 20, 10, up(10, wanted('plain'), waste))
    const words = cutDrawingWords(layout, cutNames([layout], new Map([['plain', '10 × 10 in']])), 'in')
    const { marks } = drawCut({
      layout,
      steps: cutSteps(layout),
      words,
      umPerRulerUnit: 25_400,
      perUm: 300 / 508_000,
      em,
      measure,
    })
    expect(wordsOf(marks).filter((text) => text.includes('10 × 10 in'))).toEqual(['10 × 10 in'])
  })
})

describe('joinLines', () => {
  it('joins end to end, and leaves a gap a gap', () => {
    const line = (x1Um: number, x2Um: number) => ({ x1Um, x2Um, y1Um: 5, y2Um: 5 })
    expect(joinLines([line(10, 20), line(0, 10), line(21, 30)])).toEqual([line(0, 20), line(21, 30)])
    const upright = (y1Um: number, y2Um: number) => ({ x1Um: 5, x2Um: 5, y1Um, y2Um })
    expect(joinLines([upright(0, 10), upright(10, 20), upright(20, 30)])).toEqual([upright(0, 30)])
  })
})

describe('labelArea', () => {
  const area = (width: number, height: number) => ({ x: 100, y: 100, width, height })
  const texts = (width: number, height: number, ...choices: string[][]) =>
    labelArea(area(width, height), choices, em, measure)?.marks.flatMap((mark) => (mark.kind === 'words' ? [mark] : [])) ?? null

  it('keeps its words within the area, lying or standing', () => {
    for (const [width, height] of [
      [200, 40],
      [40, 200],
      [70, 70],
    ] as const) {
      const labelled = labelArea(area(width, height), [['A Rook Hill in Snow', '11 × 11 in'], ['A']], em, measure)
      expect(labelled).not.toBeNull()
      const { x = 0, y = 0, width: wide = 0, height: high = 0 } = labelled?.box ?? {}
      expect(x >= 100 && y >= 100 && x + wide <= 100 + width && y + high <= 100 + height).toBe(true)
    }
  })

  it('stands words in a tall narrow part', () => {
    expect(texts(40, 200, ['Nine Wrens', '3 × 9 in'])?.every(({ isStanding }) => isStanding)).toBe(true)
  })

  it('shortens a long name rather than leave it out', () => {
    expect(texts(90, 60, ['A Kettle at Wend Cross', '6 × 12 in'], ['A'])?.map(({ text }) => text)).toEqual([
      'A Kettle at Wen…',
      '6 × 12 in',
    ])
  })

  it('says nothing where nothing fits', () => {
    expect(texts(6, 6, ['A Rook Hill in Snow'], ['A'])).toBeNull()
  })
})
