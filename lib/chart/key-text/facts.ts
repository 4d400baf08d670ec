import { parseClothLength } from '#lib/quantity/cloth-length'
import type { Count } from '#lib/quantity/count'
import { parseCount } from '#lib/quantity/count'
import type { ReadFacts } from './reading'

/** A fact as a line of text gives it. `weight`: how plainly it is said; of two that differ, the plainer stands. */
export type FoundFact = {
  [K in keyof ReadFacts]: { fact: K; value: NonNullable<ReadFacts[K]>['value']; confidence: number; weight: number }
}[keyof ReadFacts]

/** Longer than any line of facts. */
const longest = 300
/** Nor does a title or a name come in a longer one. */
const longestHead = 130

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
const cutWords = /\b(cut|piece|fat quarter|fat eighth|you (?:will )?need|hoop|frame|needle|paper|card)\b/iu
const countOf = /(?<![\d.])(\d{1,3}(?:[.,]\d)?)[\s-]*(?:ct|count|cts|tpi|hpi)\b\.?/giu
const perInchWords =
  /(?<![\d.])(\d{1,3}(?:[.,]\d)?)\s*(?:threads|blocks|holes|squares)?\s*(?:per|to the|\/|to an|to one|to 1|to|an)\s*(?:inch|in)\b/iu
const perCm = /(?<![\d.])(\d{1,3}(?:[.,]\d)?)\s*(?:threads|thr\.?|blocks|holes)?\s*(?:per|\/|to the|to)\s*(10\s*)?cm\b/iu
const clothFigure =
  /\b(?:aida|linen|evenweave)\s*\(?(\d{2})\b(?!\s*(?:[x×]|cm|in\b|"|sts|threads))|(?<![\d.x×])\b(\d{2})[- ]?(?:thread|s|er)?\s+(?:\p{Lu}[\p{L}'’]+ ){0,2}(?:aida|linen|evenweave)\b/iu
const countLabel =
  /\b(?:fabric count|cloth count|thread count|(?<!stitch |design |chart )count(?! of))\s*[:=-]?\s*(\d{2}(?:[.,]\d)?)\b(?!\s*[x×])/iu
const overWords = /\bover\s*[:=]?\s*(one|two|1|2)\b(?!\s*(?:inch|cm))/giu
const blockWords = /\b(aida|block|blocks)\b/iu
const singleWords = /\b(linen|evenweave|even-weave|even weave|single[- ]thread|murano|cotton-linen)\b/iu
const clothWord = /\b(aida|linen|evenweave|even-weave|even weave|cloth|fabric|canvas|weave)\b/iu
const clothLabel =
  /^\s*(?:[-•*]\s*)?((?:(?:recommended|suggested|advised|model|our|ground|stitching|background)\s+)?(?:fabric|cloth|ground|material|background)(?:\s+(?:cloth|fabric|used|advised|suggested|suggestion|recommended|required|needed|of the model))*|(?:the |our )?(?:model |design |piece )?(?:was |is )?(?:stitched|worked|shown|sewn|model stitched|model) on)\s*(?:[:–—=-]\s*|\s)\s*(.+)$/iu
const onCloth = /\b(?:stitched|worked|sewn|shown|model|designed|done|made)\b.{0,60}?\bon\s+(?:an?\s+|our\s+)?(.+)$/iu
const sizedOn = /(?:wide|high|tall|in|cm|mm|inches|"|”|sts|stitches|\d)\.?\)?,?\s+(?:when (?:stitched|worked) )?on\s+(.+)$/iu
const titleLabel =
  /^\s*(?:the |its |this )?(?:(?:chart|design|pattern|project|sampler|model|picture)(?:'s)? (?:title|name)|(?:title|name)(?: of (?:the |this )?(?:chart|design|pattern|project|piece|sampler|model|picture|work))?|design|chart|pattern|project|model|picture)\s*(?:no\.?\s*)?(?:\d{1,2})?\s*(?:[:=–—]|\s-\s)\s*(.+)$/iu
/** "Design: …" is the title of one sheet and the designer's place on another, whose title stands above. */
export const isDesignLabel = (text: string): boolean => /^\s*(?:the )?design\s*[:=–—]/iu.test(text)
const numberedTitle = /^\s*(?:design|chart|no\.?|number)\s*\d{1,2}\s*[:.–—-]\s*(.+)$/iu
const designerLabel =
  /^\s*(?:the |its |our )?(?:designer|chart designer|design(?:er)?'s name|name of (?:the )?designer|artist|author|maker of the chart|(?:design|chart)(?:ed)? (?:and (?:charted|stitched|drawn) )?by|charted by|drawn by|copyright(?: holder)?)\s*[:=–—-]\s*(?:by\s+)?(.+)$/iu
/** Words before "by", "from" or © that say no more than that a designer comes. */
const makingWords =
  /^(?:a|an|the|its|our|this|new|original|exclusive|counted|cross|stitch|thread|design|designs|designed|chart|charts|charted|pattern|sampler|drawn|created|devised|presented|artwork|work|copyright|and|stitched|worked|for|you|model|picture|needlework|piece|project)$/iu
const presents = /^(\p{Lu}[^.:;,]{2,50}?)\s+(?:(?:proudly )?presents?|brings? you|offers?(?: you)?)\b[:.…]*\s*(.*)$/u
const copyright =
  /^\s*(?:(?:[Cc]hart|[Dd]esign|[Pp]attern|[Ll]eaflet) )?(?:©|\([cC]\)|[Cc]opyright)\s*(?:©\s*)?(?:\d{4}\s*)?(?:by\s+)?([\p{Lu}][^.]{2,50}?)(?:,?\s*\d{4})?\.?\s*$/u
const makingTail = String.raw`(?:,?\s+(?:(?:an?|the) )?(?:new |original |exclusive |counted )?(?:design|chart|pattern|sampler|designed|charted|drawn|picture|model)(?: and (?:designed|charted|stitched|drawn))?)?`
const titleBy = new RegExp(
  `^["“‘']?(\\p{Lu}[^:;]{2,60}?)["”’']?,?${makingTail},?\\s+(?:by|©)\\s+(?:©\\s*)?(?:\\d{4}\\s+)?(\\p{Lu}[^.:;]{2,50})$`,
  'u',
)
const titleFrom =
  /^["“‘']?(\p{Lu}[^:;]{2,60}?)["”’']?,\s+(?:(?:an?|the) )?(?:[a-z]+ )?(?:design|chart|pattern|sampler|picture|model) from\s+(\p{Lu}[^.:;]{2,50})$/u
/** Signs that set a title apart from who made it. */
const titleDash = /^["“‘']?(\p{Lu}[^:;|]{2,60}?)["”’']?\s+[–—\-·•|/~]\s+(\p{Lu}[^.:;|0-9]{2,50})$/u

const inUm = (figureText: string, unit: string): number | null =>
  parseClothLength(
    `${figureText.replace(',', '.')} ${/^(?:in|"|”|″|'')/iu.test(unit) ? 'in' : /^mm/iu.test(unit) ? 'mm' : 'cm'}`,
    'in',
  )

/**
 * What a line says of the design: its size in stitches or ruled, the cloth advised and its count, title and designer where they are
 * labelled. Every pattern is bounded and the line cut off at 300 characters.
 */
export function factsOf(whole: string): FoundFact[] {
  const text = whole.slice(0, longest).replace(/\s+/gu, ' ').trim()
  const found: FoundFact[] = []
  if (text === '') return found
  const isCut = cutWords.test(text) && !/\b(design size|finished|stitch count)\b/iu.test(text)
  if (!isCut) sizes(text, found)
  if (!isCut || clothLabel.test(text)) cloths(text, found)
  for (const part of whole.slice(0, longest).split(betweenFacts)) people(part.replace(/\s+/gu, ' ').trim(), found)
  return found
}

function sizes(text: string, found: FoundFact[]): void {
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

const asCount = (text: string): Count | null => parseCount(text)?.ends ?? null

function cloths(text: string, found: FoundFact[]): void {
  const isCloth = clothWord.test(text) || clothLabel.test(text) || onCloth.test(text)
  const counts: Count[] = []
  for (const match of text.matchAll(countOf)) {
    const count = asCount(`${match[1]} ct`)
    if (count) counts.push(count)
  }
  const inch = perInchWords.exec(text)
  const metric = perCm.exec(text)
  const labelled = countLabel.exec(text)
  for (const count of [
    inch && asCount(`${inch[1]} ct`),
    metric && asCount(`${metric[1]} per ${metric[2] ? '10 cm' : 'cm'}`),
    labelled && asCount(`${labelled[1]} ct`),
  ])
    if (count) counts.push(count)
  const plainly = counts.length === 0 ? clothFigure.exec(text) : null
  const byCloth = plainly && asCount(`${plainly[1] ?? plainly[2]} ct`)
  if (byCloth && byCloth.threads >= 6 && byCloth.threads <= 60) counts.push(byCloth)
  const different = new Set(counts.map(({ threads, perUm }) => `${threads}/${perUm}`)).size
  const [first] = counts
  const isPlain = isCloth || /\b(size|finished|stitched|worked)\b/iu.test(text)
  if (first) {
    const confidence = different > 1 ? 0.5 : isPlain || metric ? 0.94 : 0.75
    found.push({ fact: 'count', value: first, confidence, weight: (isCloth ? 1 : 0.6) * confidence })
  }
  const overs = [...text.matchAll(overWords)].map((match) => (/^(one|1)$/iu.test(match[1] as string) ? 1 : 2) as 1 | 2)
  const [over] = overs
  if (over && (first || isCloth || /^\W*(?:worked |stitched )?over\b|\b(threads?|stitched|worked)\b/iu.test(text)))
    found.push({
      fact: 'over',
      value: over,
      confidence: new Set(overs).size > 1 ? 0.5 : first || isCloth ? 0.95 : 0.8,
      weight: 1,
    })
  const hasContext = first !== undefined || clothLabel.test(text) || onCloth.test(text)
  if (!hasContext) return
  const [isBlock, isSingle] = [blockWords.test(text), singleWords.test(text)]
  if (isBlock !== isSingle)
    found.push({ fact: 'weave', value: isBlock ? 'block' : 'single', confidence: 0.94, weight: first ? 1 : 0.8 })
  const cloth = clothNamed(text)
  if (cloth) found.push({ fact: 'cloth', value: cloth, confidence: 0.88, weight: clothLabel.test(text) ? 1 : 0.8 })
}

/** The cloth's name alone: count, over and what else is said apart left out. */
function clothNamed(text: string): string | null {
  const label = clothLabel.exec(text)
  const sentence = label ? null : (onCloth.exec(text) ?? sizedOn.exec(text))
  let named = label?.[2] ?? sentence?.[1] ?? null
  if (named === null) {
    if (!clothWord.test(text)) return null
    const parts = text.split(/[;,]/)
    const at = parts.findIndex((part) => clothWord.test(part))
    named = clothPhrase(parts[at] as string).replace(/^.*?\d\s*(?:sts|stitches|in|cm)\s+on\s+/iu, '')
  }
  const plain = named
    .replace(/\([^)]*\d[^)]*\)/gu, ' ')
    .replace(countOf, ' ')
    .replace(perInchWords, ' ')
    .replace(perCm, ' ')
    .replace(/,?\s*\b(?:worked |stitched )?over\s+(?:one|two|1|2)\b(?:\s+(?:fabric\s+)?threads?)?/giu, ' ')
    .replace(/\b\d[\d.,/ ]*\s*(?:x|×|by)\s*\d[\d.,/ ]*\s*(?:in|cm|inches|")?/giu, ' ')
    .replace(/[.;:]\s.*$/u, ' ')
    .replace(/\busing\b.*$|\bwith (?:one|two|three|\d) strands?.*$/iu, ' ')
    .replace(/\s+([,.;])/gu, '$1')
    .replace(/,(?:\s*,)+/gu, ',')
    .replace(/\s+/gu, ' ')
    .replace(/^[\s,.;:–—-]+|[\s,.;:–—-]+$/gu, '')
  const words = plain
    .toLowerCase()
    .split(/[^\p{L}]+/u)
    .filter((word) => word.length > 1 && !/^(fabric|cloth|count|ct|any|of|or|on|of choice|your|choice|the)$/u.test(word))
  return words.length > 0 && plain.length <= 80 ? plain : null
}

/** The words about the one that says cloth, back to where the sentence leads up to them. */
function clothPhrase(text: string): string {
  const words = text.split(' ')
  const cloth = words.findLastIndex((word) => /^\W*(?:aida|linen|evenweave|even-weave|cloth|fabric|canvas)\b/iu.test(word))
  const led = words
    .slice(0, Math.max(0, cloth))
    .findLastIndex((word) => /^(?:on|of|for|is|are|was|in|use|used|using|suits)$/iu.test(word))
  return led < 0 ? text : words.slice(led + 1).join(' ')
}

/** Several things said on one line: "Title: The Last Lantern; designer: Bettony Crake". */
const betweenFacts =
  /\s*[;|·•]\s*|\.\s+(?=\p{Lu})|[\s,]+(?=(?:designer|designed by|design by|charted by|chart by|title|drawn by)\s*:)|\s{2,}/iu

const isName = (text: string): boolean =>
  /^\p{Lu}/u.test(text) && text.length <= 60 && text.split(' ').length <= 8 && !/\d{3,}/.test(text)
const bare = (text: string): string => text.replace(/^["“‘']+|["”’'.,:;]+$/gu, '').trim()

function people(text: string, found: FoundFact[]): void {
  if (text.length > longestHead) return
  const note = (fact: 'title' | 'designer', value: string, confidence: number) => {
    const plain = bare(value)
    if (plain.length >= 2 && plain.length <= 80) found.push({ fact, value: plain, confidence, weight: confidence })
  }
  const designer = designerLabel.exec(text)
  if (designer && isName(designer[1] as string)) {
    note('designer', designer[1] as string, 0.95)
    return
  }
  const by = makerSaid(text)
  if (by) {
    note('designer', by.name, by.confidence)
    return
  }
  const shown = presents.exec(text)
  if (shown && isName(shown[1] as string)) {
    note('designer', shown[1] as string, 0.88)
    if (shown[2] && isName(shown[2])) note('title', shown[2], 0.85)
    return
  }
  const title = titleLabel.exec(text) ?? numberedTitle.exec(text)
  if (title && !/^\s*\d+\s*[x×]|\d{2,}\s*(?:x|×|by|sts|stitches|wide)|^\d+$/u.test(title[1] as string)) {
    const said = title[1] as string
    const both = titleBy.exec(said) ?? titleFrom.exec(said)
    if (both) note('designer', both[2] as string, 0.88)
    note('title', both ? (both[1] as string) : said, isDesignLabel(text) ? 0.88 : 0.95)
    return
  }
  const from = titleFrom.exec(text)
  if (from) {
    note('title', from[1] as string, 0.88)
    note('designer', from[2] as string, 0.88)
    return
  }
  const quoted = /^[^“"\d]{0,60}[“"](\p{Lu}[^”"\d]{2,60})[”"]([^\d]*)$/u.exec(text)
  if (quoted && text.split(' ').length >= 5 && /\p{Ll}{2} \p{Ll}{2}/u.test(text.replace(quoted[1] as string, ''))) {
    note('title', quoted[1] as string, 0.78)
    const who = /\b(?:by|from)\s+(\p{Lu}[\p{L}'’-]+(?: (?:of |the |and |& )?\p{Lu}[\p{L}'’-]+){1,3})/u.exec(quoted[2] as string)
    if (who) note('designer', who[1] as string, 0.78)
    return
  }
  const of = /^An? (\p{Lu}[^.:;,0-9]{2,40}?) (?:design|chart|pattern|sampler)\.?$/u.exec(text)
  if (of && !isAboutSheet(of[1] as string)) {
    note('designer', of[1] as string, 0.82)
    return
  }
  const forWhom = /^(?:designed|charted|drawn|made) for .{3,50} by (\p{Lu}[^.:;,0-9]{2,50})$/iu.exec(text)
  if (forWhom && isName(forWhom[1] as string)) {
    note('designer', forWhom[1] as string, 0.88)
    return
  }
  const right = copyright.exec(text)
  if (right) note('designer', right[1] as string, 0.7)
}

/** "A design by …", "Design © …", "from …": a name behind words that only lead to it. */
function makerSaid(text: string): { name: string; confidence: number } | null {
  const led =
    /^(.{0,60}?)(?:\bby\b|\bfrom\b|©|\(c\))\s*:?\s*(?:(?:19|20)\d\d,?\s+)?(?:by\s+)?(\p{Lu}[^:;]{2,50}?)(?:,?\s*(?:19|20)\d\d)?[.:]?$/iu.exec(
      text,
    )
  if (!led || !isName(led[2] as string)) return null
  const words = (led[1] as string).split(/[^\p{L}']+/u).filter((word) => word !== '')
  if (!words.every((word) => makingWords.test(word))) return null
  const isFrom = /\bfrom\b/iu.test(text) && !/\bby\b|©/iu.test(text)
  if (words.length === 0 && /©|\(c\)/iu.test(text)) return null
  if (words.every((word) => /^copyright$/iu.test(word)) && words.length > 0) return null
  return { name: led[2] as string, confidence: isFrom ? 0.82 : 0.93 }
}

/** Words of a line that says what the sheet is, and not what it is called. */
const sheetWords =
  /^(?:key|keys|chart|charts|colour|color|colours|colors|thread|threads|floss|list|materials?|instructions?|contents?|kit|leaflet|booklet|page|no|number|to|for|the|of|and|a|an|your|this|needed|supplies|notes?|symbols?|legend|working|stitching|cross|stitch|counted|design|designs|pattern|requirements|shopping|used|new|series|collection|\d+)$/iu

/** A line of such words alone. */
export const isAboutSheet = (text: string): boolean => {
  const words = text.split(/[^\p{L}\p{N}'’]+/u).filter((word) => word !== '')
  return words.length > 0 && words.every((word) => sheetWords.test(word))
}

/** "Colour key for The Last Lantern", "The Last Lantern – chart and key": the title within. */
export function titleWithin(text: string): string {
  const led =
    /^(?:[\p{L}]+ ){0,3}?(?:key|list|materials|threads|chart|instructions|legend|shopping list|supplies) (?:to|for|of)\s+["“‘']?(?=[\p{Lu}"“‘])/iu.exec(
      text,
    )
  const rest = led ? text.slice(led[0].length) : text
  const tail = /\s*(?:[–—:·•|,]|\s-\s|\()\s*([^–—:·•|,(]{2,40}?)\)?\s*$/u.exec(rest)
  const plain = tail && isAboutSheet(tail[1] as string) ? rest.slice(0, tail.index) : rest
  return plain.replace(/^["“‘']+|["”’']+$/gu, '').trim()
}

/** "Rook Hill in Snow by Corvin Ashdale", "Rook Hill in Snow – Corvin Ashdale": a heading that is both. */
export function titleAndDesigner(text: string): { title: string; designer: string; confidence: number } | null {
  if (text.length > 120) return null
  const by = titleBy.exec(text) ?? titleFrom.exec(text)
  if (by) return { title: bare(by[1] as string), designer: bare(by[2] as string), confidence: 0.88 }
  const comma = /^["“‘']?(\p{Lu}[^:;,(]{2,60}?)["”’']?(?:,\s+|\s+\()(\p{Lu}[\p{L}'’-]+(?: \p{Lu}[\p{L}'’-]+){1,2})\)?$/u.exec(
    text,
  )
  if (comma) return { title: bare(comma[1] as string), designer: comma[2] as string, confidence: 0.75 }
  const dash = titleDash.exec(text)
  return dash ? { title: bare(dash[1] as string), designer: bare(dash[2] as string), confidence: 0.8 } : null
}
