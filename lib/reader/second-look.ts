import type { PageBox, PlacedWord } from '#lib/chart/page-text/page-text'
import { type Blob, blobsOf } from './picture/blobs'
import { aloneGlyphs } from './picture/glyphs'
import { blankGrey, type Grey } from './picture/grey'
import type { Straight } from './straighten'

/** Reads one line that fills a picture. `signs`: what it may consist of; anything where left out. */
export type LineReading = (picture: Grey, signs: string | null) => Promise<PlacedWord[]>

/** More than these are not looked at again: some hundredths of a second each. */
const mostLooks = 60
/** Surer than this, a word is left as it was read. */
const sureEnoughPart = 0.8
/** Two readings that differ are neither of them sure. */
const disputed = 0.72
/** What the first reading left out and the second found. */
const foundLater = 0.84
/** So many words of a column have to be of figures for all of it to be. */
const leastInColumn = 4

/** Words and ink that stand close to one another on one line, as far as a cell goes. */
type Run = { box: PageBox; words: PlacedWord[]; hasUnread: boolean }

/**
 * Look a second time, closer, at what reading a whole page left out or was not sure of: each such run of words by itself, its ground made
 * even, and where all others of its column are figures, as figures. Where both readings agree a word is surer; where they differ the surer
 * one stands, but is doubted.
 */
export async function secondLook(words: readonly PlacedWord[], straight: Straight, readLine: LineReading): Promise<PlacedWord[]> {
  const { grey, capPx, inkShade } = straight
  const blobs = blobsOf(grey, inkShade)
  const alone = aloneGlyphs(blobs, capPx)
  const runs = runsOf(words, blobs, alone, capPx)
  const doubted = runs.filter(
    ({ hasUnread, words: said }) =>
      hasUnread || least(said) < sureEnoughPart || said.some((word) => isUnclear(word, blobs, capPx)),
  )
  // Ink without a word first, then what was least sure.
  doubted.sort((a, b) => Number(b.hasUnread) - Number(a.hasUnread) || least(a.words) - least(b.words))
  const replaced = new Map<PlacedWord, PlacedWord[]>()
  const added: PlacedWord[] = []
  for (const run of doubted.slice(0, mostLooks)) {
    const { picture, left, top } = cutOut(grey, run.box, capPx)
    const found = await readLine(picture, signsOf(run, words, capPx))
    const again = found.map(({ text, certainty, box }) => ({
      text,
      certainty,
      box: { left: box.left + left, right: box.right + left, top: box.top + top, bottom: box.bottom + top },
    }))
    const settled = settle(run, again)
    if (!settled) continue
    for (const word of run.words) replaced.set(word, [])
    added.push(...settled)
  }
  return [...words.flatMap((word) => replaced.get(word) ?? [word]), ...added]
}

/** A number whose figures are not as many as what stands in its place: some touch, or one is made of two. */
function isUnclear({ text, box }: PlacedWord, blobs: readonly Blob[], capPx: number): boolean {
  const signs = text.replace(/[^\p{L}\p{N}]/gu, '').length
  if (!/^\D?\d[\d.,]+\D?$/.test(text)) return false
  return blobs.filter((blob) => blob.bottom - blob.top > capPx * 0.6 && isIn(blob, box, 2)).length !== signs
}

const least = (words: readonly PlacedWord[]): number => Math.min(1, ...words.map(({ certainty }) => certainty))
const joined = (words: readonly PlacedWord[]): string => words.map(({ text }) => text).join('')

/** What stands in a run by both readings; null where the first is left as it was. */
function settle({ words, hasUnread }: Run, again: readonly PlacedWord[]): PlacedWord[] | null {
  // A speck or a piece of a rule is read as something, too, however often.
  if (!/[\p{L}\p{N}]/u.test(joined(again))) return null
  if (words.length === 0) {
    return least(again) > 0.45 ? again.map((word) => ({ ...word, certainty: Math.min(word.certainty, foundLater) })) : null
  }
  const [before, after] = [least(words), least(again)]
  if (joined(words) === joined(again)) {
    const both = 1 - (1 - before) * (1 - after * 0.7)
    // Spaces are lost more often than made.
    const parted = again.length > words.length ? again : words
    return parted.map((word) => ({ ...word, certainty: Math.max(word.certainty, both) }))
  }
  // More of the ink was read.
  if (hasUnread && joined(again).length > joined(words).length && after > 0.5)
    return again.map((word) => ({ ...word, certainty: Math.min(word.certainty, foundLater) }))
  // A line by itself loses spaces that it had on the page.
  const isRunTogether = again.length < words.length && Math.abs(joined(again).length - joined(words).length) <= 1
  const better = after > before && !isRunTogether ? again : words
  return better.map((word) => ({ ...word, certainty: Math.min(word.certainty, disputed) }))
}

/** Words of one line without a gap wider than a letter, and ink between and beside them that is in no word. */
function runsOf(words: readonly PlacedWord[], blobs: readonly Blob[], alone: readonly PageBox[], capPx: number): Run[] {
  const isAlone = (box: PageBox) => alone.some((glyph) => isIn(box, glyph, 3))
  const onLine = words.filter(({ certainty }) => certainty > 0.85)
  const unread = blobs.filter((blob) => {
    const [wide, high] = [blob.right - blob.left, blob.bottom - blob.top]
    if (high < capPx * 0.55 || high > capPx * 1.6 || wide > capPx * 2 || blob.pixels < wide * high * 0.15) return false
    if (isAlone(blob) || words.some(({ box }) => isIn(blob, box, 3))) return false
    const middle = (blob.top + blob.bottom) / 2
    return onLine.some(({ box }) => Math.abs((box.top + box.bottom) / 2 - middle) < capPx * 0.5)
  })
  const parts = [
    ...words.filter(({ box }) => !isAlone(box)).map((word) => ({ box: word.box, word })),
    ...unread.map((blob) => ({ box: blob as PageBox, word: null })),
  ].sort((a, b) => a.box.left - b.box.left)
  const runs: (Run & { middle: number })[] = []
  for (const { box, word } of parts) {
    const middle = (box.top + box.bottom) / 2
    const run = runs.findLast(
      (other) => Math.abs(other.middle - middle) < capPx * 0.5 && box.left - other.box.right < capPx * 0.95,
    )
    if (run) {
      run.box = {
        left: Math.min(run.box.left, box.left),
        right: Math.max(run.box.right, box.right),
        top: Math.min(run.box.top, box.top),
        bottom: Math.max(run.box.bottom, box.bottom),
      }
      if (word) run.words.push(word)
      else run.hasUnread = true
    } else runs.push({ box: { ...box }, words: word ? [word] : [], hasUnread: word === null, middle })
  }
  // One stroke alone is a fold's, or a rule's.
  return runs.filter(({ box, words: said }) => said.length > 0 || box.right - box.left > capPx * 0.4)
}

/** Whether the middle of one box is within another. */
function isIn(inner: PageBox, outer: PageBox, slack: number): boolean {
  const [x, y] = [(inner.left + inner.right) / 2, (inner.top + inner.bottom) / 2]
  return x > outer.left - slack && x < outer.right + slack && y > outer.top - slack && y < outer.bottom + slack
}

/** The signs of a column that consists of figures, with the letters and marks that stand among them; null where it does not. */
function signsOf({ box }: Run, words: readonly PlacedWord[], capPx: number): string | null {
  const column = words.filter(
    (word) =>
      word.certainty > 0.85 &&
      (word.box.top > box.bottom || word.box.bottom < box.top) &&
      (Math.abs(word.box.right - box.right) < capPx * 0.7 || Math.abs(word.box.left - box.left) < capPx * 0.7),
  )
  const figures = column.filter(({ text }) => /^[A-Z]{0,2}[\d.,]*\d[A-Z]?(?:m|yd)?$/.test(text))
  if (figures.length < leastInColumn || figures.length < column.length * 0.7) return null
  return `0123456789${[...new Set(joined(figures).replace(/\d/g, ''))].join('')}`
}

/** A run by itself on white, its ground and ink as light and dark as they get. */
function cutOut(grey: Grey, box: PageBox, capPx: number): { picture: Grey; left: number; top: number } {
  const [across, down] = [Math.round(capPx * 0.35), Math.round(capPx * 0.4)]
  const margin = Math.round(capPx * 0.5)
  const left = Math.max(0, Math.floor(box.left) - across)
  const top = Math.max(0, Math.floor(box.top) - down)
  const right = Math.min(grey.width, Math.ceil(box.right) + across)
  const bottom = Math.min(grey.height, Math.ceil(box.bottom) + down)
  const picture = blankGrey(right - left + 2 * margin, bottom - top + 2 * margin)
  const shades: number[] = []
  for (let y = top; y < bottom; y++) for (let x = left; x < right; x++) shades.push(grey.data[y * grey.width + x] as number)
  shades.sort((a, b) => a - b)
  const ink = shades[Math.floor(shades.length * 0.02)] as number
  const ground = Math.max(ink + 30, shades[Math.floor(shades.length * 0.7)] as number)
  for (let y = top; y < bottom; y++) {
    for (let x = left; x < right; x++) {
      const share = ((grey.data[y * grey.width + x] as number) - ink) / (ground - ink)
      picture.data[(y - top + margin) * picture.width + x - left + margin] = Math.round(255 * Math.min(1, Math.max(0, share)))
    }
  }
  return { picture, left: left - margin, top: top - margin }
}
