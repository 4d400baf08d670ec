import type { Count } from '#lib/quantity/count'
import { parseCount } from '#lib/quantity/count'
import type { FoundFact } from './reading'

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
export const clothLabel =
  /^\s*(?:[-•*]\s*)?((?:(?:recommended|suggested|advised|model|our|ground|stitching|background)\s+)?(?:fabric|cloth|ground|material|background)(?:\s+(?:cloth|fabric|used|advised|suggested|suggestion|recommended|required|needed|of the model))*|(?:the |our )?(?:model |design |piece )?(?:was |is )?(?:stitched|worked|shown|sewn|model stitched|model) on)\s*(?:[:–—=-]\s*|\s)\s*(.+)$/iu
const onCloth = /\b(?:stitched|worked|sewn|shown|model|designed|done|made)\b.{0,60}?\bon\s+(?:an?\s+|our\s+)?(.+)$/iu
const sizedOn = /(?:wide|high|tall|in|cm|mm|inches|"|”|sts|stitches|\d)\.?\)?,?\s+(?:when (?:stitched|worked) )?on\s+(.+)$/iu

const asCount = (text: string): Count | null => parseCount(text)?.ends ?? null

export function cloths(text: string, found: FoundFact[]): void {
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
