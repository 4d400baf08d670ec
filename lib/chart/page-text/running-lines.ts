import type { TextPage } from './page-text'
import type { Piece } from './pieces'
import { rowsOf, runsOf } from './rows'

/** Of a page's height: what stands further from its upper or lower edge is no running line. */
const margin = 0.09

/**
 * The pieces of pages without the lines that run along their upper or lower edge: one that is the same on two pages but for the page it
 * counts is left out of both, one that is quite the same stays on the first.
 */
export function withoutRunningLines(pages: readonly { page: TextPage; pieces: Piece[]; height: number }[]): Piece[][] {
  const lines = pages.map(({ page, pieces, height }) =>
    rowsOf(
      pieces.filter(({ box }) => box.bottom < page.heightPt * margin || box.top > page.heightPt * (1 - margin)),
      height,
    )
      // The header of a table that goes on is no running line.
      .filter((row) => runsOf(row, height).length < 3)
      .map((row) => {
        const text = row.pieces.map((piece) => piece.text).join(' ')
        return { row, text, shape: text.replace(/\d+/g, '#'), isUpper: row.centre < page.heightPt / 2 }
      }),
  )
  const seen = new Map<string, { texts: Set<string>; pages: number; first: number }>()
  for (const [at, onPage] of lines.entries()) {
    for (const key of new Set(onPage.map(({ shape, isUpper }) => `${isUpper} ${shape}`))) {
      const texts = onPage.filter(({ shape, isUpper }) => `${isUpper} ${shape}` === key).map(({ text }) => text)
      const before = seen.get(key) ?? { texts: new Set(), pages: 0, first: at }
      for (const text of texts) before.texts.add(text)
      before.pages += 1
      seen.set(key, before)
    }
  }
  return pages.map(({ pieces }, at) => {
    const gone = new Set<Piece>()
    for (const { row, shape, isUpper } of lines[at] ?? []) {
      const running = seen.get(`${isUpper} ${shape}`)
      if (!running || running.pages < 2) continue
      const counts = running.texts.size > 1
      if (counts || running.first !== at) for (const piece of row.pieces) gone.add(piece)
    }
    return gone.size === 0 ? pieces : pieces.filter((piece) => !gone.has(piece))
  })
}
