import { shorten, wrapWords } from './fit-words'
import type { Mark, Measure, PrintedPage } from './mark'
import { marginMm } from './page'

/** A page's head from its own upper left corner: a title of at most two lines, each line below it of one, closed by a rule. */
export function pageHead(
  title: string,
  lines: readonly string[],
  widthMm: number,
  measure: Measure,
): { marks: Mark[]; heightMm: number } {
  const style = { size: 5, isBold: true }
  const titles = wrapWords(title, widthMm, style, measure, 2)
  const under = lines.filter(Boolean).map((line, at) => {
    const lineStyle = { size: 3.4, isBold: at === 0 }
    return { ...lineStyle, text: shorten(line, widthMm, lineStyle, measure) }
  })
  const underMm = titles.length * 6.6
  const heightMm = underMm + under.length * 4.9 + 3.4
  return {
    heightMm,
    marks: [
      ...titles.map((text, at): Mark => ({ kind: 'words', x: 0, y: 5 + at * 6.6, text, ...style })),
      ...under.map((line, at): Mark => ({ kind: 'words', x: 0, y: underMm + 3.6 + at * 4.9, ...line })),
      { kind: 'line', x1: 0, y1: heightMm - 1.8, x2: widthMm, y2: heightMm - 1.8, stroke: { ink: 'ink', width: 0.5 } },
    ],
  }
}

/** How high the foot of a page is, with the white above it. */
export const footMm = 7

/** The pages, each with a text and its number at the foot, on the lower margin. */
export function withFeet(
  pages: readonly PrintedPage[],
  foot: { text: string; pageOf: (page: number, pages: number) => string },
  measure: Measure,
): PrintedPage[] {
  const style = { size: 2.7 }
  return pages.map(({ widthMm, heightMm, marks }, at) => {
    const pageOf = foot.pageOf(at + 1, pages.length)
    const y = heightMm - marginMm
    const room = widthMm - 2 * marginMm - measure({ text: pageOf, ...style }) - 6
    return {
      widthMm,
      heightMm,
      marks: [
        ...marks,
        { kind: 'words', x: marginMm, y, text: shorten(foot.text, room, style, measure), ...style, ink: 'ink-2' },
        { kind: 'words', x: widthMm - marginMm, y, text: pageOf, ...style, anchor: 'end', ink: 'ink-2' },
      ],
    }
  })
}
