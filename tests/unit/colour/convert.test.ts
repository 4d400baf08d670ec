// White, black and the red primary of sRGB in CIELAB under D65, and that mid grey has no chroma: arithmetic of IEC 61966-2-1, values from
// memory to one decimal.
import { describe, expect, it } from 'vitest'
import { deltaE00, hexToLab, labToHex } from '#lib/colour/convert'

describe('sRGB and Lab', () => {
  it.each([
    ['#ffffff', 100, 0, 0],
    ['#000', 0, 0, 0],
    ['ff0000', 53.2, 80.1, 67.2],
    ['#777777', 50.0, 0, 0],
  ])('reads %s', (hex, L, a, b) => {
    const lab = hexToLab(hex)
    expect(Math.abs((lab?.L ?? Number.NaN) - L)).toBeLessThan(0.1)
    expect(Math.abs((lab?.a ?? Number.NaN) - a)).toBeLessThan(0.1)
    expect(Math.abs((lab?.b ?? Number.NaN) - b)).toBeLessThan(0.1)
  })

  it.each(['', 'madder', '#12', '#12345', '#12345678', '#ggg'])('refuses %j', (hex) => expect(hexToLab(hex)).toBeNull())

  it.each(['#a63d2f', '#00ff7f', '#102030', '#ffffff', '#000000'])('gives %s back', (hex) => {
    const lab = hexToLab(hex)
    if (!lab) throw new Error(hex)
    expect(labToHex(lab)).toBe(hex)
    expect(deltaE00(lab, lab)).toBe(0)
  })

  it('cuts off a colour no screen can show', () => {
    expect(labToHex({ L: 120, a: 0, b: 0 })).toBe('#ffffff')
    expect(labToHex({ L: 50, a: 127, b: 127 })).toMatch(/^#[0-9a-f]{6}$/)
  })
})
