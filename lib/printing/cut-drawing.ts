import { type CutBox, type CutLayout, type CutNode, nodesOf } from '../cloth/cut-plan'
import { type CutLine, type CutStep, listOffcuts } from '../cloth/cut-steps'
import { labelArea, placeRings } from './drawing-labels'
import type { Box, Mark, Measure } from './mark'
import { listRulerMarks } from './ruler-marks'

export type WantedPart = Extract<CutNode, { kind: 'wanted' }>

/** All that is said on a drawing. */
export type CutDrawingWords = {
  /** Empty for a part that is known by its size alone. */
  nameOf: (part: WantedPart) => string
  letterOf: (wishId: string) => string
  size: (size: { widthUm: number; heightUm: number }) => string
  /** Along the piece's sides: "18 in, weft". */
  width: string
  height: string
  warp: string
  /** Beside the ruler. */
  unit: string
  offcut: (number: number) => string
  waste: string
}

export type CutDrawingInput = {
  layout: CutLayout
  steps: readonly CutStep[]
  words: CutDrawingWords
  /** What one unit of the ruler is. */
  umPerRulerUnit: number
  /** Where the stitches come within a part, from its lower left corner. */
  stitchedIn?: ((part: WantedPart) => CutBox | null) | undefined
  /** How long a micrometre is drawn. */
  perUm: number
  /** The size of the type: all that is not to scale goes by it. */
  em: number
  measure: Measure
}

/** What is kept free around the piece for dimensions, numbers, warp and ruler, in ems. */
const around = { left: 3.4, right: 6, top: 3.4, bottom: 5.4 }

/** The room a drawing leaves for the piece itself. */
export const roomForPiece = (room: { width: number; height: number }, em: number) => ({
  width: room.width - (around.left + around.right) * em,
  height: room.height - (around.top + around.bottom) * em,
})

/**
 * A piece of cloth as it is cut, to scale, head up: wanted parts plain with their names and sizes, offcuts woven, waste hatched, each cut
 * with the number of its step. A part too small for its name has its letter.
 *
 * @returns the marks, from the drawing's upper left corner, and where the piece lies among them.
 */
export function drawCut(input: CutDrawingInput): { width: number; height: number; piece: Box; marks: Mark[] } {
  const { layout, steps, words, perUm, em, measure } = input
  const { root } = layout
  const piece = { x: around.left * em, y: around.top * em, width: root.widthUm * perUm, height: root.heightUm * perUm }
  const boxOf = (box: CutBox): Box => ({
    x: piece.x + box.xUm * perUm,
    y: piece.y + (root.heightUm - box.yUm - box.heightUm) * perUm,
    width: box.widthUm * perUm,
    height: box.heightUm * perUm,
  })
  const nodes = [...nodesOf(root)]
  const numbers = new Map(listOffcuts(layout).map((offcut) => [`${offcut.xUm} ${offcut.yUm}`, offcut.number]))
  const ink = { ink: 'ink', width: em / 8 } as const

  const grounds: Mark[] = []
  const edges: Mark[] = []
  const labels: { marks: Mark[]; box: Box }[] = []
  const label = (box: Box, ...choices: readonly (readonly string[])[]) => {
    const labelled = labelArea(box, choices, em, measure)
    if (labelled) labels.push(labelled)
  }
  for (const node of nodes) {
    const box = boxOf(node)
    const size = words.size(node)
    if (node.kind === 'wanted') {
      edges.push({ kind: 'box', ...box, stroke: { ink: 'ink', width: em / 12 } })
      const stitched = input.stitchedIn?.(node)
      if (stitched) {
        const within = boxOf({ ...stitched, xUm: node.xUm + stitched.xUm, yUm: node.yUm + stitched.yUm })
        edges.push({ kind: 'box', ...within, stroke: { ink: 'edge', width: em / 16, dashes: [em / 6, em / 6] } })
      }
      label(box, ...wantedWords(node, words))
    } else if (node.kind === 'offcut') {
      const number = numbers.get(`${node.xUm} ${node.yUm}`) ?? 0
      grounds.push({ kind: 'lines', lines: weave(box, em / 2), stroke: { ink: 'hair', width: em / 12 } })
      edges.push({ kind: 'box', ...box, stroke: { ink: 'edge', width: em / 16 } })
      label(box, [words.offcut(number), size], [words.offcut(number)], [String(number)])
    } else if (node.kind === 'waste') {
      grounds.push({ kind: 'lines', lines: hatch(box, em / 3), stroke: { ink: 'edge', width: em / 24 } })
      // A strip too narrow for the word has its hatching.
      if (box.width > 5 * em && box.height > 1.9 * em) label(box, [words.waste])
    }
  }

  const cuts = steps.flatMap(({ number, lines }) =>
    joinLines(lines).map((line) => {
      const [from, to] = [boxOf(pointAt(line.x1Um, line.y1Um)), boxOf(pointAt(line.x2Um, line.y2Um))]
      return { number, x1: from.x, y1: from.y, x2: to.x, y2: to.y }
    }),
  )
  const rings = placeRings(
    cuts,
    piece,
    labels.map(({ box }) => box),
    em,
  )
  return {
    width: piece.x + piece.width + around.right * em,
    height: piece.y + piece.height + around.bottom * em,
    piece,
    marks: [
      { kind: 'box', ...piece, fill: 'paper' },
      ...grounds,
      ...edges,
      { kind: 'box', ...piece, stroke: ink },
      ...cuts.flatMap(({ x1, y1, x2, y2 }): Mark[] => [
        { kind: 'line', x1, y1, x2, y2, stroke: { ink: 'paper', width: em / 4 } },
        { kind: 'line', x1, y1, x2, y2, stroke: { ink: 'madder', width: em / 6, dashes: [em * 0.55, em / 3] } },
      ]),
      ...labels.flatMap(({ marks }) => marks),
      ...rings,
      ...dimensions(piece, words, em, measure),
      ...warpArrow({ x: piece.x + piece.width + 4.3 * em, y: piece.y }, words.warp, em),
      ...ruler(
        { x: piece.x, y: piece.y + piece.height + 3.1 * em },
        root.widthUm / input.umPerRulerUnit,
        input.umPerRulerUnit * perUm,
        words.unit,
        em,
      ),
    ],
  }
}

/** What may stand in a part, the fullest first. */
export function wantedWords(part: WantedPart, words: CutDrawingWords): string[][] {
  const [letter, name, size] = [words.letterOf(part.wishId), words.nameOf(part), words.size(part)]
  return [...(name ? [[`${letter} ${name}`, size]] : []), [letter, size], [letter]]
}

const pointAt = (xUm: number, yUm: number): CutBox => ({ xUm, yUm, widthUm: 0, heightUm: 0 })

/** Lines of one step that go on from one another, as the same cut through strips that lie side by side, drawn as one. */
export function joinLines(lines: readonly CutLine[]): CutLine[] {
  const joined: CutLine[] = []
  for (const line of [...lines].sort((a, b) => a.x1Um - b.x1Um || a.y1Um - b.y1Um)) {
    const isUp = line.x1Um === line.x2Um
    const before = joined.find((one) =>
      isUp
        ? one.x1Um === line.x1Um && one.x2Um === line.x1Um && one.y2Um === line.y1Um
        : one.y1Um === line.y1Um && one.y2Um === line.y1Um && one.x2Um === line.x1Um,
    )
    if (before) Object.assign(before, { x2Um: line.x2Um, y2Um: line.y2Um })
    else joined.push({ ...line })
  }
  return joined
}

type Segment = readonly [number, number, number, number]

/** Threads both ways: cloth that is left. */
function weave({ x, y, width, height }: Box, gap: number): Segment[] {
  const lines: Segment[] = []
  for (let at = gap / 2; at < width; at += gap) lines.push([x + at, y, x + at, y + height])
  for (let at = gap / 2; at < height; at += gap) lines.push([x, y + at, x + width, y + at])
  return lines
}

/** Lines at 45 degrees: what is thrown away. */
function hatch({ x, y, width, height }: Box, gap: number): Segment[] {
  const lines: Segment[] = []
  const step = gap * Math.SQRT2
  for (let sum = step / 2; sum < width + height; sum += step) {
    const left = Math.max(0, sum - height)
    const right = Math.min(width, sum)
    lines.push([x + left, y + sum - left, x + right, y + sum - right])
  }
  return lines
}

function dimensions(piece: Box, words: CutDrawingWords, em: number, measure: Measure): Mark[] {
  const stroke = { ink: 'edge', width: em / 12 } as const
  const [right, foot] = [piece.x + piece.width, piece.y + piece.height]
  const [y, x] = [piece.y - 1.8 * em, piece.x - 1.9 * em]
  const end = em / 3
  const across = measure({ text: words.width, size: em }) + em * 0.7
  const up = measure({ text: words.height, size: em }) + em * 0.7
  // Where the words are longer than the line they stand above it, and begin where the line does.
  const isWide = across < piece.width
  const isHigh = up < piece.height
  const [midX, midY] = [piece.x + piece.width / 2, piece.y + piece.height / 2]
  return [
    {
      kind: 'lines',
      stroke,
      lines: [
        [piece.x, y, right, y],
        [piece.x, y - end, piece.x, y + end],
        [right, y - end, right, y + end],
        [x, piece.y, x, foot],
        [x - end, piece.y, x + end, piece.y],
        [x - end, foot, x + end, foot],
      ],
    },
    ...(isWide
      ? [{ kind: 'box', x: midX - across / 2, y: y - 0.65 * em, width: across, height: 1.3 * em, fill: 'paper' } as const]
      : []),
    isWide
      ? { kind: 'words', x: midX, y: y + 0.34 * em, text: words.width, size: em, anchor: 'middle' }
      : { kind: 'words', x: piece.x, y: y - 0.6 * em, text: words.width, size: em },
    ...(isHigh ? [{ kind: 'box', x: x - 0.65 * em, y: midY - up / 2, width: 1.3 * em, height: up, fill: 'paper' } as const] : []),
    isHigh
      ? { kind: 'words', x: x + 0.34 * em, y: midY, text: words.height, size: em, anchor: 'middle', isStanding: true }
      : { kind: 'words', x: x - 0.5 * em, y: foot, text: words.height, size: em, isStanding: true },
  ]
}

export function warpArrow({ x, y }: { x: number; y: number }, text: string, em: number): Mark[] {
  const length = 3.2 * em
  return [
    {
      kind: 'lines',
      stroke: { ink: 'ink', width: em / 8 },
      lines: [
        [x, y + length, x, y],
        [x - 0.4 * em, y + 0.75 * em, x, y],
        [x + 0.4 * em, y + 0.75 * em, x, y],
      ],
    },
    { kind: 'words', x, y: y + length + 1.2 * em, text, size: em, anchor: 'middle', ink: 'ink-2' },
  ]
}

function ruler({ x, y }: { x: number; y: number }, length: number, perUnit: number, unit: string, em: number): Mark[] {
  const marks = listRulerMarks(length, perUnit, em)
  const last = marks.at(-1)?.value ?? 0
  return [
    {
      kind: 'lines',
      stroke: { ink: 'edge', width: em / 12 },
      lines: [
        [x, y, x + last * perUnit, y],
        ...marks.map(
          (mark): Segment => [x + mark.value * perUnit, y, x + mark.value * perUnit, y + (mark.isNumbered ? 0.65 : 0.35) * em],
        ),
      ],
    },
    ...marks
      .filter(({ isNumbered }) => isNumbered)
      .map(
        ({ value }): Mark => ({
          kind: 'words',
          x: x + value * perUnit,
          y: y + 1.65 * em,
          text: String(value),
          size: em,
          anchor: 'middle',
          ink: 'ink-2',
        }),
      ),
    { kind: 'words', x: x + last * perUnit + em, y: y + 0.4 * em, text: unit, size: em, ink: 'ink-2' },
  ]
}
