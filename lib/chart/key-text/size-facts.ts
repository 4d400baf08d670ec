import { parseClothLength } from '#lib/quantity/cloth-length'
import type { FoundFact } from './reading'

const figure = String.raw`(\d{1,4}(?:[.,]\d{1,3})?(?: ?[½¼¾⅛⅜⅝⅞])?|\d{1,3} \d\/\d{1,2}|[½¼¾])`
const unitWord = `(inches|inch|ins|in|"|”|″|''|cms|cm|mm|centimetres|centimeters)`
const times = String.raw`\s*(?:[x×✕*]|by)\s*`
const measured = new RegExp(
  `${figure}\\s*${unitWord}?\\.?\\s*\\(?(w|h|wide|high|tall)?\\)?${times}${figure}\\s*(?:${unitWord})(?![\\p{L}])\\.?\\s*\\(?(h|w|high|wide|tall)?`,
  'iu',
)
const measuredWide = new RegExp(
  `${figure}\\s*${unitWord}?\\.?\\s*(wide|high|tall|across)[\\s,]*(?:and|by|x|×)?\\s*${figure}\\s*${unitWord}\\.?\\s*(high|tall|wide|deep|across)`,
  'iu',
)
const mark = String.raw`\s*\(?(w|h|wide|high|tall|width|height|across|down)?\b\)?\s*`
const sts = String.raw`(?:stitches|stitch|sts|st|squares|crosses)?\s*`
const grid = new RegExp(
  `(?<![\\d.,])(\\d{1,4})${mark}${sts}${mark}(?:[x×✕*]|by)\\s*(\\d{1,4})(?![\\d.,]\\d)${mark}(stitches|stitch|sts|st|squares|crosses)?\\s*\\(?(w|h|wide|high|tall|width|height)?`,
  'iu',
)
const wideHigh =
  /(?<!\d)(\d{1,4})\s*(?:stitches|sts|squares)\s*(?:wide|across|in width)\b.{0,20}?(?<!\d)(\d{1,4})\s*(?:stitches|sts|squares)?\s*(?:high|tall|deep|down|in height)/iu
const highWide =
  /(?<!\d)(\d{1,4})\s*(?:stitches|sts|squares)\s*(?:high|tall|deep)\b.{0,20}?(?<!\d)(\d{1,4})\s*(?:stitches|sts|squares)?\s*(?:wide|across)/iu
const oneSide = /\b(width|height|wide|high)\s*[:=]?\s*(\d{1,4})\s*(?:stitches|sts|squares)?(?![\d.,]*\s*(?:in|cm|mm|"))\b/giu
const sideFirst =
  /\b(w|width|wide|h|ht|height|high)\s*[:=.]?\s*(\d{1,4}(?:[.,]\d{1,2})?)\s*(stitches|sts|st|squares|crosses|inches|in|cm|mm|")?\s*(?:x|×|✕|by|,|;|and|\/)?\s*(w|width|wide|h|ht|height|high)\s*[:=.]?\s*(\d{1,4}(?:[.,]\d{1,2})?)\s*(stitches|sts|st|squares|crosses|inches|in|cm|mm|")?(?![\p{L}\d])/iu
const sideBehind =
  /(?<![\d.,])(\d{1,4}(?:[.,]\d{1,2})?)\s*(stitches|sts|st|squares|crosses|inches|in|cm|mm|")?\s*\(?(w|h|wide|across|broad|high|tall|deep|down)\b\)?\s*(?:x|×|by|,|;|and|\/)?\s*(?:and |by )?(\d{1,4}(?:[.,]\d{1,2})?)\s*(stitches|sts|st|squares|crosses|inches|in|cm|mm|")?\s*\(?(w|h|wide|across|broad|high|tall|deep|down)\b/iu
const heightFirst = /\b(?:h|height|high)\s*(?:x|×|by)\s*(?:w|width|wide)\b/iu
const sizeLabel =
  /\b(stitch(?:es)?\s*count|design\s*(?:size|area|count)|size|stitches|stitched area|dimensions|grid|chart size|model size|finished|measures|count|area|design)\b/iu

const inUm = (figureText: string, unit: string): number | null =>
  parseClothLength(
    `${figureText.replace(',', '.')} ${/^(?:in|"|”|″|'')/iu.test(unit) ? 'in' : /^mm/iu.test(unit) ? 'mm' : 'cm'}`,
    'in',
  )

export function sizes(text: string, found: FoundFact[]): void {
  const behind = sideBehind.exec(text)
  const named = sideFirst.exec(text) ?? (behind && turnedRound(behind))
  if (named) {
    namedSides(named, found)
    return
  }
  const ruled = measured.exec(text) ?? measuredWide.exec(text)
  const isHeightFirst = heightFirst.test(text)
  if (ruled) {
    const [, first = '', firstUnit, firstSide, second = '', unit = '', secondSide] = ruled
    const width = inUm(first, firstUnit ?? unit)
    const height = inUm(second, unit)
    const isTurned = /^[ht]/iu.test(firstSide ?? '') || /^w/iu.test(secondSide ?? '') || isHeightFirst
    if (width && height && width > 3_000 && height > 3_000 && width < 4_000_000 && height < 4_000_000) {
      const confidence = /\b(size|finished|design|measures|model|approx)/iu.test(text) ? 0.93 : 0.82
      found.push({ fact: 'measuredWidthUm', value: isTurned ? height : width, confidence, weight: confidence })
      found.push({ fact: 'measuredHeightUm', value: isTurned ? width : height, confidence, weight: confidence })
    }
  }
  const rest = ruled ? `${text.slice(0, ruled.index)} ; ${text.slice(ruled.index + ruled[0].length)}` : text
  const note = (width: number, height: number, confidence: number) => {
    if (width < 3 || height < 3) return
    found.push({ fact: 'widthStitches', value: width, confidence, weight: confidence })
    found.push({ fact: 'heightStitches', value: height, confidence, weight: confidence })
  }
  const sentence = wideHigh.exec(rest)
  if (sentence) {
    note(Number(sentence[1]), Number(sentence[2]), 0.96)
    return
  }
  const plain = /(?<!\d)(\d{1,4})\s*(?:stitches|sts|squares)\s*(?:x|×|by)\s*(\d{1,4})(?!\d)/iu.exec(rest)
  if (plain) {
    note(Number(plain[1]), Number(plain[2]), 0.95)
    return
  }
  const turned = highWide.exec(rest)
  if (turned) {
    note(Number(turned[2]), Number(turned[1]), 0.96)
    return
  }
  const sides = grid.exec(rest)
  if (
    sides &&
    !/\bcount\s*[:=-]?\s*$/iu.test(rest.slice(0, sides.index).replace(/(?:stitch|stitches|design|chart)\s*count/iu, ''))
  ) {
    const [all, first, ...marks] = sides
    const second = marks.find((part, at) => at >= 2 && part !== undefined && /^\d+$/.test(part))
    const letters = marks.filter(
      (part): part is string => part !== undefined && /^(w|h|wide|high|tall|width|height|across|down)/iu.test(part),
    )
    const hasUnit =
      /stitch|sts|\bst\b|square|cross/iu.test(all) ||
      /^\s*(?:stitches|sts|squares|crosses)\b/iu.test(rest.slice(sides.index + all.length))
    const isLabelled = sizeLabel.test(rest.slice(0, sides.index))
    if (second !== undefined && (letters.length > 0 || hasUnit || isLabelled)) {
      const isTurned = /^[htd]/iu.test(letters[0] ?? '') || isHeightFirst
      note(Number(isTurned ? second : first), Number(isTurned ? first : second), letters.length > 0 || hasUnit ? 0.96 : 0.93)
      return
    }
  }
  for (const side of rest.matchAll(oneSide)) {
    const value = Number(side[2])
    if (value < 3) continue
    const isWidth = /^w/iu.test(side[1] as string)
    const confidence = /stitch|sts/iu.test(side[0]) ? 0.9 : 0.72
    found.push({ fact: isWidth ? 'widthStitches' : 'heightStitches', value, confidence, weight: confidence })
  }
}

const isAcross = (side: string): boolean => /^(?:w|across|broad)/iu.test(side)

/** "217 high, 130 wide" with the sides before their figures. */
function turnedRound([all, first, firstUnit, firstSide, second, secondUnit, secondSide]: RegExpExecArray): (
  | string
  | undefined
)[] {
  return [all, firstSide, first, firstUnit, secondSide, second, secondUnit]
}

/** "W 74 × H 253", "Height: 25 cm, width: 18 cm". */
function namedSides(sides: readonly (string | undefined)[], found: FoundFact[]): void {
  const [, firstSide = '', first = '', firstUnit, secondSide = '', second = '', secondUnit] = sides
  if (isAcross(firstSide) === isAcross(secondSide)) return
  const [width, height] = isAcross(firstSide) ? [first, second] : [second, first]
  const unit = secondUnit ?? firstUnit
  if (unit !== undefined && /^(?:in|cm|mm|")/iu.test(unit)) {
    const [wide, high] = [inUm(width, unit), inUm(height, unit)]
    if (!wide || !high || wide <= 3_000 || high <= 3_000) return
    found.push({ fact: 'measuredWidthUm', value: wide, confidence: 0.93, weight: 0.93 })
    found.push({ fact: 'measuredHeightUm', value: high, confidence: 0.93, weight: 0.93 })
    return
  }
  const [across, down] = [Number(width), Number(height)]
  if (!Number.isInteger(across) || !Number.isInteger(down) || across < 3 || down < 3) return
  const confidence = unit === undefined ? 0.93 : 0.96
  found.push({ fact: 'widthStitches', value: across, confidence, weight: confidence })
  found.push({ fact: 'heightStitches', value: down, confidence, weight: confidence })
}
