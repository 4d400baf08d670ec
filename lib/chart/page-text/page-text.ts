/** Where something stands on a page: in points (1/72 in), or in pixels of the picture it was read from; from the upper left corner. */
export type PageBox = { left: number; top: number; right: number; bottom: number }

/** A word, or a run of words without a wide gap, and how sure the reading is: 1 where it was typed or came with the file, less where it was read from a picture. */
export type PlacedWord = { text: string; box: PageBox; certainty: number }

/** One page as words in their places; `rules` are the straight lines of a table, where any were found. */
export type TextPage = {
  widthPt: number
  heightPt: number
  words: PlacedWord[]
  rules?: { vertical: PageBox[]; horizontal: PageBox[] }
}

/** A cell of a line of text. `certainty` is that of its least certain word. */
export type SourceCell = { text: string; certainty: number; box: PageBox | null }

/**
 * One line to be read, in reading order: pasted text gives a cell for each tab or wide gap, a page gives one for each column of its table. A
 * name that was wrapped over two lines is one line here.
 *
 * @see layLines for pages, splitText for pasted text
 */
export type SourceLine = { page: number; cells: SourceCell[] }

/** The line as one string, its cells apart by a tab. */
export const lineText = ({ cells }: SourceLine): string => cells.map(({ text }) => text).join('\t')
