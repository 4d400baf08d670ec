import { clothLabel, cloths } from './cloth-facts'
import type { FoundFact } from './reading'
import { sizes } from './size-facts'
import { people } from './title-facts'

/** Longer than any line of facts. */
const longest = 300

const cutWords = /\b(cut|piece|fat quarter|fat eighth|you (?:will )?need|hoop|frame|needle|paper|card)\b/iu

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

/** Several things said on one line: "Title: The Last Lantern; designer: Bettony Crake". */
const betweenFacts =
  /\s*[;|·•]\s*|\.\s+(?=\p{Lu})|[\s,]+(?=(?:designer|designed by|design by|charted by|chart by|title|drawn by)\s*:)|\s{2,}/iu
