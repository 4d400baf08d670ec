import { ok, type Result, refused } from '#lib/result'
import { type CutNode, nodesOf } from '../cloth/cut-plan'
import { layBlocks } from './blocks'
import { joinLines, wantedWords, warpArrow } from './cut-drawing'
import { type CutSheet, type CutSheetPiece, drawingEmMm } from './cut-sheet'
import { labelArea, placeRings } from './drawing-labels'
import { shorten } from './fit-words'
import { flowRows } from './flow'
import { pageHead, withFeet } from './head-and-foot'
import { type Box, type Mark, type Measure, type PrintedPage, shift } from './mark'
import { above, below, type Paper, type Sheet, sheetOf } from './page'
import { planTiles, type Tile, type Tiling } from './tiles'
import { drawTrueLength, trueLengthHeightMm } from './true-length'

/** How far a sheet of a pattern lies over its neighbour. */
export const overlapMm = 10
/** More sheets than this are not worth sticking together. */
export const mostTiles = 60

export type TooManySheets = { kind: 'too-many-sheets'; sheets: number; mostSheets: number }

/** A part, where it lies, and what stands in it: as much of each choice as there is room for. */
type Outlined = { box: Box; choices: string[][] }

/**
 * A plan in actual size: for each piece a map of its sheets, then the sheets, each with its own bar of true length. The right and lower
 * edge of a sheet repeat what its neighbours show, with crosses that come to lie on one another.
 */
export function cutPatternPages(sheet: CutSheet, paper: Paper, measure: Measure): Result<PrintedPage[], TooManySheets> {
  const page = sheetOf(paper)
  const window = tileWindow(page)
  const tilings = sheet.pieces.map(({ layout: { root } }) =>
    planTiles(
      { widthMm: root.widthUm / 1000, heightMm: root.heightUm / 1000 },
      { widthMm: window.width, heightMm: window.height },
      overlapMm,
    ),
  )
  const sheets = tilings.reduce((sum, { tiles }) => sum + tiles.length, 0)
  if (sheets > mostTiles) return refused({ kind: 'too-many-sheets', sheets, mostSheets: mostTiles })
  const pages = sheet.pieces.flatMap((piece, at) => {
    const tiling = tilings[at] as Tiling
    const parts = outlineParts(piece)
    return [
      mapPage(sheet, piece, page, tiling, parts, measure),
      ...tiling.tiles.map((tile) => tilePage(sheet, piece, page, tile, tiling, parts, measure)),
    ]
  })
  return ok(withFeet(pages, { text: sheet.footer, pageOf: sheet.words.pageOf }, measure))
}

const tileStyle = { size: 3, isBold: true }

/** Where on a sheet the picture is: beneath it a line of words and the bars. */
const tileWindow = (page: Sheet): Box => above(page.inside, trueLengthHeightMm + 12)

/** All parts in millimetres from the piece's upper left corner. */
function outlineParts({ layout, drawing }: CutSheetPiece): Outlined[] {
  const { root } = layout
  let offcuts = 0
  const choicesOf = (node: CutNode): string[][] => {
    const size = drawing.size(node)
    if (node.kind === 'waste') return [[drawing.waste]]
    if (node.kind === 'offcut') return [[drawing.offcut(++offcuts), size], [String(offcuts)]]
    if (node.kind !== 'wanted') return []
    return wantedWords(node, drawing)
  }
  return [...nodesOf(root)]
    .filter(({ kind }) => kind !== 'cut')
    .map((node) => ({
      choices: choicesOf(node),
      box: {
        x: node.xUm / 1000,
        y: (root.heightUm - node.yUm - node.heightUm) / 1000,
        width: node.widthUm / 1000,
        height: node.heightUm / 1000,
      },
    }))
}

function tilePage(
  sheet: CutSheet,
  piece: CutSheetPiece,
  page: Sheet,
  tile: Tile,
  tiling: Tiling,
  parts: readonly Outlined[],
  measure: Measure,
): PrintedPage {
  const window = tileWindow(page)
  const { root } = piece.layout
  const seen: Box = { x: tile.xMm, y: tile.yMm, width: window.width, height: window.height }
  const lines = piece.steps.flatMap(({ number, lines: cuts }) =>
    joinLines(cuts).map((line) => ({
      number,
      x1: line.x1Um / 1000,
      y1: (root.heightUm - line.y1Um) / 1000,
      x2: line.x2Um / 1000,
      y2: (root.heightUm - line.y2Um) / 1000,
    })),
  )
  const labels = parts.flatMap(({ choices, box }) => {
    const part = common(box, seen)
    return part ? (labelArea(part, choices, 1.3 * drawingEmMm, measure)?.marks ?? []) : []
  })
  // A number on each piece of a line that this sheet shows.
  const shown = lines.flatMap((line) => {
    const [x1, x2] = [Math.max(line.x1, seen.x), Math.min(line.x2, seen.x + seen.width)]
    const [y1, y2] = [Math.max(Math.min(line.y1, line.y2), seen.y), Math.min(Math.max(line.y1, line.y2), seen.y + seen.height)]
    return x2 - x1 + y2 - y1 > 8 && x2 >= x1 && y2 >= y1 ? [{ ...line, x1, y1, x2, y2 }] : []
  })
  const beyond: Box = { x: -1e6, y: -1e6, width: 2e6, height: 2e6 }
  const picture: Mark[] = [
    ...parts.map(({ box }): Mark => ({ kind: 'box', ...box, stroke: { ink: 'ink', width: 0.3 } })),
    { kind: 'box', x: 0, y: 0, width: root.widthUm / 1000, height: root.heightUm / 1000, stroke: { ink: 'ink', width: 0.5 } },
    ...lines.flatMap(({ x1, y1, x2, y2 }): Mark[] => [
      { kind: 'line', x1, y1, x2, y2, stroke: { ink: 'paper', width: 0.7 } },
      { kind: 'line', x1, y1, x2, y2, stroke: { ink: 'madder', width: 0.4, dashes: [4, 2] } },
    ]),
    ...labels,
    ...placeRings(shown, beyond, [], 1.3 * drawingEmMm),
    ...crosses(tile, tiling, window),
  ]
  const foot = window.y + window.height
  return {
    widthMm: page.widthMm,
    heightMm: page.heightMm,
    marks: [
      { kind: 'window', box: window, marks: picture.map((mark) => shift(mark, window.x - tile.xMm, window.y - tile.yMm)) },
      { kind: 'box', ...window, stroke: { ink: 'edge', width: 0.2 } },
      ...joins(sheet, tile, tiling, window),
      {
        kind: 'words',
        x: window.x,
        y: foot + 4.2,
        text: shorten(`${sheet.words.tile(tile.number, tiling.tiles.length)} · ${piece.title}`, window.width, tileStyle, measure),
        ...tileStyle,
      },
      ...drawTrueLength({ x: window.x, y: foot + 6 }, sheet.words.trueLength, window.width - 14, measure),
      ...warpArrow({ x: window.x + window.width - 6, y: foot + 6 }, piece.drawing.warp, drawingEmMm),
    ],
  }
}

function common(one: Box, other: Box): Box | null {
  const x = Math.max(one.x, other.x)
  const y = Math.max(one.y, other.y)
  const width = Math.min(one.x + one.width, other.x + other.width) - x
  const height = Math.min(one.y + one.height, other.y + other.height) - y
  return width > 0 && height > 0 ? { x, y, width, height } : null
}

/** In the middle of each overlap a cross a third of the way along: on both sheets at the same point of the picture. */
function crosses(tile: Tile, { columns, rows }: Tiling, window: Box): Mark[] {
  const points: [number, number][] = []
  const half = overlapMm / 2
  for (const part of [1 / 3, 2 / 3]) {
    const [x, y] = [tile.xMm + window.width * part, tile.yMm + window.height * part]
    if (tile.column > 0) points.push([tile.xMm + half, y])
    if (tile.column < columns - 1) points.push([tile.xMm + window.width - half, y])
    if (tile.row > 0) points.push([x, tile.yMm + half])
    if (tile.row < rows - 1) points.push([x, tile.yMm + window.height - half])
  }
  return points.map(([x, y]) => ({
    kind: 'lines',
    stroke: { ink: 'ink', width: 0.2 },
    lines: [
      [x - 3, y, x + 3, y],
      [x, y - 3, x, y + 3],
    ],
  }))
}

/** Where the next sheets come to lie, and which they are. */
function joins({ words }: CutSheet, tile: Tile, { columns, rows }: Tiling, window: Box): Mark[] {
  const stroke = { ink: 'edge', width: 0.2, dashes: [1.5, 1.5] } as const
  const [x, y] = [window.x + window.width - overlapMm, window.y + window.height - overlapMm]
  const [right, foot] = [window.x + window.width, window.y + window.height]
  const style = { size: 2.6, ink: 'ink-2' } as const
  return [
    ...(tile.column < columns - 1
      ? ([
          { kind: 'line', x1: x, y1: window.y, x2: x, y2: foot, stroke },
          {
            kind: 'words',
            x: right - 1.2,
            y: window.y + window.height * 0.2,
            text: words.joins.right(tile.number + 1),
            isStanding: true,
            ...style,
          },
        ] as const)
      : []),
    ...(tile.row < rows - 1
      ? ([
          { kind: 'line', x1: window.x, y1: y, x2: right, y2: y, stroke },
          { kind: 'words', x: window.x + 3, y: foot - 1.2, text: words.joins.below(tile.number + columns), ...style },
        ] as const)
      : []),
  ]
}

/** Which sheet lies where. */
function mapPage(
  sheet: CutSheet,
  piece: CutSheetPiece,
  page: Sheet,
  tiling: Tiling,
  parts: readonly Outlined[],
  measure: Measure,
): PrintedPage {
  const window = tileWindow(page)
  const header = pageHead(sheet.title, [piece.title, piece.subtitle], page.inside.width, measure)
  const inside = above(below(page.inside, header.heightMm), trueLengthHeightMm + 8)
  const texts = sheet.words.patternSteps(tiling.tiles.length, overlapMm)
  const blocks = texts.map((text, at) => ({ kind: 'step', number: String(at + 1), text, notes: [] }) as const)
  const rows = layBlocks(blocks, inside.width, measure)
  const rowsMm = rows.reduce((sum, row) => sum + row.heightMm, 0) + 4
  const room = below(inside, rowsMm)
  const widthMm = Math.max(...tiling.tiles.map(({ xMm }) => xMm)) + window.width
  const heightMm = Math.max(...tiling.tiles.map(({ yMm }) => yMm)) + window.height
  const scale = Math.min(room.width / widthMm, room.height / heightMm, 0.5)
  const small = (box: Box): Box => ({
    x: room.x + box.x * scale,
    y: room.y + box.y * scale,
    width: box.width * scale,
    height: box.height * scale,
  })
  return {
    widthMm: page.widthMm,
    heightMm: page.heightMm,
    marks: [
      ...header.marks.map((mark) => shift(mark, page.inside.x, page.inside.y)),
      ...(flowRows(rows, () => inside)[0] ?? []),
      ...parts.flatMap(({ choices, box }): Mark[] => [
        { kind: 'box', ...small(box), stroke: { ink: 'ink', width: 0.3 } },
        ...(labelArea(small(box), choices, drawingEmMm, measure)?.marks ?? []),
      ]),
      ...tiling.tiles.flatMap(({ number, xMm, yMm }): Mark[] => {
        const tile = small({ x: xMm, y: yMm, width: window.width, height: window.height })
        return [
          { kind: 'box', ...tile, stroke: { ink: 'madder', width: 0.25, dashes: [1.5, 1] } },
          { kind: 'words', x: tile.x + 1.5, y: tile.y + 4.5, text: String(number), size: 4, isBold: true, ink: 'madder' },
        ]
      }),
      ...drawTrueLength(
        { x: page.inside.x, y: page.inside.y + page.inside.height - trueLengthHeightMm - 6 },
        sheet.words.trueLength,
        page.inside.width,
        measure,
      ),
    ],
  }
}
