import {
  clampRgb,
  converter,
  differenceCiede2000,
  formatHex,
  modeLab65,
  modeRgb,
  parseHex,
  useMode as registerMode,
} from 'culori/fn'
import type { Lab } from './lab'

registerMode(modeRgb)
registerMode(modeLab65)
const toLab65 = converter('lab65')
const ciede2000 = differenceCiede2000()

const lab65Of = (lab: Lab) => ({ mode: 'lab65' as const, l: lab.L, a: lab.a, b: lab.b })

/** @returns the CIELAB (D65) of an sRGB hex colour, `#a1b2c3` or `#abc`, with or without the hash; null when it is not one. */
export function hexToLab(hex: string): Lab | null {
  if (!/^#?(?:[0-9a-f]{3}|[0-9a-f]{6})$/iu.test(hex)) return null
  const lab = toLab65(parseHex(hex))
  return lab ? { L: lab.l, a: lab.a, b: lab.b } : null
}

/** @returns the sRGB hex colour, `#rrggbb`; a colour no screen can show has each channel cut off at its end. */
export const labToHex = (lab: Lab): string => formatHex(clampRgb(lab65Of(lab)))

/**
 * CIEDE2000 colour difference, all weights 1 (Sharma, Wu and Dalal, "The CIEDE2000 color-difference formula", Color Research and
 * Application 30(1), 2005), as computed by culori. About 1 is just seen side by side; symmetrical, but not a metric.
 */
export const deltaE00 = (a: Lab, b: Lab): number => ciede2000(lab65Of(a), lab65Of(b))
