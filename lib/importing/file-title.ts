/** What a file is called where it is told of: with its sheet, when it has others. */
export const fileTitle = (fileName: string, sheet: string | null | undefined, sheetCount = 2): string =>
  sheet && sheetCount > 1 ? `${fileName}, ${sheet}` : fileName
