import type { PlacedWord, SourceLine, TextPage } from '#lib/chart/page-text/page-text'

/** Type of ten points: half a size to a letter, which is about what letters take. */
export const sizePt = 10

/** A run of words whose letters begin at `left` and stand on a line whose middle is `middle`. */
export const at = (left: number, middle: number, text: string, certainty = 1): PlacedWord => ({
  text,
  certainty,
  box: { left, right: left + text.length * 0.5 * sizePt, top: middle - sizePt / 2, bottom: middle + sizePt / 2 },
})

/** Rows of cells in columns that begin at `lefts`, one row every `step`; an empty cell has no word. */
export const tableAt = (lefts: readonly number[], top: number, rows: readonly (readonly string[])[], step = 16): PlacedWord[] =>
  rows.flatMap((row, line) =>
    row.flatMap((text, column) => (text === '' ? [] : [at(lefts[column] as number, top + line * step, text)])),
  )

export const aPage = (...words: PlacedWord[][]): TextPage => ({ widthPt: 595, heightPt: 842, words: words.flat() })

/** As the lines are said: cells parted by a stroke. */
export const said = (lines: readonly SourceLine[]): string[] =>
  lines.map(({ cells }) => cells.map(({ text }) => text).join(' | '))

/** Turned about the upper left corner, clockwise, boxes kept as high as they were. */
export const turned = (page: TextPage, degrees: number): TextPage => {
  const slope = Math.tan((degrees * Math.PI) / 180)
  return {
    ...page,
    words: page.words.map((word) => {
      const by = ((word.box.left + word.box.right) / 2) * slope
      return { ...word, box: { ...word.box, top: word.box.top + by, bottom: word.box.bottom + by } }
    }),
  }
}
