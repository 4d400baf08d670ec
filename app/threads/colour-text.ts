import { hexToLab } from '#lib/colour/convert'
import type { Lab } from '#lib/colour/lab'
import { parseNumber } from '#lib/quantity/number'

/** Read a colour as `#8e2f2b`, or as three CIELAB figures, `36.2 41 27.5`; null for anything else. */
export function parseColour(text: string): Lab | null {
  const hex = hexToLab(text.trim())
  if (hex) return hex
  const figures = text.trim().split(/[\s;/]+/)
  if (figures.length !== 3) return null
  const [L, a, b] = figures.map(parseNumber)
  if (L == null || a == null || b == null) return null
  return L >= 0 && L <= 100 && Math.abs(a) <= 128 && Math.abs(b) <= 128 ? { L, a, b } : null
}

const tenth = (value: number) => Math.round(value * 10) / 10

/** A colour as its three figures, to a tenth: `36.2 41 27.5`. */
export const formatColour = (lab: Lab): string => [lab.L, lab.a, lab.b].map(tenth).join(' ')
