import { codeLike } from '#lib/chart/page-text/looks'
import type { PageBox, PlacedWord } from '#lib/chart/page-text/page-text'
import { mendCodes } from './mend-codes'
import { mendPoints } from './mend-points'
import { type Blob, blobsOf } from './picture/blobs'
import { aloneGlyphs } from './picture/glyphs'
import { type KnownGlyph, type Likeness, mostLike, shapeIn } from './picture/known-glyphs'
import type { Straight } from './straighten'

/** More glyphs alone than this are a chart's. */
const mostAlone = 600
/** A column of figures holds at least so many of them. */
const leastInColumn = 3
/** Paler than this is the paper's grain. */
const paler = 236
/** Less alike than this, and a glyph is nothing that is known. */
const leastAlike = 0.72

/**
 * Look a second time, glyph by glyph, at what reading by lines is worst at: signs and figures that stand alone in their cells, many of which
 * it leaves out or takes for two, and the figures of codes and counts. A glyph is held against letters, figures and signs as they are drawn.
 */
export function mendWords(read: readonly PlacedWord[], straight: Straight, known: readonly KnownGlyph[]): PlacedWord[] {
  const { grey, capPx, inkShade } = straight
  const blobs = blobsOf(grey, inkShade)
  const words = read.flatMap((word) => partedAtGaps(word, blobs, capPx))
  const figures = known.filter(({ text }) => /\d/.test(text))
  const gone = new Set<PlacedWord>()
  const alone: Alone[] = []
  const glyphs = aloneGlyphs(blobs, capPx)
  if (glyphs.length > mostAlone) return [...words]
  for (const box of glyphs) {
    const over = words.filter((word) => covers(word.box, box) || isWithin(word.box, box, capPx * 0.4))
    // A glyph within a longer word is part of it: its letters only stand wide.
    if (over.some((word) => word.box.right - word.box.left > (box.right - box.left) * 2 + capPx * 0.6)) continue
    const first = over.find((word) => covers(word.box, box)) ?? null
    for (const word of over) gone.add(word)
    const shape = shapeIn(grey, box, inkShade)
    alone.push({ box, before: first, sign: mostLike(shape, known), figure: mostLike(shape, figures) })
  }
  const kept = words
    .filter((word) => !gone.has(word) && !isEdge(word))
    .map((word) => withFiguresChecked(inCase(withLetters(word), blobs, capPx), blobs, straight, known))
  const single = alone.flatMap((glyph) => settled(glyph, columnOf(glyph, alone, capPx), capPx) ?? [])
  const coded = mendCodes([...kept, ...single], capPx).map(withAccentDoubted)
  return mendPoints(coded, blobs, capPx, blobsOf(grey, Math.min(paler, inkShade + 30)))
}

/** Which accent a letter has is the least that print shows of it. */
const withAccentDoubted = (word: PlacedWord): PlacedWord =>
  /[\u00c0-\u024f]/.test(word.text) ? { ...word, certainty: Math.min(word.certainty, 0.78) } : word

/** A piece of a rule, a fold or the paper's edge, read as a stroke. */
const isEdge = ({ text, certainty }: PlacedWord): boolean => /^[|_~'`\\—[\]]+$/.test(text) && certainty < 0.85

/** A word that was read over a gap wider than a space: a symbol and its code, told apart where they stand apart. */
function partedAtGaps(word: PlacedWord, blobs: readonly Blob[], capPx: number): PlacedWord[] {
  const letters = [...word.text]
  if (letters.length < 2 || word.box.right - word.box.left < capPx * (letters.length * 0.8 + 0.8)) return [word]
  const inside = lettersIn(word, blobs, capPx)
  if (inside.length !== letters.length) return [word]
  const parts: PlacedWord[] = []
  for (const [at, blob] of inside.entries()) {
    const before = inside[at - 1]
    const part = parts.at(-1)
    if (part && before && blob.left - before.right < capPx) {
      part.text += letters[at]
      part.box = { ...part.box, right: blob.right }
    } else parts.push({ ...word, text: letters[at] as string, box: { ...word.box, left: blob.left, right: blob.right } })
  }
  return parts.length > 1 ? parts : [word]
}

/** The glyphs of a word as high as figures and capitals are, from the left. */
const lettersIn = (word: PlacedWord, blobs: readonly Blob[], capPx: number): Blob[] =>
  blobs
    .filter((blob) => covers(word.box, blob) && blob.bottom - blob.top > capPx * 0.6 && blob.bottom - blob.top < capPx * 1.4)
    .sort((a, b) => a.left - b.left)

type Alone = { box: PageBox; before: PlacedWord | null; sign: Likeness | null; figure: Likeness | null }

const middleOf = ({ left, right }: PageBox): number => (left + right) / 2

function covers(word: PageBox, glyph: PageBox): boolean {
  const across = middleOf(glyph)
  const down = (glyph.top + glyph.bottom) / 2
  return across > word.left - 2 && across < word.right + 2 && down > word.top - 2 && down < word.bottom + 2
}

const isWithin = (inner: PageBox, outer: PageBox, by: number): boolean =>
  middleOf(inner) > outer.left - by &&
  middleOf(inner) < outer.right + by &&
  inner.top > outer.top - by &&
  inner.bottom < outer.bottom + by

/** What stands above and below a glyph: figures, signs that are no letters, letters among others, or nothing. */
type GlyphColumn = 'figures' | 'signs' | 'mixed' | 'lonely'

function columnOf(glyph: Alone, alone: readonly Alone[], capPx: number): GlyphColumn {
  const column = alone.filter(({ box }) => Math.abs(middleOf(box) - middleOf(glyph.box)) < capPx * 0.8)
  if (column.length < 2) return 'lonely'
  const share = (isOne: (text: string) => boolean) => column.filter(({ sign }) => sign && isOne(sign.text)).length / column.length
  if (column.length >= leastInColumn && share((text) => /[\dIlO○]/.test(text)) >= 0.75) return 'figures'
  return share((text) => !/[A-Za-z0-9○×]/.test(text)) > 0.4 ? 'signs' : 'mixed'
}

/** How sure a likeness is by itself. */
function sureness({ alike, margin }: Likeness): number {
  if (alike < leastAlike) return 0.25
  const close = Math.min(1, (alike - leastAlike) / 0.18)
  const clear = Math.min(1, Math.max(0, margin) / 0.12)
  return 0.35 + 0.57 * Math.min(close, 0.25 + 0.75 * clear)
}

/** Letters that are one another's small and capital form by height alone. */
const sameShape = /^[COSUVWXZ]$/i
/** Others' forms differ; by less than this they were not told apart. */
const leastTwinMargin = 0.05

function settled({ box, before, sign, figure }: Alone, column: GlyphColumn, capPx: number): PlacedWord | null {
  const likeness = column === 'figures' ? figure : sign
  if (!likeness) return before
  const read = before?.text.trim() ?? ''
  // Too unlike anything to be print, or a stroke by itself: a speck, a fold, a page's edge, unless others stand above and below it.
  const isStroke = /^[Iil1|/\\!]$/.test(likeness.text) && !/^[A-Za-z0-9]$/.test(read)
  if (column === 'lonely' && (likeness.alike < 0.8 || isStroke)) return null
  // At the picture's very edge a stroke is the paper's, whatever it was read as.
  if (column === 'lonely' && /^[Iil1|/\\!]$/.test(likeness.text) && box.left < capPx) return null
  if (likeness.alike < 0.5 && !/[A-Za-z0-9]/.test(read)) return null
  let text = likeness.text
  if (sameShape.test(text))
    text = box.bottom - box.top >= capPx * 0.83 ? text.toLocaleUpperCase('en') : text.toLocaleLowerCase('en')
  if (column === 'signs') text = text === 'O' || text === 'o' || text === '0' ? '○' : /^x$/i.test(text) ? '×' : text
  if (column !== 'signs' && text === '○') text = 'O'
  if (column !== 'signs' && text === '×') text = 'X'
  let certainty = sureness(likeness)
  const agrees = read !== '' && [...read].every((letter) => letter.toLocaleLowerCase('en') === text.toLocaleLowerCase('en'))
  if (agrees) certainty = 1 - (1 - certainty) * (1 - (before as PlacedWord).certainty * 0.8)
  // The lines' reading is seldom wrong where it is sure of one letter or figure.
  else if (/^[A-Za-z0-9]$/.test(read) && (before as PlacedWord).certainty > 0.85) {
    if (certainty < 0.75) return { ...(before as PlacedWord), box, certainty: 0.6 }
    certainty = Math.min(certainty, 0.78)
  }
  if (/^[A-Za-z]$/.test(text) && !sameShape.test(text)) {
    const isOtherCase = agrees && read.length === 1 && read !== text
    if (isOtherCase && likeness.twinMargin < leastTwinMargin * 2) text = read
    if (isOtherCase || likeness.twinMargin < leastTwinMargin) certainty = Math.min(certainty, 0.76)
  }
  // A stroke may be any of these.
  if (column !== 'figures' && /^[Il1|]$/.test(text)) certainty = Math.min(certainty, 0.5)
  return { text, certainty, box }
}

/** Figures in front of small letters that are letters: `0ld` and `01d` are `Old`. */
function withLetters(word: PlacedWord): PlacedWord {
  const [, figures, letters] = /^(0|01|1)(l?[a-z]{1,}|d)$/.exec(word.text) ?? []
  if (!figures || !letters || (letters.length < 2 && figures !== '01')) return word
  return { ...word, text: figures.replace('0', 'O').replace('1', figures === '1' ? 'I' : 'l') + letters }
}

/** A word's first letter as high as a capital is one, where only height tells. */
function inCase(word: PlacedWord, blobs: readonly Blob[], capPx: number): PlacedWord {
  if (!/^[ckopsuvwxz][a-z]/.test(word.text)) return word
  const inside = blobs.filter((blob) => covers(word.box, blob))
  const [first] = inside.sort((a, b) => a.left - b.left)
  // A p that is none has its stroke below the line; a P is as high, but stands on it.
  const isCapital =
    first &&
    first.bottom - first.top > capPx * 0.9 &&
    (word.text[0] !== 'p' || first.bottom < word.box.bottom - capPx * 0.1 || !/[gjqy]/.test(word.text))
  return isCapital ? { ...word, text: (word.text[0] as string).toLocaleUpperCase('en') + word.text.slice(1) } : word
}

/** Letters that figures at the end of a code are taken for, and the other way about. */
const figuresLike: Record<string, string> = { B: 'B', '8': 'B', S: 'S', '5': 'S', Z: 'Z', '2': 'Z' }

/** The figures of a code or count, each held against figures as they are drawn, where they can be told apart. */
function withFiguresChecked(
  word: PlacedWord,
  blobs: readonly Blob[],
  { grey, capPx, inkShade }: Straight,
  known: readonly KnownGlyph[],
) {
  const figured =
    /^[\dOolISBZ,.+&]+$/.test(word.text) && /[\dOolI]/.test(word.text) && (codeLike(word.text) || /\d/.test(word.text))
  if (!figured || word.text.length < 2 || word.text.length > 12) return word
  const letters = [...word.text]
  const places = letters.flatMap((letter, at) => (/[,.]/.test(letter) ? [] : [at]))
  const inWord = lettersIn(word, blobs, capPx)
  if (inWord.length !== places.length) return word
  let least = 1
  let differs = false
  for (const [nth, blob] of inWord.entries()) {
    const place = places[nth] as number
    if (!/[\dOolISBZ]/.test(letters[place] as string)) continue
    const letter = letters[place] as string
    const isEnd = place === 0 || place === letters.length - 1
    // A code may begin or end with a letter, and an 8 there may be a B.
    const own = isEnd && !/[.,]/.test(word.text) ? (figuresLike[letter] ?? '') : ''
    const likeness = mostLike(
      shapeIn(grey, blob, inkShade),
      known.filter(({ text }) => /\d/.test(text) || own.includes(text)),
    )
    if (!likeness) return word
    const sure = own === '' ? sureness(likeness) : Math.min(sureness(likeness), likeness.margin > 0.08 ? 0.9 : 0.75)
    if (own !== '' && /[A-Z]/.test(likeness.text)) {
      const isClear = likeness.text === letter || likeness.margin > 0.06
      differs ||= isClear && likeness.text !== letter
      if (isClear) letters[place] = likeness.text
      least = Math.min(least, sure)
      continue
    }
    if (likeness.text !== letters[place]) {
      // A letter in a word of figures is a figure; a figure the lines were sure of is left, but doubted.
      if (/\d/.test(letters[place] as string) && (sure < 0.7 || (word.certainty > 0.9 && sure < 0.85))) {
        if (sure > 0.6) return { ...word, certainty: Math.min(word.certainty, 0.65) }
        continue
      }
      differs ||= /\d/.test(letters[place] as string)
      letters[place] = likeness.text
    }
    least = Math.min(least, sure)
  }
  const certainty = differs ? Math.min(0.75, least) : 1 - (1 - word.certainty) * (1 - least * 0.8)
  return { ...word, text: letters.join(''), certainty }
}
