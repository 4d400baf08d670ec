import type { PlacedWord } from '#lib/chart/page-text/page-text'

/** Of the codes of a column, so many have to be of one shape. */
const mostOf = 0.5
const leastInColumn = 4
/** Made out by its column: to be looked at. */
const madeOut = 0.75

/** Letters that are taken for figures, and the figures they are. */
const figureOf: Record<string, string> = {
  O: '0',
  o: '0',
  D: '0',
  I: '1',
  l: '1',
  i: '1',
  S: '5',
  s: '5',
  B: '8',
  Z: '2',
  z: '2',
}

/**
 * Codes of one column that begin with the same letter and have as many figures: one with letters among its figures (`Wi31`, `Wo82` among `W299`
 * and `W040`) is of that shape too. Where some codes of a column end with a letter, an 8 at the end of another may be a B, and is doubted.
 */
export function mendCodes(words: readonly PlacedWord[], capPx: number): PlacedWord[] {
  const codes = words.filter(({ text }) => /^[A-Za-z]{0,2}[\dA-Za-z]{1,6}$/.test(text) && /\d/.test(text))
  const mended = new Map<PlacedWord, PlacedWord>()
  for (const word of codes) {
    const column = codes.filter((other) => other !== word && Math.abs(other.box.left - word.box.left) < capPx * 0.8)
    if (column.length < leastInColumn - 1) continue
    const shapes = new Map<string, number>()
    for (const { text } of column) {
      const [, letter, figures = ''] = /^([A-Z])(\d{2,5})$/.exec(text) ?? []
      if (letter) shapes.set(letter + figures.length, (shapes.get(letter + figures.length) ?? 0) + 1)
    }
    const [usual] = [...shapes].sort((a, b) => b[1] - a[1])
    if (usual && usual[1] >= column.length * mostOf) {
      const text = inShape(word.text, usual[0].charAt(0), Number(usual[0].slice(1)))
      if (text !== null && text !== word.text) mended.set(word, { ...word, text, certainty: Math.min(word.certainty, madeOut) })
    } else if (/^\d+8$/.test(word.text) && column.some(({ text }) => /^\d+[A-Z]$/.test(text)))
      mended.set(word, { ...word, certainty: Math.min(word.certainty, madeOut) })
  }
  return words.map((word) => mended.get(word) ?? word)
}

/** A text as a letter and so many figures; null where it cannot be that. A nought may have been read twice, as a letter and a figure. */
function inShape(text: string, letter: string, count: number): string | null {
  if (text.charAt(0).toLocaleUpperCase('en') !== letter) return null
  const rest = [...text.slice(1).replace(/o0|0o/g, '0')].filter((sign, at) => at > 0 || sign.toLocaleUpperCase('en') !== letter)
  const figures = rest.map((sign) => figureOf[sign] ?? sign).join('')
  return figures.length === count && /^\d+$/.test(figures) ? letter + figures : null
}
