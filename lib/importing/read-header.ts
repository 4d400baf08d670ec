import { textKey } from '#lib/quantity/text-key'
import type { ColumnUnit } from './fields'

/** Fold a header for comparing: words of a camelCase name parted, # read as "number", marks and underscores as spaces. */
export function headerKey(header: string): string {
  return textKey(
    header
      .replace(/(\p{Ll})(\p{Lu})/gu, '$1 $2')
      .replace(/[#№]/gu, ' number ')
      .replace(/[_.,:;/\\|()[\]{}*?!'’"“”–—-]+/gu, ' '),
  )
}

const unitWords: Record<ColumnUnit, readonly string[]> = {
  stitches: ['stitches', 'stitch', 'sts', 'st', 'stiche', 'points', 'pts'],
  in: ['in', 'ins', 'inch', 'inches', '"', 'zoll', 'pouces', 'po'],
  cm: ['cm', 'cms', 'centimetres', 'centimeters', 'centimetre', 'centimeter'],
  mm: ['mm', 'millimetres', 'millimeters'],
  m: ['m', 'metres', 'meters', 'metre', 'meter', 'mtr'],
  yd: ['yd', 'yds', 'yard', 'yards'],
  'per inch': ['per inch', 'per in', 'threads per inch', 'tpi', 'ct', 'stitches per inch'],
  'per 10 cm': ['per 10 cm', 'per 10cm', '10cm', '10 cm', 'threads per 10 cm'],
  'per cm': ['per cm', 'threads per cm', 'faden cm', 'fils cm'],
}
const unitOfWord = new Map(
  Object.entries(unitWords).flatMap(([unit, words]) => words.map((word) => [word, unit as ColumnUnit] as const)),
)

export type HeaderParts = {
  /** The whole header, folded. */
  key: string
  /** The header without the unit at its end, folded; null when it ends in none. */
  keyBeforeUnit: string | null
  unit: ColumnUnit | null
}

/** Part a header from the unit at its end: `Width (cm)`, `Put-up yd`, `Height in inches`, `Breite [cm]`. */
export function readHeader(header: string): HeaderParts {
  const key = headerKey(header)
  // The inch mark is the one unit that folding takes away.
  const inchMark = /^(.*?)[\s([]*(?:"|”|″)\s*[)\]]?$/u.exec(header.trim())
  if (inchMark?.[1]?.trim()) return { key, keyBeforeUnit: headerKey(inchMark[1]), unit: 'in' }
  const words = key.split(' ')
  for (let taken = Math.min(4, words.length - 1); taken > 0; taken--) {
    const unit = unitOfWord.get(words.slice(-taken).join(' '))
    if (unit === undefined) continue
    const before = words.slice(0, -taken)
    if (before.length > 1 && (before.at(-1) === 'in' || before.at(-1) === 'en')) before.pop()
    return { key, keyBeforeUnit: before.join(' '), unit }
  }
  return { key, keyBeforeUnit: null, unit: null }
}
