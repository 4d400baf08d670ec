import { describe, expect, it } from 'vitest'
import { cutMark } from '../../../app/_trade/cloth-drawing-marks'

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
