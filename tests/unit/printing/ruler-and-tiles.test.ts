import { describe, expect, it } from 'vitest'
import type { Mark } from '../../../lib/printing/mark'
import { listRulerMarks } from '../../../lib/printing/ruler-marks'
import { planTiles } from '../../../lib/printing/tiles'
import { drawTrueLength } from '../../../lib/printing/true-length'

describe('listRulerMarks', () => {
  it('ticks every inch and numbers every other one where inches are 20 wide and figures 12 high', () => {
    const marks = listRulerMarks(12.75, 20, 12)
    expect(marks.map(({ value }) => value)).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12])
    expect(marks.filter(({ isNumbered }) => isNumbered).map(({ value }) => value)).toEqual([0, 2, 4, 6, 8, 10, 12])
  })

  it('thins the ticks of a long piece', () => {
    const marks = listRulerMarks(140, 1.9, 12)
    expect(marks[1]?.value).toBe(5)
    expect(marks.filter(({ isNumbered }) => isNumbered).map(({ value }) => value)).toEqual([0, 20, 40, 60, 80, 100, 120, 140])
  })

  it('numbers the end of a ruler too short for a second figure', () => {
    expect(listRulerMarks(4, 6, 12).filter(({ isNumbered }) => isNumbered)).toEqual([
      { value: 0, isNumbered: true },
      { value: 4, isNumbered: true },
    ])
  })
})

describe('drawTrueLength', () => {
  const marks = drawTrueLength({ x: 12, y: 200 }, ['Check'], 180, ({ text, size }) => text.length * size * 0.5)
  const bars = marks.filter((mark): mark is Extract<Mark, { kind: 'lines' }> => mark.kind === 'lines')

  it('is 100 mm and 4 in long', () => {
    // 1 in = 25.4 mm exactly.
    expect(bars.map(({ lines }) => lines[0]).map((line) => line && line[2] - line[0])).toEqual([100, 101.6])
  })

  it('ticks every 5 mm and every quarter inch', () => {
    const ticks = bars.map(({ lines }) => lines.slice(1).map(([x]) => Number((x - 12).toFixed(9))))
    expect(ticks[0]).toEqual(Array.from({ length: 21 }, (_, at) => at * 5))
    expect(ticks[1]).toEqual(Array.from({ length: 17 }, (_, at) => Number((at * 6.35).toFixed(9))))
  })
})

describe('planTiles', () => {
  const window = { widthMm: 186, heightMm: 244 }

  it('needs one sheet for what fits one', () => {
    expect(planTiles({ widthMm: 186, heightMm: 244 }, window, 10)).toMatchObject({ columns: 1, rows: 1 })
  })

  it('needs a second for a hair more', () => {
    expect(planTiles({ widthMm: 186.1, heightMm: 244 }, window, 10)).toMatchObject({ columns: 2, rows: 1 })
    // Two sheets with 10 mm over one another show 362 mm.
    expect(planTiles({ widthMm: 362, heightMm: 10 }, window, 10)).toMatchObject({ columns: 2 })
    expect(planTiles({ widthMm: 362.1, heightMm: 10 }, window, 10)).toMatchObject({ columns: 3 })
  })

  it('numbers them row by row, each where the one before it leaves off but for the overlap', () => {
    const { tiles } = planTiles({ widthMm: 300, heightMm: 300 }, window, 10)
    expect(tiles.map(({ number, xMm, yMm }) => [number, xMm, yMm])).toEqual([
      [1, 0, 0],
      [2, 176, 0],
      [3, 0, 234],
      [4, 176, 234],
    ])
  })

  it('refuses an overlap that takes all', () => {
    expect(() => planTiles({ widthMm: 10, heightMm: 10 }, { widthMm: 10, heightMm: 100 }, 10)).toThrow(RangeError)
  })
})
