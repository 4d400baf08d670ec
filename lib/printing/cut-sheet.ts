import type { CutBox, CutLayout } from '../cloth/cut-plan'
import type { CutStep } from '../cloth/cut-steps'
import { type Block, layBlocks } from './blocks'
import { type CutDrawingWords, drawCut, roomForPiece, type WantedPart } from './cut-drawing'
import { shorten } from './fit-words'
import { flowRows } from './flow'
import { footMm, pageHead, withFeet } from './head-and-foot'
import { type Box, type Mark, type Measure, type PrintedPage, shift } from './mark'
import { above, below, type Paper, type Sheet, sheetOf } from './page'
import { largestScale } from './scale'
import { drawTrueLength, trueLengthHeightMm } from './true-length'

/** A piece of a plan, and all that is said of it. */
export type CutSheetPiece = {
  layout: CutLayout
  steps: readonly CutStep[]
  title: string
  subtitle: string
  drawing: CutDrawingWords
  stitchedIn?: ((part: WantedPart) => CutBox | null) | undefined
  /** Below the drawing and on the pages after it. */
  blocks: readonly Block[]
}

/** A plan as it is printed, in words; where and how large, the pages below decide. */
export type CutSheet = {
  title: string
  /** At the foot of every page, beside its number. */
  footer: string
  pieces: readonly CutSheetPiece[]
  /** What one unit of the drawings' rulers is. */
  umPerRulerUnit: number
  words: CutSheetWords
}

export type CutSheetWords = {
  /** How a drawing is to be read, by its scale: "Drawn 1 : 4." */
  drawnAt: (scale: number) => string
  /** Beside the bars of true length; the first line is in bold. */
  trueLength: readonly string[]
  pageOf: (page: number, pages: number) => string
  /** On the sheets of a pattern in actual size. */
  tile: (tile: number, tiles: number) => string
  joins: { right: (tile: number) => string; below: (tile: number) => string }
  /** How the sheets of a pattern are put together, beside their map. */
  patternSteps: (sheets: number, overlapMm: number) => readonly string[]
}

/** Size of the type of a drawing, about 7½ points. */
export const drawingEmMm = 2.6

/**
 * A plan on paper: for each piece a page with its drawing, at the largest of the usual scales the page has room for, and two bars of true
 * length; then, below it or on further pages, what there is to say of it. A piece lies on its side where it comes out larger so.
 */
export function cutSheetPages(sheet: CutSheet, paper: Paper, measure: Measure): PrintedPage[] {
  const pages = sheet.pieces.flatMap((piece) => {
    const [upright, lying] = [false, true].map((isLying) => planPage(sheet, piece, sheetOf(paper, isLying), measure)) as [
      PiecePage,
      PiecePage,
    ]
    return piecePages(sheet, piece, lying.scale < upright.scale ? lying : upright, measure)
  })
  return withFeet(pages, { text: sheet.footer, pageOf: sheet.words.pageOf }, measure)
}

type PiecePage = { page: Sheet; header: { marks: Mark[]; heightMm: number }; room: Box; scale: number }

function planPage(sheet: CutSheet, piece: CutSheetPiece, page: Sheet, measure: Measure): PiecePage {
  const header = pageHead(sheet.title, [piece.title, piece.subtitle], page.inside.width, measure)
  const inside = above(below(page.inside, header.heightMm), footMm)
  const room = above(below(inside, 6), trueLengthHeightMm)
  const { widthUm, heightUm } = piece.layout.root
  const scale = largestScale({ width: widthUm / 1000, height: heightUm / 1000 }, roomForPiece(room, drawingEmMm))
  return { page, header, room, scale }
}

function piecePages(sheet: CutSheet, piece: CutSheetPiece, plan: PiecePage, measure: Measure): PrintedPage[] {
  const { page, header, room, scale } = plan
  const drawing = drawCut({
    ...piece,
    words: piece.drawing,
    umPerRulerUnit: sheet.umPerRulerUnit,
    perUm: 1 / (1000 * scale),
    em: drawingEmMm,
    measure,
  })
  const inside = above(page.inside, footMm)
  const frameAt = (at: number): Box => (at === 0 ? below(room, drawing.height + 1) : below(inside, header.heightMm))
  const flowed = flowRows(layBlocks(piece.blocks, page.inside.width, measure), frameAt)
  const drawnAt = { text: shorten(sheet.words.drawnAt(scale), room.width, { size: 3 }, measure), size: 3 }
  return flowed.map((marks, at) => ({
    widthMm: page.widthMm,
    heightMm: page.heightMm,
    marks: [
      ...header.marks.map((mark) => shift(mark, page.inside.x, page.inside.y)),
      ...(at > 0
        ? []
        : [
            { kind: 'words', x: room.x, y: room.y - 2.2, ...drawnAt, ink: 'ink-2' } as const,
            ...drawing.marks.map((mark) => shift(mark, room.x, room.y)),
            ...drawTrueLength({ x: room.x, y: room.y + room.height }, sheet.words.trueLength, room.width, measure),
          ]),
      ...marks,
    ],
  }))
}
