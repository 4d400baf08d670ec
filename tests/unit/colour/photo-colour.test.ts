// The sRGB transfer function's values at 0, 128 and 255: IEC 61966-2-1, from memory (0.2158605 for 128).
import { describe, expect, it } from 'vitest'
import { deltaE00, hexToLab, labToHex } from '#lib/colour/convert'
import type { Lab } from '#lib/colour/lab'
import {
  averageOf,
  balanced,
  balanceTo,
  cautionsOfPatch,
  type Light,
  lightOf,
  lightToLab,
  type PatchKind,
} from '#lib/colour/photo-colour'

const lightOfHex = (hex: string): Light => {
  const [red, green, blue] = [1, 3, 5].map((at) => lightOf(Number.parseInt(hex.slice(at, at + 2), 16))) as [
    number,
    number,
    number,
  ]
  return { red, green, blue }
}
const seenUnder = (hex: string, lamp: Light): Light => balanced(lightOfHex(hex), lamp)
const tungsten: Light = { red: 0.9, green: 0.62, blue: 0.38 }

/** A photo of one row, by hex. */
const rowOf = (...hexes: string[]) => ({
  data: hexes.flatMap((hex) => [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16)).concat(255)),
  width: hexes.length,
  height: 1,
})

describe('light', () => {
  it('is the byte through sRGB’s curve, and becomes the same Lab as the hex', () => {
    expect([lightOf(0), lightOf(255)]).toEqual([0, 1])
    expect(lightOf(128)).toBeCloseTo(0.215_860_5, 6)
    for (const hex of ['#8e2f2b', '#ffffff', '#0a0b0c'])
      expect(deltaE00(lightToLab(lightOfHex(hex)), hexToLab(hex) as Lab)).toBeLessThan(1e-6)
  })
})

describe('the average of a square', () => {
  it('adds up light, not bytes: stripes of black and white look half as light as white, not byte 128', () => {
    const { light } = averageOf(rowOf('#000000', '#ffffff'), { x: 0, y: 0 }, 1)
    expect(light.red).toBeCloseTo(0.5, 12)
    // Half of white's light is L* 76 (CIE 1976: 116 · 0.5^(1/3) − 16 = 76.07).
    expect(lightToLab(light).L).toBeCloseTo(76.07, 1)
  })

  it('stops at the edge and takes no more than its reach', () => {
    const photo = rowOf('#ff0000', '#00ff00', '#0000ff', '#0000ff')
    expect(averageOf(photo, { x: 0.7, y: 0.2 }, 0).light).toEqual({ red: 1, green: 0, blue: 0 })
    expect(averageOf(photo, { x: 3, y: 0 }, 1).light).toEqual({ red: 0, green: 0, blue: 1 })
    expect(averageOf(photo, { x: 1, y: 0 }, 9).light).toEqual({ red: 0.25, green: 0.25, blue: 0.5 })
    expect(() => averageOf(photo, { x: 4, y: 0 }, 1)).toThrow(RangeError)
  })

  it('tells how much of it is clipped in any channel', () => {
    expect(averageOf(rowOf('#ff4020', '#804020', '#804020', '#8040fe'), { x: 1, y: 0 }, 3).clippedShare).toBe(0.5)
  })
})

describe('white balance', () => {
  const threadHex = '#6f8fa0'

  it('makes the patch neutral', () => {
    for (const kind of ['white', 'grey-card', 'grey'] as PatchKind[]) {
      const patch = seenUnder('#c0c0c0', tungsten)
      const { a, b } = lightToLab(balanced(patch, balanceTo(patch, kind)))
      expect(Math.hypot(a, b)).toBeLessThan(0.02)
    }
  })

  it('gives a thread under a yellow lamp its own colour back', () => {
    // A card of 18 % of the light: L* 49.5, which is #767676 to the nearest byte.
    const balance = balanceTo(seenUnder('#767676', tungsten), 'grey-card')
    const lab = lightToLab(balanced(seenUnder(threadHex, tungsten), balance))
    expect(deltaE00(lab, hexToLab(threadHex) as Lab)).toBeLessThan(0.5)
    expect(deltaE00(lightToLab(seenUnder(threadHex, tungsten)), hexToLab(threadHex) as Lab)).toBeGreaterThan(10)
  })

  it('sets right a photo that is too dark where the patch’s lightness is known, and leaves it where it is not', () => {
    const dim: Light = { red: 0.4, green: 0.4, blue: 0.4 }
    const [card, thread] = [seenUnder('#767676', dim), seenUnder(threadHex, dim)]
    const lightness = (kind: PatchKind) => lightToLab(balanced(thread, balanceTo(card, kind))).L
    expect(lightness('grey-card')).toBeCloseTo((hexToLab(threadHex) as Lab).L, 0)
    expect(lightness('grey')).toBeCloseTo(lightToLab(thread).L, 6)
  })

  it('never makes anything lighter than white', () => {
    const balance = balanceTo({ red: 0.1, green: 0.1, blue: 0.1 }, 'white')
    expect(lightToLab(balanced({ red: 1, green: 1, blue: 1 }, balance)).L).toBe(100)
    expect(labToHex(lightToLab(balanced({ red: 1, green: 1, blue: 1 }, balance)))).toBe('#ffffff')
  })

  it('is refused where a channel has no light', () => {
    expect(() => balanceTo({ red: 0, green: 0.2, blue: 0.2 }, 'white')).toThrow(RangeError)
  })
})

describe('cautions about a patch', () => {
  const of = (hex: string, clippedShare = 0) => cautionsOfPatch({ light: lightOfHex(hex), clippedShare })

  it('are none for a plain grey or a white under daylight', () => {
    expect(of('#c8c6c0')).toEqual([])
    expect(of('#f4f2ee')).toEqual([])
  })

  it('are given when it is clipped, dark, or coloured', () => {
    expect(of('#fdfdfd', 0.3)).toEqual(['clipped'])
    expect(of('#202020')).toEqual(['dark'])
    expect(of('#c08060')).toEqual(['coloured'])
    expect(of('#000000')).toContain('dark')
  })
})
