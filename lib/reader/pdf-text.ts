import type { PlacedWord, TextPage } from '#lib/chart/page-text/page-text'

type Matrix = [number, number, number, number, number, number]

/** A run of text as the file holds it: its matrix sets it on the page, its width is in the page's points. */
export type TextRun = { text: string; transform: Matrix; width: number }

const product = (m: Matrix, n: Matrix): Matrix => [
  m[0] * n[0] + m[2] * n[1],
  m[1] * n[0] + m[3] * n[1],
  m[0] * n[2] + m[2] * n[3],
  m[1] * n[2] + m[3] * n[3],
  m[0] * n[4] + m[2] * n[5] + m[4],
  m[1] * n[4] + m[3] * n[5] + m[5],
]

/** Of the type's size: how far a line's box reaches above its baseline, and below. */
const aboveBaseline = 0.76
const belowBaseline = 0.24

/**
 * Text runs as words in their places, upright: where most of a page's letters run up, down or head over, the page is turned so that they
 * do not. What runs another way than most (a note up the margin) is left out.
 *
 * @param page  Its size in points as it is shown, and the matrix that shows it.
 */
export function pageFromText(runs: readonly TextRun[], page: { width: number; height: number; transform: Matrix }): TextPage {
  const placed = runs.flatMap(({ text, transform, width }) => {
    const matrix = product(page.transform, transform)
    const size = Math.hypot(matrix[2], matrix[3])
    if (text === '' || !(size > 0.5) || !matrix.every(Number.isFinite) || !Number.isFinite(width)) return []
    const quarter = Math.round(Math.atan2(matrix[1], matrix[0]) / (Math.PI / 2))
    return [{ text, width: Math.abs(width), size, quarter: ((quarter % 4) + 4) % 4, x: matrix[4], y: matrix[5] }]
  })
  const letters = [0, 0, 0, 0]
  for (const { text, quarter } of placed) letters[quarter] = (letters[quarter] as number) + text.trim().length
  const turned = letters.indexOf(Math.max(...letters))
  const isSideways = turned % 2 === 1
  const [widthPt, heightPt] = isSideways ? [page.height, page.width] : [page.width, page.height]
  const words = placed
    .filter(({ quarter, text }) => quarter === turned && text.trim() !== '')
    .map(({ text, width, size, x, y }): PlacedWord => {
      const [left, baseline] = [
        [x, y],
        [y, page.width - x],
        [page.width - x, page.height - y],
        [page.height - y, x],
      ][turned] as [number, number]
      return {
        text,
        certainty: 1,
        box: { left, right: left + width, top: baseline - size * aboveBaseline, bottom: baseline + size * belowBaseline },
      }
    })
  return { widthPt, heightPt, words }
}
