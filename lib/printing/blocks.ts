import { shorten, wrapWords } from './fit-words'
import type { Row } from './flow'
import type { Mark, Measure } from './mark'

export type Column = {
  head: string
  /** Its part of the width, against the other columns'. */
  share: number
  isRight?: boolean
}

/** A cell to be written in by hand. */
export const blank = Symbol('blank')

/** What lists and sheets are put together from, in words. */
export type Block =
  | { kind: 'heading'; text: string }
  | { kind: 'paragraph'; text: string }
  /** What is done, with its number, and what comes of it. */
  | { kind: 'step'; number: string; text: string; notes: readonly string[] }
  | { kind: 'table'; columns: readonly Column[]; rows: readonly (readonly (string | typeof blank)[])[] }

/** Sizes of type in millimetres: 3.3 mm is about 9½ points. */
const bodyMm = 3.3
const headingMm = 4.2
const headMm = 2.7
const lineMm = (size: number) => size * 1.38
/** From the top of a line to where its letters stand. */
const standMm = (size: number) => size * 1.04
/** Longer texts are cut short: a page is not for them. */
const mostLines = 6
/** A table of so many rows is not parted. */
const longestWhole = 6

/** Blocks as rows of a page `widthMm` wide, ready to flow. */
export const layBlocks = (blocks: readonly Block[], widthMm: number, measure: Measure): Row[] =>
  blocks.flatMap((block) => layBlock(block, widthMm, measure))

function layBlock(block: Block, widthMm: number, measure: Measure): Row[] {
  switch (block.kind) {
    case 'heading':
      return [layHeading(block.text, widthMm, measure)]
    case 'paragraph':
      return [layText(block.text, { xMm: 0, widthMm, afterMm: 1.6 }, measure)]
    case 'step':
      return layStep(block, widthMm, measure)
    case 'table':
      return layTable(block, widthMm, measure)
  }
}

function layHeading(text: string, widthMm: number, measure: Measure): Row {
  const style = { size: headingMm, isBold: true }
  return {
    heightMm: 11,
    isKeptWithNext: true,
    marks: [
      { kind: 'line', x1: 0, y1: 3.5, x2: widthMm, y2: 3.5, stroke: { ink: 'ink', width: 0.4 } },
      { kind: 'words', x: 0, y: 3.5 + 1.4 + standMm(headingMm), text: shorten(text, widthMm, style, measure), ...style },
    ],
  }
}

function layText(
  text: string,
  { xMm, widthMm, afterMm, isBold = false }: { xMm: number; widthMm: number; afterMm: number; isBold?: boolean },
  measure: Measure,
): Row {
  const style = { size: bodyMm, isBold }
  const lines = wrapWords(text, widthMm - xMm, style, measure, mostLines)
  return {
    heightMm: lines.length * lineMm(bodyMm) + afterMm,
    marks: lines.map((line, at) => ({ kind: 'words', x: xMm, y: at * lineMm(bodyMm) + standMm(bodyMm), text: line, ...style })),
  }
}

function layStep(step: Extract<Block, { kind: 'step' }>, widthMm: number, measure: Measure): Row[] {
  const xMm = 9
  const first = layText(step.text, { xMm, widthMm, afterMm: 0.4, isBold: true }, measure)
  const number: Mark[] = step.number
    ? [
        { kind: 'ring', x: 3, y: 2.2, radius: 2.4, stroke: { ink: 'madder', width: 0.3 } },
        { kind: 'words', x: 3, y: 3.15, text: step.number, size: 2.7, isBold: true, anchor: 'middle', ink: 'madder' },
      ]
    : []
  const notes = step.notes.map((note) => layText(note, { xMm, widthMm, afterMm: 0.2 }, measure))
  const rows: Row[] = [{ ...first, marks: [...number, ...first.marks] }, ...notes]
  return rows.map((row, at) =>
    at === rows.length - 1
      ? { ...row, heightMm: row.heightMm + 2 }
      : { ...row, isKeptWithNext: at === 0 || at === rows.length - 2 },
  )
}

function layTable({ columns, rows }: Extract<Block, { kind: 'table' }>, widthMm: number, measure: Measure): Row[] {
  const gapMm = 3
  const shares = columns.reduce((sum, { share }) => sum + share, 0)
  const roomMm = widthMm - gapMm * (columns.length - 1)
  const boxes = columns.map(({ share }, at) => {
    const before = columns.slice(0, at).reduce((sum, column) => sum + column.share, 0)
    return { x: (before / shares) * roomMm + at * gapMm, width: (share / shares) * roomMm }
  })
  const rule = (y: number, ink: 'ink' | 'hair'): Mark => ({
    kind: 'line',
    x1: 0,
    y1: y,
    x2: widthMm,
    y2: y,
    stroke: { ink, width: ink === 'ink' ? 0.3 : 0.15 },
  })
  const anchored = (at: number) =>
    columns[at]?.isRight
      ? ({ x: (boxes[at]?.x ?? 0) + (boxes[at]?.width ?? 0), anchor: 'end' } as const)
      : ({ x: boxes[at]?.x ?? 0, anchor: 'start' } as const)
  const head: Row = {
    heightMm: 5.4,
    isKeptWithNext: true,
    marks: [
      ...columns.map(
        (column, at): Mark => ({
          kind: 'words',
          ...anchored(at),
          y: 3.2,
          text: shorten(column.head, boxes[at]?.width ?? 0, { size: headMm }, measure),
          size: headMm,
          ink: 'ink-2',
        }),
      ),
      rule(4.7, 'ink'),
    ],
  }
  return [
    head,
    ...rows.map((cells, row): Row => {
      const lines = cells.map((cell, at) =>
        cell === blank ? [] : wrapWords(cell, boxes[at]?.width ?? 0, { size: bodyMm }, measure, 3),
      )
      const isWrittenIn = cells.includes(blank)
      const textMm = Math.max(1, ...lines.map((one) => one.length)) * lineMm(bodyMm)
      const heightMm = Math.max(isWrittenIn ? 9 : 0, textMm + 1.8)
      // Beside a line to write on, words stand at its height.
      const firstMm = isWrittenIn ? heightMm - 1.4 - textMm : 0.9
      return {
        heightMm,
        head,
        isKeptWithNext: rows.length <= longestWhole && row < rows.length - 1,
        marks: [
          ...lines.flatMap((words, at) =>
            words.map(
              (text, line): Mark => ({
                kind: 'words',
                ...anchored(at),
                y: firstMm + line * lineMm(bodyMm) + standMm(bodyMm),
                text,
                size: bodyMm,
              }),
            ),
          ),
          ...cells.flatMap((cell, at): Mark[] =>
            cell === blank
              ? [
                  {
                    kind: 'line',
                    x1: boxes[at]?.x ?? 0,
                    y1: heightMm - 2,
                    x2: (boxes[at]?.x ?? 0) + (boxes[at]?.width ?? 0),
                    y2: heightMm - 2,
                    stroke: { ink: 'edge', width: 0.25 },
                  },
                ]
              : [],
          ),
          ...(isWrittenIn ? [] : [rule(heightMm - 0.2, 'hair')]),
        ],
      }
    }),
  ]
}
