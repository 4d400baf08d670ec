export const sheetLayouts = ['rows', 'drawer-columns', 'drawer-rows', 'drawer-grid'] as const
/**
 * How a sheet is laid out. `rows`: a row for each thing, under headers. `drawer-columns`: a column for each drawer, its label on top, codes
 * below. `drawer-rows`: a row for each drawer, its label in front, codes beside. `drawer-grid`: a drawer for each cell, labelled by its
 * row and its column.
 */
export type SheetLayout = (typeof sheetLayouts)[number]

export type LayoutChoice = { layout?: SheetLayout }
