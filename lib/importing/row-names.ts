import type { SheetLayout } from './layouts'

/** Columns a sheet may have, and threads told of one cell: what is beyond cannot be numbered. */
const columnsNumbered = 500
export const mostPerCell = 100
/** A number of a cell stays below 2^31, the largest whole number the database keeps. */
export const mostRowsInCells = 40_000

/** The number a row made of one cell goes by: it stands for the cell's row, its column from 0, and the thread's turn in it. */
export const cellNumber = (rowNumber: number, column: number, turn: number): number =>
  (rowNumber * columnsNumbered + column) * mostPerCell + turn

/** Less than any number `cellNumber` makes, and more than the row numbers it makes them of. */
export const leastCellNumber = columnsNumbered * mostPerCell

/** `B7`: the cell a number made by `cellNumber` stands for. */
export function cellName(number: number): string {
  const cell = Math.floor(number / mostPerCell)
  return `${columnLetters(cell % columnsNumbered)}${Math.floor(cell / columnsNumbered)}`
}

/** What a row's number stands for, in words: `row 7`, or `cell B7` where each cell is a row of its own. */
export const rowName = (number: number, layout: SheetLayout): string =>
  layout === 'rows' ? `row ${number}` : `cell ${cellName(number)}`

export function columnLetters(column: number): string {
  const last = String.fromCharCode(0x41 + (column % 26))
  return column < 26 ? last : columnLetters(Math.floor(column / 26) - 1) + last
}
