import type { PlacedWord } from '#lib/chart/page-text/page-text'
import type { Blob } from './picture/blobs'

/** Of the words of a column: so many have to agree. Lengths with their unit behind them are seldom whole among others that are not. */
const mostOf = 0.6
const mostOfLengths = 0.25
const leastInColumn = 4
/** Doubted: it is shown to be looked at. */
const doubtful = 0.5

/** A point that the lines did not have, but the ink has, is not to be taken for sure by itself; with those of its column it is. */
const seenInInk = 0.78

const pointed = /^\d+\.(\d{1,2})(?:m|cm|yd|yds)?$/
const figuresAndUnit = /^(\d[\d:;,]*)(m|cm|yd|yds)?$/

/**
 * Decimal points, the least that print holds: looked for in the ink between two figures where none was read, and doubted where all others of
 * a column have one. `1:5` and `1,5` among them are `1.5`. A comma of thousands is none: three figures follow it.
 */
export function mendPoints(
  read: readonly PlacedWord[],
  blobs: readonly Blob[],
  capPx: number,
  faint: readonly Blob[] = [],
): PlacedWord[] {
  const joined = withUnits(read, capPx)
  const words = joined.map((word) => withPoint(word, blobs, faint, capPx))
  const before = new Map(words.map((word, at) => [word, joined[at] as PlacedWord]))
  const figures = words.filter(({ text }) => /^\d[\d.,:;]*(?:m|cm|yd|yds)?$/.test(text))
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
    const least = /[a-z]$/.test(word.text) ? mostOfLengths : mostOf
    if (column.length < leastInColumn || agreeing < Math.max(2, column.length * least)) continue
    if (pointed.exec(word.text)?.[1]?.length === usual) {
      // Seen in ink, and its column has points as well.
      const lines = before.get(word)
      if (lines && lines !== word) mended.set(word, { ...word, certainty: Math.min(lines.certainty, 0.9) })
      continue
    }
    const said = word.text.replace(/[,:;]/, '.')
    const isSaid = pointed.exec(said)?.[1]?.length === usual
    const text = isSaid ? said : pointedAsUsual(word.text, usual)
    mended.set(word, { ...word, text, certainty: Math.min(word.certainty, isSaid ? 0.75 : doubtful) })
  }
  // A length without a point has lost it more often than not.
  return words.map((word) => {
    const settled = mended.get(word) ?? word
    return /^\d{2,}m$/.test(settled.text) ? { ...settled, certainty: Math.min(settled.certainty, seenInInk) } : settled
  })
}

/** A unit that stands a space behind its figure, and was read by itself, with the figure: whatever column it would make. */
function withUnits(words: readonly PlacedWord[], capPx: number): PlacedWord[] {
  const units = words.filter(({ text }) => /^(?:m|cm|yd|yds)$/.test(text))
  const taken = new Set<PlacedWord>()
  const joined = words.map((word) => {
    if (!/^\d[\d.,:;]*$/.test(word.text)) return word
    const { left, right, top, bottom } = word.box
    const unit = units.find(
      ({ box }) => box.left > right - 2 && box.left - right < capPx * 1.5 && Math.abs(box.bottom - bottom) < capPx * 0.4,
    )
    if (!unit) return word
    taken.add(unit)
    // An m by itself is more certain behind a figure than anywhere else.
    const certainty = Math.min(word.certainty, Math.max(unit.certainty, seenInInk))
    return {
      text: word.text + unit.text,
      certainty,
      box: { left, right: unit.box.right, top: Math.min(top, unit.box.top), bottom },
    }
  })
  return joined.filter((word) => !taken.has(word))
}

/** With as many figures behind a point as all others of the column have: `86` among `5.6` and `3.2`. */
function pointedAsUsual(text: string, usual: number): string {
  const [, figures = '', unit = ''] = /^(\d+)(m|cm|yd|yds)?$/.exec(text) ?? []
  return figures.length > usual ? `${figures.slice(0, -usual)}.${figures.slice(-usual)}${unit}` : text
}

/** A word of figures, a unit behind them or none, with the point between two of them that is there in ink but was not read, or was read as a figure. */
function withPoint(word: PlacedWord, blobs: readonly Blob[], faint: readonly Blob[], capPx: number): PlacedWord {
  const [, figures = '', unit = ''] = figuresAndUnit.exec(word.text) ?? []
  if (figures.length < 2 || figures.length > 6) return word
  const { left, right, top, bottom } = word.box
  const isInside = (blob: Blob) =>
    blob.left > left - 2 && blob.right < right + 2 && blob.top > top - capPx * 0.2 && blob.bottom < bottom + capPx * 0.3
  const inside = blobs.filter(isInside)
  const tall = inside.filter((blob) => blob.bottom - blob.top > capPx * 0.6).sort((a, b) => a.left - b.left)
  const base = tall.map((blob) => blob.bottom).sort((a, b) => a - b)[tall.length >> 1] ?? bottom
  const isDot = (blob: Blob) => {
    const [wide, high] = [blob.right - blob.left, blob.bottom - blob.top]
    const size = Math.max(wide, high)
    return size > capPx * 0.07 && size < capPx * 0.3 && Math.abs(blob.bottom - base) < capPx * 0.2
  }
  const dark = inside.filter(isDot)
  // A point in light type is paler than its figures.
  const dots = dark.length > 0 ? dark : faint.filter((blob) => isInside(blob) && isDot(blob))
  const [dot] = dots
  if (!dot || dots.length > 1) return word
  const before = tall.filter((blob) => blob.right <= dot.left + 2).length
  const after = tall.filter((blob) => blob.left >= dot.right - 2).length - unit.length
  const count = tall.length - unit.length
  if (before === 0 || after <= 0 || after > 2 || before + after !== count) return word
  const letters = [...figures]
  const isExtra = letters.length === count + 1
  if (!isExtra && letters.length !== count) return word
  const text = `${letters.slice(0, before).join('')}.${letters.slice(isExtra ? before + 1 : before).join('')}`
  return /^\d+\.\d+$/.test(text) ? { ...word, text: text + unit, certainty: Math.min(word.certainty, seenInInk) } : word
}
