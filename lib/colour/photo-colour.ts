import { rgbToLab } from './convert'
import type { Lab } from './lab'

/** Amounts of light in the three channels of sRGB, from 0 to 1: twice the figure is twice the light. */
export type Light = { red: number; green: number; blue: number }

/** A part of a photo: four bytes a pixel, red, green, blue and opacity, row by row, as a canvas gives them. */
export type Pixels = { data: ArrayLike<number>; width: number; height: number }

const channels = ['red', 'green', 'blue'] as const

/** The light of an sRGB byte from 0 to 255, by the transfer function of IEC 61966-2-1. */
export function lightOf(byte: number): number {
  const value = byte / 255
  return value <= 0.040_45 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4
}

/** The sRGB figure, 1 for full, of an amount of light. */
const encoded = (light: number): number => (light <= 0.003_130_8 ? light * 12.92 : 1.055 * light ** (1 / 2.4) - 0.055)

/** Relative luminance: what share of white's light it sends out, as the eye weighs it. */
const luminanceOf = ({ red, green, blue }: Light): number => 0.2126 * red + 0.7152 * green + 0.0722 * blue

/** What is lighter than white, as a balance can make it, has white's lightness. */
export function lightToLab({ red, green, blue }: Light): Lab {
  const lab = rgbToLab(encoded(red), encoded(green), encoded(blue))
  return { ...lab, L: Math.min(100, lab.L) }
}

/** At this byte or above a channel has run into its end: what was brighter still looks the same. */
const clippedFrom = 254

/**
 * The mean light over a square of a photo, and what share of its pixels is clipped in some channel. Light is averaged, not bytes:
 * thread is fine stripes of bright and dark, and the eye at a distance adds up their light.
 *
 * @param centre  In pixels; the square is cut off at the photo's edge.
 * @param reach   How many pixels it goes on each side of the one at its centre.
 * @throws {RangeError} when the centre lies outside.
 */
export function averageOf(
  { data, width, height }: Pixels,
  centre: { x: number; y: number },
  reach: number,
): { light: Light; clippedShare: number } {
  const [x, y] = [Math.floor(centre.x), Math.floor(centre.y)]
  if (!(x >= 0 && y >= 0 && x < width && y < height)) throw new RangeError(`averageOf: ${centre.x}, ${centre.y} lies outside`)
  const sums = [0, 0, 0]
  let count = 0
  let clipped = 0
  for (let row = Math.max(0, y - reach); row <= Math.min(height - 1, y + reach); row++) {
    for (let column = Math.max(0, x - reach); column <= Math.min(width - 1, x + reach); column++) {
      const at = (row * width + column) * 4
      const bytes = [data[at] as number, data[at + 1] as number, data[at + 2] as number]
      bytes.forEach((byte, index) => {
        sums[index] = (sums[index] as number) + lightOf(byte)
      })
      if (bytes.some((byte) => byte >= clippedFrom)) clipped++
      count++
    }
  }
  const [red, green, blue] = sums.map((sum) => sum / count) as [number, number, number]
  return { light: { red, green, blue }, clippedShare: clipped / count }
}

/**
 * What the patch is: paper or a white card, a photographer's grey card, or some other grey. Of the first two the lightness is known
 * too, and sets right how bright the photo is; of another grey only that it has no colour.
 */
export type PatchKind = 'white' | 'grey-card' | 'grey'

/** Grey cards are made to send back 18 % of the light; for white paper 85 % (L about 94) is from memory, not measured. */
const patchLuminance: Record<PatchKind, number | null> = { white: 0.85, 'grey-card': 0.18, grey: null }

/** A channel without any light cannot be scaled up from nothing. */
export const isBalanceable = (patch: Light): boolean => channels.every((channel) => patch[channel] > 0)

/** What each channel's light is multiplied by. */
export type Balance = Light

/**
 * The balance that makes a patch neutral: each channel is scaled in linear light, by the ratio that in a single light holds for every
 * colour in it only nearly (von Kries, for the channels of sRGB in place of the cones'). The brightness is that the patch is known to
 * have, else the photo's own.
 *
 * @throws {RangeError} for a patch that is not `isBalanceable`.
 */
export function balanceTo(patch: Light, kind: PatchKind): Balance {
  if (!isBalanceable(patch)) throw new RangeError('balanceTo: a channel of the patch is black')
  const target = patchLuminance[kind] ?? luminanceOf(patch)
  return { red: target / patch.red, green: target / patch.green, blue: target / patch.blue }
}

export const balanced = (light: Light, balance: Balance): Light => ({
  red: light.red * balance.red,
  green: light.green * balance.green,
  blue: light.blue * balance.blue,
})

export const patchCautions = ['clipped', 'dark', 'coloured'] as const
/**
 * Why a patch is a poor one to balance by. `clipped`: some of it has run into the end of a channel, so its true colour is not in the
 * photo. `dark`: noise makes up much of it. `coloured`: it would take a strong correction, as of a coloured patch or a coloured lamp.
 */
export type PatchCaution = (typeof patchCautions)[number]

/** Limits chosen by trial: 2 % of the pixels clipped; luminance under 0.03 (L about 20); one channel two and a half times another. */
const mostClipped = 0.02
const leastLuminance = 0.03
const mostCast = 2.5

export function cautionsOfPatch({ light, clippedShare }: { light: Light; clippedShare: number }): PatchCaution[] {
  const values = channels.map((channel) => light[channel])
  const isSo = {
    clipped: clippedShare > mostClipped,
    dark: luminanceOf(light) < leastLuminance || !isBalanceable(light),
    coloured: Math.max(...values) > mostCast * Math.min(...values),
  }
  return patchCautions.filter((caution) => isSo[caution])
}
