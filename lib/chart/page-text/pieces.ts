import type { PageBox, TextPage } from './page-text'

/**
 * A single word in its place. `breakBefore`: a tab or wide run of spaces stood before it in the file itself, which parts cells whatever the
 * gap on paper. Heights are those of the type, so that words of one size have boxes of one height.
 */
export type Piece = { text: string; certainty: number; box: PageBox; breakBefore: boolean }

/** A glyph the file gives no letter for: shown as this, and far from certain. */
const unknownGlyph = '?'
const unknownGlyphCertainty = 0.3

/** Private-use letters of symbol fonts, control characters, and the mark for what could not be decoded. */
const noLetter = /[\p{Cc}\p{Co}\p{Cn}\ufffd]/gu
/** Zero-width marks and soft hyphens say nothing. */
const saysNothing = /\u00ad|[\u200b-\u200d\u2060\ufeff]/g

/** About how wide a letter is, of its size: enough to tell where in a run of words a word begins. */
function widthOf(letter: string): number {
  if (/[ijl.,:;'’|!]/.test(letter)) return 0.28
  if (/[ftr()[\]\- ]/.test(letter)) return 0.34
  if (/[mwMW@—]/.test(letter)) return 0.86
  if (/[A-Z&%+=½¼¾]/.test(letter)) return 0.66
  return 0.54
}

const spanOf = (text: string): number => {
  let width = 0
  for (const letter of text) width += widthOf(letter)
  return width
}

/** The words of a page one by one, runs of words taken apart at their spaces; what is blank, or leads from cell to cell in dots, is left out. */
export function piecesOf(page: TextPage): Piece[] {
  const pieces: Piece[] = []
  for (const { text, box, certainty } of page.words) {
    if (![box.left, box.right, box.top, box.bottom].every(Number.isFinite) || box.bottom <= box.top) continue
    const shown = text.normalize('NFC').replace(saysNothing, '')
    const whole = spanOf(shown)
    if (whole === 0) continue
    const perUnit = Math.max(0, box.right - box.left) / whole
    let left = box.left
    let breakBefore = false
    for (const part of shown.split(/(\s+|[.…_·]{4,})/)) {
      const right = left + spanOf(part) * perUnit
      if (/^[\s.…_·]*$/.test(part) && (part.trim() === '' || part.length >= 4)) {
        if (part !== '') breakBefore ||= part.includes('\t') || part.length >= 3
      } else {
        const clean = part.replace(noLetter, unknownGlyph)
        pieces.push({
          text: clean,
          certainty: clean === part ? certainty : Math.min(certainty, unknownGlyphCertainty),
          box: { left, right, top: box.top, bottom: box.bottom },
          breakBefore,
        })
        breakBefore = false
      }
      left = right
    }
  }
  return pieces
}

const middleOf = (values: number[]): number => values.sort((a, b) => a - b)[values.length >> 1] ?? 0

/** The usual height of type on a page. */
export const typeHeight = (pieces: readonly Piece[]): number =>
  Math.max(0.1, middleOf(pieces.map(({ box }) => box.bottom - box.top)))
