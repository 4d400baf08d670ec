import { clampRgb, converter, formatHex, modeLab65, modeRgb, parseHex, useMode as registerMode } from 'culori/fn'
import { ciede2000 } from './ciede2000'
import type { Lab } from './lab'

registerMode(modeRgb)
registerMode(modeLab65)
const toLab65 = converter('lab65')

const lab65Of = (lab: Lab) => ({ mode: 'lab65' as const, l: lab.L, a: lab.a, b: lab.b })

/** @returns the CIELAB (D65) of an sRGB hex colour, `#a1b2c3` or `#abc`, with or without the hash; null when it is not one. */
export function hexToLab(hex: string): Lab | null {
  if (!/^#?(?:[0-9a-f]{3}|[0-9a-f]{6})$/iu.test(hex)) return null
  const lab = toLab65(parseHex(hex))
  return lab ? { L: lab.l, a: lab.a, b: lab.b } : null
}

/** @returns the CIELAB (D65) of an sRGB colour by its channels, 1 for full; more than full is lighter than the screen's white. */
export function rgbToLab(red: number, green: number, blue: number): Lab {
  const { l, a, b } = toLab65({ mode: 'rgb', r: red, g: green, b: blue })
  return { L: l, a, b }
}

/** @returns the sRGB hex colour, `#rrggbb`; a colour no screen can show has each channel cut off at its end. */
export const labToHex = (lab: Lab): string => formatHex(clampRgb(lab65Of(lab)))

const chromaOf = ({ a, b }: Lab) => Math.sqrt(a * a + b * b)

/**
 * CIEDE2000 colour difference, all weights 1: see `ciede2000`. About 1 is just seen side by side; symmetrical, but not a metric. For
 * the nearest of many colours see `NearestColours`.
 */
export const deltaE00 = (one: Lab, other: Lab): number =>
  ciede2000(one.L, one.a, one.b, chromaOf(one), other.L, other.a, other.b, chromaOf(other))
