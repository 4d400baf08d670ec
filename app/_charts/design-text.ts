import { formatClothSize, formatThreadLength } from '#language/lengths'
import { say } from '#language/say'
import type { DesignSize } from '#lib/chart/design'
import { type LengthUnit, parseClothSize } from '#lib/quantity/cloth-length'
import { type Count, parseCount, perInch, sameCount } from '#lib/quantity/count'
import { longestFigureText, parseWholeNumber } from '#lib/quantity/number'
import { parseThreadLength, type ThreadLengthUnit } from '#lib/quantity/thread-length'
import { countWords } from '#words/cloth-count'

/** Larger figures are slips of the finger. */
const mostStitches = 100_000
const mostUm = 100_000_000

/**
 * Read a design's size, width first: `140 x 98` is stitches; with a unit, `8 x 6 in`, it is as ruled. Empty is not known.
 *
 * @returns null when it is neither.
 */
export function parseDesignSize(text: string): DesignSize | null {
  const trimmed = text.trim()
  if (trimmed === '') return { kind: 'unknown' }
  if (trimmed.length > longestFigureText) return null
  const sides = trimmed.replace(/\s*(?:stitches|sts?)\.?$/iu, '').split(/\s*(?:[x×*]|\bby\b)\s*/iu)
  const [width, height] = sides.map((side) => (/^\d/.test(side) ? parseWholeNumber(side) : null))
  if (sides.length === 2 && width && height)
    return Math.max(width, height) <= mostStitches ? { kind: 'stitches', width, height } : null
  // A figure without a unit anywhere is no ruled size: 8.5 x 6 may be inches or a slip.
  if (!/[a-z"'”’″′]/iu.test(trimmed.replace(/\bby\b|x/giu, ''))) return null
  const ruled = parseClothSize(trimmed, 'in')
  return ruled && Math.max(ruled.widthUm, ruled.heightUm) <= mostUm ? { kind: 'measured', ...ruled } : null
}

/** A design's size as its field shows it; read again, it is the same to the micrometre. */
export function designSizeText(size: DesignSize, unit: LengthUnit): string {
  if (size.kind === 'unknown') return ''
  if (size.kind === 'stitches') return `${size.width} × ${size.height}`
  const isSame = (text: string) => {
    const read = parseClothSize(text, unit)
    return read?.widthUm === size.widthUm && read.heightUm === size.heightUm
  }
  const [inUnit, inOther] = [formatClothSize(size, unit), formatClothSize(size, unit === 'in' ? 'cm' : 'in')]
  return [inUnit, inOther].find(isSame) ?? `${size.widthUm / 1_000} × ${size.heightUm / 1_000} mm`
}

/** The advised count as its field shows it: 28 count over 2. Read again, it is the same ratio. */
export function adviceText({ count, over }: { count: Count; over: 1 | 2 }): string {
  const texts = [countWords(count, count), `${perInch(count)} count`, `${(count.threads * 10_000) / count.perUm} per cm`]
  const isSame = (text: string) => {
    const read = parseCount(text)
    return read !== null && sameCount(read.ends, count)
  }
  return say('{count} over {over}', { count: texts.find(isSame) ?? texts[0], over })
}

/** A put-up as its field shows it: 8 m. Read again, it is the same to a tenth of a millimetre. */
export function putUpText(tenths: number, unit: ThreadLengthUnit): string {
  const texts = [formatThreadLength(tenths, unit), formatThreadLength(tenths, unit === 'm' ? 'yd' : 'm')]
  return texts.find((text) => parseThreadLength(text, unit) === tenths) ?? `${tenths / 10} mm`
}
