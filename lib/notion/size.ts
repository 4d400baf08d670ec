import { parseClothLength, parseClothSize } from '#lib/quantity/cloth-length'
import { parseNumber } from '#lib/quantity/number'
import { textKey } from '#lib/quantity/text-key'
import { byText } from '#lib/quantity/text-order'
import { type NotionCard, type NotionKind, notionKinds } from './notion'

/** Kinds sold by a number that says how fine they are: a larger number is a finer needle, a smaller bead. */
const isNumbered = (kind: NotionKind): boolean => kind === 'needle' || kind === 'beads'

const padded = (value: number): string => String(value).padStart(12, '0')

/** A size with its unit written; null when it could be either. */
function readWithUnit(text: string): readonly number[] | null {
  const read = (unit: 'in' | 'cm') => {
    const size = parseClothSize(text, unit)
    return size ? [size.widthUm, size.heightUm] : [parseClothLength(text, unit)].filter((um) => um !== null)
  }
  const sides = read('in')
  return sides.length > 0 && sides.join() === read('cm').join() && sides.every((um) => um > 0) ? sides : null
}

/** The number a needle or a bead is sold by: `26`, `size 26`, `no. 26`, `11/0`. */
export function readSizeNumber(text: string): number | null {
  const digits = /^(?:(?:size|no\.?|number|nr\.?|#)\s*)?(\d{1,3})(?:\/0|°)?$/iu.exec(text.trim())
  return digits ? Number(digits[1]) : null
}

/**
 * A size as a text whose order is that of the sizes: numbers from coarse to fine, lengths from small to large whatever their unit, then
 * bare numbers, then words. Two ways to write one size (10 in, 25.4 cm) have one key.
 */
export function sizeKeyOf({ kind, size }: Pick<NotionCard, 'kind' | 'size'>): string | null {
  if (size === null) return null
  const number = isNumbered(kind) ? readSizeNumber(size) : null
  if (number !== null) return `1 ${padded(number)}`
  const sides = readWithUnit(size)
  if (sides !== null) return `2 ${sides.map(padded).join(' ')}`
  const bare = parseNumber(size)
  if (bare !== null && bare >= 0) return `3 ${padded(Math.round(bare * 1000))}`
  return `9 ${textKey(size)}`
}

type Listed = Pick<NotionCard, 'kind' | 'name' | 'size'> & { id: string }

/** By kind, then size (needles from coarse to fine, hoops from small to large, those without a size last), then name. */
export function byKindAndSize(a: Listed, b: Listed): number {
  // No key begins with a tilde, so what has none comes last.
  const size = byText(sizeKeyOf(a) ?? '~', sizeKeyOf(b) ?? '~')
  return (
    notionKinds.indexOf(a.kind) - notionKinds.indexOf(b.kind) ||
    size ||
    byText(textKey(a.name), textKey(b.name)) ||
    byText(a.id, b.id)
  )
}
