import type { PlacedWord } from '#lib/chart/page-text/page-text'
import type { Blob } from './picture/blobs'

/** Of the words of a column: so many have to agree. */
const mostOf = 0.6
const leastInColumn = 4
/** Doubted: it is shown to be looked at. */
const doubtful = 0.5

const pointed = /^\d+\.(\d{1,2})$/

/**
 * Decimal points, the least that print holds: looked for in the ink between two figures where none was read, and doubted where all others of
 * a column have one. `1:5` and `1,5` among them are `1.5`. A comma of thousands is none: three figures follow it.
 */
export function mendPoints(read: readonly PlacedWord[], blobs: readonly Blob[], capPx: number): PlacedWord[] {
  const words = read.map((word) => withPoint(word, blobs, capPx))
  const figures = words.filter(({ text }) => /^\d[\d.,:;]*$/.test(text))
  const mended = new Map<PlacedWord, PlacedWord>()
  for (const word of figures) {
    const column = figures.filter(
      ({ box }) =>
        Math.abs(box.right - word.box.right) < capPx * 1.2 ||
        Math.abs(box.left - word.box.left) < capPx * 0.8 ||
        Math.abs(box.left + box.right - word.box.left - word.box.right) < capPx * 1.2,
    )
    const decimals = column.flatMap(({ text }) => pointed.exec(text)?.[1]?.length ?? [])
    const usual = decimals.filter((count) => count === 1).length * 2 >= decimals.length ? 1 : 2
    const agreeing = decimals.filter((count) => count === usual).length
    if (column.length < leastInColumn || agreeing < column.length * mostOf) continue
    if (pointed.exec(word.text)?.[1]?.length === usual) continue
    const said = word.text.replace(/[,:;]/, '.')
    const isSaid = pointed.exec(said)?.[1]?.length === usual
    mended.set(word, { ...word, text: isSaid ? said : word.text, certainty: Math.min(word.certainty, isSaid ? 0.75 : doubtful) })
  }
  return words.map((word) => mended.get(word) ?? word)
}

/** A word of figures with the point between two of them that is there in ink but was not read, or was read as a figure. */
function withPoint(word: PlacedWord, blobs: readonly Blob[], capPx: number): PlacedWord {
  if (!/^\d[\d:;,]{1,5}$/.test(word.text)) return word
  const { left, right, top, bottom } = word.box
  const inside = blobs.filter(
    (blob) =>
      blob.left > left - 2 && blob.right < right + 2 && blob.top > top - capPx * 0.2 && blob.bottom < bottom + capPx * 0.3,
  )
  const figures = inside.filter((blob) => blob.bottom - blob.top > capPx * 0.6).sort((a, b) => a.left - b.left)
  const base = Math.max(...figures.map((blob) => blob.bottom))
  const dots = inside.filter((blob) => {
    const [wide, high] = [blob.right - blob.left, blob.bottom - blob.top]
    const size = Math.max(wide, high)
    return size > capPx * 0.07 && size < capPx * 0.3 && Math.abs(blob.bottom - base) < capPx * 0.15
  })
  const [dot] = dots
  if (!dot || dots.length > 1) return word
  const before = figures.filter((blob) => blob.right <= dot.left + 2).length
  const after = figures.filter((blob) => blob.left >= dot.right - 2).length
  if (before === 0 || after === 0 || after > 2 || before + after !== figures.length) return word
  const letters = [...word.text]
  const isExtra = letters.length === figures.length + 1
  if (!isExtra && letters.length !== figures.length) return word
  const text = `${letters.slice(0, before).join('')}.${letters.slice(isExtra ? before + 1 : before).join('')}`
  return /^\d+\.\d+$/.test(text) ? { ...word, text, certainty: Math.min(word.certainty, 0.85) } : word
}
