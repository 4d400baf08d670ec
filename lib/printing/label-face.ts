import type { Label } from '#lib/label/label'
import { tidyWords, wrapWords } from './fit-words'
import { type LabelCode, quietSquares } from './label-code'
import type { Box, Mark, Measure } from './mark'

/** From line to line, and from a line's upper edge to where its letters stand, in sizes of the type: room for accents and tails. */
const leading = 1.2
const baseline = 0.93
const largestTitleMm = 18
const smallestTitleMm = 1.9
/** Each size of the title that is tried is so much of the one before. */
const sizeStep = 0.95
/** A code larger than this is no easier to read. */
const largestCodeMm = 25
/** Two dots of a label printer at 180 to the inch: smaller squares run into each other, and phones do not find the code. */
export const leastSquareMm = 2 * (25.4 / 180)
/** The most of a label's width that its code takes. */
const mostCodeShare = 0.45

/** The label itself, and within it what may be printed on. */
export type LabelRoom = { outer: Box; inside: Box }

const rightOf = (box: Box) => box.x + box.width
const footOf = (box: Box) => box.y + box.height

/**
 * How large one square of a code comes out: the code itself within what may be printed on, its quiet zone within the label, whose own
 * white edge serves for it.
 *
 * @param mostWidthMm  what code and quiet zone may take of the width
 */
export function squareSideMm(squares: number, { outer, inside }: LabelRoom, mostWidthMm: number): number {
  const half = squares + quietSquares
  const all = squares + 2 * quietSquares
  return Math.min(
    inside.height / squares,
    outer.height / all,
    (footOf(outer) - inside.y) / half,
    (footOf(inside) - outer.y) / half,
    mostWidthMm / all,
    largestCodeMm / all,
  )
}

export const mostCodeWidthMm = ({ outer }: LabelRoom): number => outer.width * mostCodeShare

/** The sizes of a label's two parts, by the height there is. */
export function typeSizes(heightMm: number): { noteMm: number; noteLines: number; titleMm: number } {
  const noteMm = heightMm < 5.5 ? 0 : Math.min(3.6, Math.max(1.8, heightMm * 0.15))
  return {
    noteMm,
    noteLines: noteMm === 0 ? 0 : heightMm >= 16 ? 2 : 1,
    titleMm: Math.min(largestTitleMm, (heightMm - noteMm * leading) / leading),
  }
}

/** Where the words of a label begin, and its code if it is large enough to be read. */
export function placeCode(
  code: LabelCode,
  room: LabelRoom,
  mostWidthMm: number,
): { mark: Extract<Mark, { kind: 'squares' }>; wordsX: number } | null {
  const { outer, inside } = room
  const sideMm = squareSideMm(code.squares, room, mostWidthMm)
  if (sideMm < leastSquareMm) return null
  const quietMm = quietSquares * sideMm
  const x = Math.max(inside.x, outer.x + quietMm)
  const highest = Math.max(inside.y, outer.y + quietMm)
  const lowest = Math.min(footOf(inside), footOf(outer) - quietMm)
  const y = (highest + lowest - code.squares * sideMm) / 2
  return {
    mark: { kind: 'squares', x, y, sideMm, runs: code.runs },
    wordsX: x + code.squares * sideMm + quietMm,
  }
}

/**
 * One label: its code at the left, where it comes out large enough to be read; beside it the title as large as fits, in as many lines as
 * that takes; the note below. Nothing is drawn outside `inside`.
 */
export function labelFace(
  label: Pick<Label, 'title' | 'note'>,
  code: LabelCode,
  room: LabelRoom,
  measure: Measure,
  mostWidthMm = mostCodeWidthMm(room),
): { marks: Mark[]; hasCode: boolean } {
  const { inside } = room
  const placed = placeCode(code, room, mostWidthMm)
  const x = Math.max(inside.x, placed?.wordsX ?? inside.x)
  const width = rightOf(inside) - x
  const { noteMm, noteLines, titleMm } = typeSizes(inside.height)
  const noteStyle = { size: noteMm }
  const note = label.note && noteLines > 0 ? wrapWords(label.note, width, noteStyle, measure, noteLines) : []
  const noteHeightMm = note.length * noteMm * leading
  const title = largestTitle(label.title, width, inside.height - noteHeightMm, titleMm, measure)
  const titleHeightMm = title.lines.length * title.size * leading
  const top = inside.y + Math.max(0, (inside.height - titleHeightMm - noteHeightMm) / 2)
  return {
    hasCode: placed !== null,
    marks: [
      ...(placed ? [placed.mark] : []),
      ...title.lines.map(
        (text, at): Mark => ({
          ...{ kind: 'words', x, y: top + (at * leading + baseline) * title.size, text },
          ...{ size: title.size, isBold: true },
        }),
      ),
      ...note.map(
        (text, at): Mark => ({
          ...{ kind: 'words', x, y: top + titleHeightMm + (at * leading + baseline) * noteMm, text },
          ...noteStyle,
        }),
      ),
    ],
  }
}

/** The largest size at which the words fit without one of them being broken; at the smallest, as much of them as there is room for. */
function largestTitle(
  text: string,
  width: number,
  height: number,
  largest: number,
  measure: Measure,
): { lines: string[]; size: number } {
  const longestEms = Math.max(
    ...tidyWords(text)
      .split(' ')
      .map((word) => measure({ text: word, size: 1, isBold: true })),
  )
  const linesAt = (size: number): string[] | null => {
    if (longestEms * size > width) return null
    const lines = wrapWords(text, width, { size, isBold: true }, measure)
    return lines.length * size * leading <= height + 1e-9 ? lines : null
  }
  const steps = Math.max(0, Math.floor(Math.log(smallestTitleMm / largest) / Math.log(sizeStep)))
  let [fits, tooLarge] = [steps + 1, -1]
  while (fits - tooLarge > 1) {
    const middle = Math.floor((fits + tooLarge) / 2)
    if (linesAt(largest * sizeStep ** middle)) fits = middle
    else tooLarge = middle
  }
  const size = fits > steps ? Math.min(largest, smallestTitleMm) : largest * sizeStep ** fits
  const most = Math.max(1, Math.floor(height / (size * leading)))
  return { size, lines: linesAt(size) ?? wrapWords(text, width, { size, isBold: true }, measure, most) }
}
