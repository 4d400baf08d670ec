import { describe, expect, it } from 'vitest'
import { type Blob, blobsOf } from '#lib/reader/picture/blobs'
import { evenLight } from '#lib/reader/picture/even-light'
import { findBend } from '#lib/reader/picture/find-bend'
import { findSheet, isOnSheet, ontoSheet, type Sheet } from '#lib/reader/picture/find-sheet'
import { findSkew } from '#lib/reader/picture/find-skew'
import { takeFrames } from '#lib/reader/picture/frames'
import { blankGrey, type Grey, otsuShade } from '#lib/reader/picture/grey'
import { takeRules } from '#lib/reader/picture/rules'
import { turnedBack } from '#lib/reader/picture/warp'

const paint = (grey: Grey, left: number, top: number, wide: number, high: number, shade = 20) => {
  for (let y = top; y < top + high; y++) grey.data.fill(shade, y * grey.width + left, y * grey.width + left + wide)
}
const shadeAt = ({ width, data }: Grey, x: number, y: number) => data[y * width + x] as number

describe('a picture in greys', () => {
  it('falls into pieces that touch, corners too', () => {
    const grey = blankGrey(20, 10)
    paint(grey, 1, 1, 3, 2)
    paint(grey, 4, 3, 2, 2)
    paint(grey, 12, 2, 1, 6)
    paint(grey, 16, 2, 1, 6)
    paint(grey, 12, 7, 5, 1)
    expect(blobsOf(grey, 128)).toEqual([
      { left: 1, top: 1, right: 6, bottom: 5, pixels: 10 },
      // Two strokes joined below are one piece.
      { left: 12, top: 2, right: 17, bottom: 8, pixels: 15 },
    ])
  })

  it('is parted between its two shades', () => {
    const grey = blankGrey(40, 40, 200)
    paint(grey, 5, 5, 10, 10, 60)
    const shade = otsuShade(grey)
    expect(shade).toBeGreaterThanOrEqual(60)
    expect(shade).toBeLessThan(200)
  })

  it('has the light taken out of it: paper is white from the bright side to the dark, ink stays dark', () => {
    const [width, height] = [1_280, 240]
    const grey = blankGrey(width, height)
    for (let y = 0; y < height; y++) for (let x = 0; x < width; x++) grey.data[y * width + x] = 230 - (x / width) * 130
    for (const x of [120, 600, 1_120]) paint(grey, x, 100, 4, 20, shadeAt(grey, x, 100) * 0.3)
    const even = evenLight(grey)
    for (const x of [80, 400, 800, 1_220]) expect(shadeAt(even, x, 60)).toBeGreaterThan(235)
    // Three tenths of white.
    for (const x of [121, 601, 1_121]) expect(Math.abs(shadeAt(even, x, 110) - 76)).toBeLessThan(25)
  })

  it('has its thin long lines taken off, letters across them kept', () => {
    const grey = blankGrey(600, 200)
    paint(grey, 20, 100, 560, 3)
    paint(grey, 300, 20, 3, 170)
    // A letter's stem and a filled block that are no rules.
    paint(grey, 100, 40, 4, 24)
    paint(grey, 400, 130, 60, 40)
    const rules = takeRules(grey, 24)
    expect(rules.horizontal).toHaveLength(1)
    expect(rules.vertical).toHaveLength(1)
    expect(rules.horizontal[0]).toMatchObject({ left: 20, right: 580 })
    expect(shadeAt(grey, 200, 101)).toBe(255)
    expect(shadeAt(grey, 301, 60)).toBe(255)
    expect(shadeAt(grey, 101, 50)).toBe(20)
    expect(shadeAt(grey, 430, 150)).toBe(20)
  })

  it('has its lines taken off on a tint and in shadow too, the tint left behind', () => {
    const grey = blankGrey(600, 120)
    paint(grey, 0, 0, 600, 120, 225)
    paint(grey, 300, 0, 300, 120, 180)
    // Paler than ink, darker than what it stands on; broken off where it is faintest.
    paint(grey, 20, 60, 280, 3, 190)
    paint(grey, 300, 60, 250, 3, 150)
    paint(grey, 180, 60, 5, 3, 214)
    takeRules(grey, 24)
    expect(shadeAt(grey, 100, 61)).toBe(225)
    expect(shadeAt(grey, 182, 61)).toBe(225)
    expect(shadeAt(grey, 400, 61)).toBe(180)
  })

  it('has frames about signs taken off, the signs kept, and an empty frame, which may be one', () => {
    const grey = blankGrey(300, 100)
    const frame = (left: number) => {
      for (const [x, y, wide, high] of [
        [left, 20, 50, 2],
        [left, 68, 50, 2],
        [left, 20, 2, 50],
        [left + 48, 20, 2, 50],
      ] as const)
        paint(grey, x, y, wide, high)
    }
    frame(20)
    paint(grey, 40, 36, 12, 20)
    frame(150)
    takeFrames(grey, 24, 128)
    expect(shadeAt(grey, 21, 40)).toBe(255)
    expect(shadeAt(grey, 45, 69)).toBe(255)
    expect(shadeAt(grey, 45, 45)).toBe(20)
    expect(shadeAt(grey, 151, 40)).toBe(20)
  })

  it('tells how its lines are bent', () => {
    const size = { width: 1_200, height: 800 }
    // Bowed by 18 pixels at both edges, and fanned out by 12 at the corners.
    const bent = (x: number, y: number) => 18 * (x / 600) ** 2 + 12 * (x / 600) * (y / 400)
    const letters = Array.from({ length: 360 }, (_, at): Blob => {
      const [x, y] = [(at % 24) * 48 - 550, Math.floor(at / 24) * 48 - 340]
      const foot = Math.round(y + bent(x, y) + 400)
      return { left: x + 594, right: x + 606, top: foot - 20, bottom: foot, pixels: 120 }
    })
    const bend = findBend(letters, size, { degrees: 0, capPx: 20 })
    for (const [x, y] of [
      [-500, -300],
      [500, -300],
      [0, 0],
      [300, 300],
      [-500, 300],
    ] as const) {
      // As far as the lines themselves go, all of them may lie higher or lower by one measure.
      const off = (bend?.(x, y) ?? 0) - bent(x, y) - ((bend?.(0, y) ?? 0) - bent(0, y))
      expect(Math.abs(off), `${x}, ${y}`).toBeLessThan(3)
    }
    const level = letters.map((letter, at) => ({ ...letter, bottom: Math.floor(at / 24) * 48 + 60 }))
    expect(findBend(level, size, { degrees: 0, capPx: 20 })).toBeNull()
  })

  it('tells how far its lines fall', () => {
    const aLetter = (x: number, y: number): Blob => ({ left: x - 5, right: x + 5, top: y - 20, bottom: y, pixels: 100 })
    for (const degrees of [-11, -2.3, 0, 0.6, 7]) {
      const slope = Math.tan((degrees * Math.PI) / 180)
      const letters = Array.from({ length: 300 }, (_, at) => {
        const x = (at % 30) * 40
        return aLetter(x, 100 + Math.floor(at / 30) * 60 + x * slope)
      })
      expect(Math.abs(findSkew(letters, 20) - degrees), `${degrees} degrees`).toBeLessThanOrEqual(0.15)
    }
    expect(findSkew([], 20)).toBe(0)
  })

  it('is turned back by as much', () => {
    const grey = blankGrey(201, 201)
    // A line that falls to the right by a quarter turn's eighth: 11.25 degrees.
    for (let x = 20; x < 180; x++) paint(grey, x, Math.round(100 + (x - 100) * Math.tan((11.25 * Math.PI) / 180)) - 2, 1, 5)
    const level = turnedBack(grey, 11.25)
    const middle = Math.floor(level.height / 2)
    for (const by of [-60, 0, 60]) expect(shadeAt(level, Math.floor(level.width / 2) + by, middle)).toBeLessThan(120)
  })
})

describe('a sheet on a table', () => {
  const corners: Sheet = [
    { x: 60, y: 40 },
    { x: 330, y: 60 },
    { x: 350, y: 260 },
    { x: 40, y: 250 },
  ]
  const aTable = () => {
    const grey = blankGrey(400, 300, 60)
    for (let y = 0; y < 300; y++) for (let x = 0; x < 400; x++) if (isOnSheet(corners, x, y)) grey.data[y * 400 + x] = 220
    return grey
  }

  it('is found by its corners', () => {
    const grey = aTable()
    paint(grey, 120, 100, 90, 30)
    const found = findSheet(grey) as Sheet
    for (const [at, { x, y }] of corners.entries())
      expect(Math.hypot((found[at]?.x ?? 0) - x, (found[at]?.y ?? 0) - y)).toBeLessThan(4)
  })

  it('is found whole where half of it lies in shadow', () => {
    const grey = aTable()
    for (let y = 160; y < 300; y++)
      for (let x = 0; x < 400; x++) grey.data[y * 400 + x] = shadeAt(grey, x, y) * (isOnSheet(corners, x, y) ? 0.62 : 0.6)
    const found = findSheet(grey) as Sheet
    for (const [at, { x, y }] of corners.entries())
      expect(Math.hypot((found[at]?.x ?? 0) - x, (found[at]?.y ?? 0) - y)).toBeLessThan(6)
  })

  it('is not made up where the paper fills the picture', () => {
    expect(findSheet(blankGrey(400, 300, 230))).toBeNull()
  })

  it('has its corners and the crossing of its diagonals where perspective puts them', () => {
    const place = { x: 0, y: 0 }
    const onto = ontoSheet(corners)
    for (const [at, [u, v]] of (
      [
        [0, 0],
        [1, 0],
        [1, 1],
        [0, 1],
      ] as const
    ).entries()) {
      onto(u, v, place)
      expect(place.x).toBeCloseTo((corners[at] as { x: number }).x, 6)
      expect(place.y).toBeCloseTo((corners[at] as { y: number }).y, 6)
    }
    // Straight lines stay straight: the middle lies on both diagonals.
    onto(0.5, 0.5, place)
    const [one, two, three, four] = corners
    const off = (from: typeof one, to: typeof one) => (to.x - from.x) * (place.y - from.y) - (to.y - from.y) * (place.x - from.x)
    expect(off(one, three)).toBeCloseTo(0, 6)
    expect(off(two, four)).toBeCloseTo(0, 6)
  })
})
