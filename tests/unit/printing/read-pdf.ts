import { getDocument, OPS } from '#tests/pdfjs'

/** In millimetres from the page's upper left corner, y down, as a ruler on the paper would say. */
type Box = { x: number; y: number; width: number; height: number }
type Segment = { x1: number; y1: number; x2: number; y2: number; colour: string; isDashed: boolean }
export type ReadPage = {
  widthMm: number
  heightMm: number
  /** Rectangles whose outline is drawn. */
  boxes: (Box & { colour: string })[]
  segments: Segment[]
  /** Rectangles that are filled. */
  fills: (Box & { colour: string })[]
  words: { text: string; x: number; y: number; width: number; isLevel: boolean }[]
}

type Matrix = [number, number, number, number, number, number]
const mmPerPoint = 25.4 / 72
/** How a path is written down by the reader: what follows is so many figures. */
const [moveTo, lineTo, curveTo, closePath] = [0, 1, 2, 4]

const times = (m: Matrix, n: Matrix): Matrix => [
  m[0] * n[0] + m[2] * n[1],
  m[1] * n[0] + m[3] * n[1],
  m[0] * n[2] + m[2] * n[3],
  m[1] * n[2] + m[3] * n[3],
  m[0] * n[4] + m[2] * n[5] + m[4],
  m[1] * n[4] + m[3] * n[5] + m[5],
]

/** What is really on the pages of a PDF, by another program than the one that wrote it. */
export async function readPdf(bytes: Uint8Array): Promise<{ pages: ReadPage[]; info: Record<string, unknown> }> {
  const document = await getDocument({ data: new Uint8Array(bytes), verbosity: 0 }).promise
  const pages: ReadPage[] = []
  for (let number = 1; number <= document.numPages; number++) {
    const page = await document.getPage(number)
    const [, , width = 0, height = 0] = page.view
    const { fnArray, argsArray } = await page.getOperatorList()
    const read: ReadPage = {
      widthMm: width * mmPerPoint,
      heightMm: height * mmPerPoint,
      boxes: [],
      segments: [],
      fills: [],
      words: [],
    }
    let state = { matrix: [1, 0, 0, 1, 0, 0] as Matrix, colour: '', fill: '', isDashed: false }
    const saved: (typeof state)[] = []
    for (const [at, operation] of fnArray.entries()) {
      const args = argsArray[at]
      if (operation === OPS.save) saved.push(state)
      else if (operation === OPS.restore) state = saved.pop() ?? state
      else if (operation === OPS.transform) state = { ...state, matrix: times(state.matrix, args as Matrix) }
      else if (operation === OPS.setStrokeRGBColor) state = { ...state, colour: String(args[0]) }
      else if (operation === OPS.setFillRGBColor) state = { ...state, fill: String(args[0]) }
      else if (operation === OPS.setDash) state = { ...state, isDashed: args[0].length > 0 }
      else if (operation === OPS.constructPath && args[0] === OPS.stroke) {
        for (const points of readPath(args[1][0])) addPath(read, points, state, height)
      } else if (operation === OPS.constructPath && args[0] === OPS.fill) {
        for (const points of readPath(args[1][0])) {
          read.fills.push({ ...boxOf(onPaper(points, state.matrix, height)), colour: state.fill })
        }
      }
    }
    for (const item of (await page.getTextContent()).items) {
      if (!('str' in item) || item.str.trim() === '') continue
      const [, slant, , , x, y] = item.transform as Matrix
      read.words.push({
        text: item.str,
        x: x * mmPerPoint,
        y: (height - y) * mmPerPoint,
        width: item.width * mmPerPoint,
        isLevel: Math.abs(slant) < 1e-6,
      })
    }
    pages.push(read)
  }
  const { info } = await document.getMetadata()
  await document.destroy()
  return { pages, info: info as Record<string, unknown> }
}

/** The corners of each part of a path; a part with a curve in it is left out. */
function readPath(figures: Float32Array): [number, number][][] {
  const parts: { points: [number, number][]; isStraight: boolean }[] = []
  for (let at = 0; at < figures.length; ) {
    const kind = figures[at]
    const count = kind === moveTo || kind === lineTo ? 2 : kind === curveTo ? 6 : kind === closePath ? 0 : Number.NaN
    if (Number.isNaN(count)) throw new Error(`readPath: ${kind}`)
    if (kind === moveTo) parts.push({ points: [], isStraight: true })
    const part = parts.at(-1)
    if (kind === curveTo && part) part.isStraight = false
    if (count === 2) part?.points.push([figures[at + 1] as number, figures[at + 2] as number])
    at += count + 1
  }
  return parts.flatMap(({ points, isStraight }) => (isStraight ? [points] : []))
}

function addPath(
  read: ReadPage,
  path: [number, number][],
  { matrix, colour, isDashed }: { matrix: Matrix; colour: string; isDashed: boolean },
  height: number,
): void {
  const points = onPaper(path, matrix, height)
  const [first, second] = points
  if (!first || !second) return
  if (points.length === 2) {
    read.segments.push({ x1: first.x, y1: first.y, x2: second.x, y2: second.y, colour, isDashed })
    return
  }
  read.boxes.push({ ...boxOf(points), colour })
}

const onPaper = (path: [number, number][], [a, b, c, d, e, f]: Matrix, height: number): { x: number; y: number }[] =>
  path.map(([x, y]) => ({ x: (a * x + c * y + e) * mmPerPoint, y: (height - (b * x + d * y + f)) * mmPerPoint }))

function boxOf(points: readonly { x: number; y: number }[]): Box {
  const xs = points.map(({ x }) => x)
  const ys = points.map(({ y }) => y)
  const [x, y] = [Math.min(...xs), Math.min(...ys)]
  return { x, y, width: Math.max(...xs) - x, height: Math.max(...ys) - y }
}
