import { titleAndDesigner, titleWithin } from './title-facts'
import { nameKey } from './vocabulary'

/** A line that may be a title or name a designer. `heightPt`: of its type, where the page tells it; null in pasted text and photographs. */
export type HeadLine = {
  at: number
  parts: { text: string; heightPt: number | null }[]
  certainty: number
  isAboveFacts: boolean
}

/** What is said of a design by its head, and where. */
export type HeadSaid = { value: string; confidence: number; at: number; certainty: number }
export type HeadReading = { title: HeadSaid | null; designer: HeadSaid | null; unread: number[] }

/** Type that is so much larger than the next is larger on purpose. */
const clearlyLarger = 1.12
/** Words that lead on to the next: a line does not end with one. */
const leadingOn = /(?:^|\s)(?:in|of|the|and|a|an|at|by|for|with|from|to|over|on|&|–|—|-)$|,$/iu
/** A line that goes on from the one before. */
const goingOn = /^(?:\p{Ll}|&|–|—)|^(?:In|Of|And|At|By|For|With|From|To|Over|On)\s/u

/** Whether a line of large type plainly goes on in the next of the same. */
export const leadsOn = (text: string, next: string): boolean => leadingOn.test(text.trim()) || goingOn.test(next.trim())

type Part = { at: number; text: string; heightPt: number | null; certainty: number; isAboveFacts: boolean }

/**
 * Which of the lines above a key is the title, and which names the designer.
 *
 * A page sets its title in the largest type, wherever the designer stands; where type does not tell, the first line is the title, or one in
 * capitals or quotes. Two lines of the largest type are a title set over two where nothing else could be the designer's name or one of them is a
 * single word; else either reading is as good, and neither is sure.
 *
 * @param held  What was said already, or is said by name below: it is not looked for.
 */
export function titlesOf(
  lines: readonly HeadLine[],
  held: { title: boolean; designer: boolean; named?: readonly string[] },
): HeadReading {
  const all = lines.flatMap(({ at, parts: own, certainty, isAboveFacts }) =>
    own.map(({ text, heightPt }): Part => ({ at, text, heightPt, certainty, isAboveFacts })),
  )
  const reading: HeadReading = { title: null, designer: null, unread: [] }
  // Whom another place of the document calls the designer is that here too, however large the name is set.
  const isNamed = ({ text }: Part) => held.named?.includes(nameKey(text)) === true
  const parts = all.some((part) => !isNamed(part)) ? all.filter((part) => !isNamed(part)) : all
  const known = all.find((part) => !parts.includes(part))
  if (known && !held.designer) reading.designer = said(known, known.text, 0.9)
  if (parts.length === 0) return reading
  const titled = held.title ? [] : takeTitle(parts, reading, held)
  const others = parts.filter((part) => !titled.includes(part))
  if (held.title) takeDesigner(others, null, reading, held)
  const used = new Set([reading.title?.at, reading.designer?.at, ...titled.map(({ at }) => at)])
  reading.unread.push(...others.flatMap(({ at }) => (used.has(at) ? [] : [at])))
  return reading
}

/** Fills `reading` with the title, and with the designer where the rest of the head names one. @returns the parts that are the title */
function takeTitle(parts: readonly Part[], reading: HeadReading, held: { designer: boolean }): Part[] {
  const group = titleParts(parts, held)
  const [top] = group as [Part]
  const whole = group.map(({ text }) => text).join(' ')
  const others = parts.filter((part) => !group.includes(part))
  const both = titleAndDesigner(whole) ?? (held.designer || reading.designer ? null : withColon(whole))
  if (both) {
    reading.title = said(top, both.title, both.confidence)
    reading.designer = said(top, both.designer, both.confidence)
    return group
  }
  const isByType =
    top.heightPt !== null && parts.some(({ heightPt }) => (heightPt ?? 0) * clearlyLarger < (top.heightPt as number))
  const hasRival = group.length === 1 && isByType && isSameSizeBeside(parts, top) && !isSetOff(top.text)
  const title = said(top, titleWithin(whole), hasRival ? 0.7 : top.isAboveFacts || isByType ? 0.86 : 0.76)
  reading.title = title
  takeDesigner(others, top, reading, held)
  const isGuessed = !held.designer && group.length === 1 && (reading.designer?.confidence ?? 0) < 0.8
  const other = isGuessed ? besideTitle(others, reading.designer, top, isByType) : null
  if (!other) return group
  // Two bare names, and nothing that says which is which: type and order only make the one likelier.
  if (isMoreLikely(titleWithin(other.text), whole)) {
    reading.title = said(other, titleWithin(other.text), 0.7)
    reading.designer = said(top, titleWithin(whole), 0.65)
  } else if (reading.designer) title.confidence = Math.min(title.confidence, isSaidTitle(whole) ? 0.84 : 0.78)
  return group
}

/** "Tin Kettle Row: Small Blue Ship": whose it is, and what; or a title of two parts. */
function withColon(text: string): { title: string; designer: string; confidence: number } | null {
  const parts = /^(\p{Lu}[^:;“"]{2,40}):\s+["“]?(\p{Lu}[^:;”"]{2,60}?)["”]?$/u.exec(text)
  if (!parts || !isNameLike(parts[1] as string) || /^(?:A|An) /.test(parts[2] as string)) return null
  return { designer: parts[1] as string, title: parts[2] as string, confidence: 0.7 }
}

const said = ({ at, certainty }: Part, value: string, confidence: number): HeadSaid => ({ value, confidence, at, certainty })

/** In capitals or quotes. */
function isSetOff(text: string): boolean {
  return /^["“]/u.test(text) || (text === text.toUpperCase() && /\p{Lu}{3}/u.test(text))
}

const isSameSize = (one: Part, other: Part): boolean =>
  one.heightPt !== null && other.heightPt !== null && Math.abs(one.heightPt - other.heightPt) < one.heightPt * 0.03
const isSameSizeBeside = (parts: readonly Part[], one: Part): boolean =>
  parts.some((other) => other !== one && isSameSize(one, other))

/** The part that is the title, or the parts of one set over two lines. */
function titleParts(parts: readonly Part[], held: { designer: boolean }): Part[] {
  const [first, second] = parts as [Part, Part | undefined]
  const isTyped = parts.every(({ heightPt }) => heightPt !== null)
  const most = Math.max(...parts.map(({ heightPt }) => heightPt ?? 0))
  const largest = parts.filter(({ heightPt }) => (heightPt ?? 0) >= most * 0.97)
  const rest = parts.filter((part) => !largest.includes(part))
  const isTold = isTyped && rest.every(({ heightPt }) => (heightPt as number) * clearlyLarger < most)
  if (
    !isTold ||
    (rest.length === 0 && !largest.every((part, at) => at === 0 || leadsOn((largest[at - 1] as Part).text, part.text)))
  ) {
    // Of two alike, a name in capitals or quotes is the title, whatever stands above it.
    if (second && isSetOff(second.text) && !isSetOff(first.text)) return [second]
    const isOneWord = second !== undefined && isSameSize(first, second) && held.designer && second.at - first.at <= 2
    return isOneWord && isTyped && rest.length === 0 && parts.length === 2 ? [first, second] : [first]
  }
  const [top] = largest as [Part]
  const group = [top]
  for (const part of largest.slice(1)) {
    const before = group.at(-1) as Part
    if (part.at === before.at || part.at - before.at > 2 || group.length > 3) break
    const isOther = held.designer || rest.some(({ text }) => isNameLike(text))
    const isOneWord = !before.text.includes(' ') || !part.text.includes(' ')
    if (!(leadsOn(before.text, part.text) || isOther || isOneWord)) break
    group.push(part)
  }
  return group
}

/** Of what is left, the line that names somebody: the nearest below the title, else above it. */
function takeDesigner(parts: readonly Part[], title: Part | null, reading: HeadReading, held: { designer: boolean }): void {
  if (held.designer || reading.designer) return
  const names = parts.filter(({ text }) => isNameLike(titleWithin(text)))
  const below = title === null ? names : names.filter(({ at }) => at >= title.at)
  const nearest = below[0] ?? names.at(-1)
  if (!nearest) return
  reading.designer = said(nearest, titleWithin(nearest.text), names.length > 1 ? 0.6 : 0.7)
}

/** The line that might be the title instead: the one taken for a name, or, where type does not tell, one in the case of titles. */
function besideTitle(others: readonly Part[], designer: HeadSaid | null, title: Part, isByType: boolean): Part | null {
  const named = others.find(({ at }) => at === designer?.at)
  if (named || isByType) return named ?? null
  return others.find(({ at, text }) => Math.abs(at - title.at) <= 2 && isTitleCase(text)) ?? null
}

const isTitleCase = (text: string): boolean =>
  text.split(' ').length <= 7 &&
  text
    .split(' ')
    .every((word) => /^\p{Lu}/u.test(word) || /^(?:in|on|at|over|under|by|from|with|to|the|for|of|a|an|and|&)$/u.test(word))

/** Words of titles: what leads from one thing to another, numbers, and what a piece of needlework is called. */
const titleMark =
  /^(?:A|An|Two|Three|Four|Five|Six|Seven|Eight|Nine|Ten|Twelve|First|Second|Third|Fourth|Fifth|Last|My|Our|Little|Small)\s|\s(?:in|on|at|over|under|by|from|with|to|the|for|of|a|an)\s|\b(?:Sampler|Alphabets?|Verse|Rhyme|Garden|Winter|Summer|Spring|Autumn|Snow|Christmas|Stocking|Ornaments?|Pincushion|Biscornu|Bookmark)\b|\p{L}[’']s\s/u
/** Words of those who make and sell. */
const makerMark =
  /\b(?:Designs?|Studios?|Press|Samplers|Needleworks?|Needlecraft|Stitchery|Company|Co|Ltd|Workshop|Workroom|Crafts|Charts|Works)\b/u
const isSaidTitle = (text: string): boolean => titleMark.test(text) && !makerMark.test(text)

/** Whether the one is more like a title than the other by its words, where both are bare. */
function isMoreLikely(one: string, other: string): boolean {
  const weight = (text: string) => (titleMark.test(text) ? 1 : 0) - (makerMark.test(text) ? 1 : 0)
  return weight(one) > weight(other) && isNameLike(other)
}

/** A few words with capitals. */
function isNameLike(text: string): boolean {
  const words = text.split(' ')
  return (
    words.length <= 5 && !/\d/.test(text) && words.every((word) => /^\p{Lu}/u.test(word) || /^(?:and|of|the|&|for)$/u.test(word))
  )
}
