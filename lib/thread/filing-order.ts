import { type ColourFamily, compareForChoosing } from '#lib/colour/family'
import type { Lab } from '#lib/colour/lab'
import { textKey } from '#lib/quantity/text-key'
import { compareCodes } from './code-order'

export const filingOrders = ['number', 'name', 'colour'] as const
/** By code; by name without a leading "The", the code standing in for one that has none; by colour family, hue and lightness. */
export type FilingOrder = (typeof filingOrders)[number]

export type FiledThread = { code: string; name: string | null; lab: Lab | null; family: ColourFamily | null }

const nameKey = ({ name, code }: FiledThread): string => textKey(name ?? code).replace(/^the /, '')

/** Compare two threads of a line as they are filed; the code decides where the order does not. */
export function compareFiled(order: FilingOrder, one: FiledThread, other: FiledThread): number {
  const byCode = compareCodes(one.code, other.code)
  if (order === 'number') return byCode
  if (order === 'colour') return compareForChoosing(one, other) || byCode
  const [a, b] = [nameKey(one), nameKey(other)]
  return a === b ? byCode : a < b ? -1 : 1
}
