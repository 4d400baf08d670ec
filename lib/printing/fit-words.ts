import type { Lettering, Measure } from './mark'

type Style = Omit<Lettering, 'text'>

/** Control characters, marks that turn the direction of writing, and half characters have no shape on paper; white space is one space. */
const unprintable = /[\p{Cc}\p{Cs}\p{Co}\p{Cn}\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff]+/gu

/** Longer texts are never printed whole. */
const longestText = 2_000

/** A text that came from a person or a file, as it can be printed on one line. */
export const tidyWords = (text: string): string =>
  text.slice(0, longestText).replace(unprintable, ' ').replace(/\s+/gu, ' ').trim()

/**
 * Words in lines no longer than `width`: broken between words, within a word only when it is too long by itself.
 *
 * @param mostLines  More than so many are left out, and the last one kept ends in an ellipsis.
 */
export function wrapWords(
  text: string,
  width: number,
  style: Style,
  measure: Measure,
  mostLines = Number.POSITIVE_INFINITY,
): string[] {
  const fits = (words: string) => measure({ ...style, text: words }) <= width
  const lines: string[] = []
  let line = ''
  for (const word of tidyWords(text).split(' ')) {
    const longer = line ? `${line} ${word}` : word
    if (fits(longer)) {
      line = longer
      continue
    }
    if (line) lines.push(line)
    line = word
    while (!fits(line) && line !== '') {
      const head = longestHead(line, fits)
      lines.push(head)
      line = line.slice(head.length)
    }
    if (lines.length > mostLines) break
  }
  if (line || lines.length === 0) lines.push(line)
  if (lines.length <= mostLines) return lines
  const kept = lines.slice(0, mostLines)
  kept.push(shorten(`${kept.pop()} ${lines[mostLines]}`, width, style, measure))
  return kept
}

/** Words as they are when they are no longer than `width`, else as much as there is room for and an ellipsis. */
export function shorten(text: string, width: number, style: Style, measure: Measure): string {
  const tidy = tidyWords(text)
  const fits = (words: string) => measure({ ...style, text: words }) <= width
  if (fits(tidy)) return tidy
  const head = longestHead(tidy, (words) => fits(`${words.trimEnd()}…`), 0)
  return head ? `${head.trimEnd()}…` : ''
}

/** As many whole characters from the start as `fits` allows, found by halving; at least `least`, so that a line is never empty. */
function longestHead(text: string, fits: (head: string) => boolean, least = 1): string {
  const characters = Array.from(text)
  let [enough, tooMany] = [least, characters.length + 1]
  while (tooMany - enough > 1) {
    const middle = Math.floor((enough + tooMany) / 2)
    if (fits(characters.slice(0, middle).join(''))) enough = middle
    else tooMany = middle
  }
  return characters.slice(0, enough).join('')
}
