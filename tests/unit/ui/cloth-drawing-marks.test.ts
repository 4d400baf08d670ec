import { describe, expect, it } from 'vitest'
import { cutMark, listRulerMarks } from '../../../app/_trade/cloth-drawing-marks'

const piece = { widthUm: 1000, heightUm: 2000 }

describe('cutMark', () => {
  it('numbers a cut straight across at the right edge', () => {
    expect(cutMark({ x1Um: 0, y1Um: 500, x2Um: 1000, y2Um: 500 }, piece).side).toBe('right')
  })

  it('numbers a cut that stops inside where it comes out at the left', () => {
    expect(cutMark({ x1Um: 0, y1Um: 500, x2Um: 400, y2Um: 500 }, piece).side).toBe('left')
  })

  it('numbers an upright cut at the foot, else at the head', () => {
    expect(cutMark({ x1Um: 400, y1Um: 500, x2Um: 400, y2Um: 2000 }, piece).side).toBe('bottom')
    expect(cutMark({ x1Um: 400, y1Um: 0, x2Um: 400, y2Um: 500 }, piece).side).toBe('top')
  })

  it('numbers a cut that touches no edge on the cut itself', () => {
    expect(cutMark({ x1Um: 200, y1Um: 500, x2Um: 400, y2Um: 500 }, piece).side).toBe('middle')
  })

  it('does not mind which end a cut is given from', () => {
    expect(cutMark({ x1Um: 1000, y1Um: 500, x2Um: 0, y2Um: 500 }, piece).side).toBe('right')
    expect(cutMark({ x1Um: 400, y1Um: 2000, x2Um: 400, y2Um: 500 }, piece).side).toBe('bottom')
  })
})

describe('listRulerMarks', () => {
  it('ticks every inch and numbers every other one where inches are 20 px', () => {
    const marks = listRulerMarks(12.75, 20)
    expect(marks.map((mark) => mark.value)).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12])
    expect(marks.filter((mark) => mark.isNumbered).map((mark) => mark.value)).toEqual([0, 2, 4, 6, 8, 10, 12])
  })

  it('thins the ticks of a long piece', () => {
    const marks = listRulerMarks(140, 1.9)
    expect(marks[1]?.value).toBe(5)
    expect(marks.filter((mark) => mark.isNumbered).map((mark) => mark.value)).toEqual([0, 20, 40, 60, 80, 100, 120, 140])
  })

  it('numbers the end of a ruler too short for a second figure', () => {
    expect(listRulerMarks(4, 6).filter((mark) => mark.isNumbered)).toEqual([
      { value: 0, isNumbered: true },
      { value: 4, isNumbered: true },
    ])
  })
})
