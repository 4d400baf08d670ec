import 'server-only'
import { chartCells, clothCells, keyCells, notionCells, placeCells, projectCells, threadCells } from '#lib/archive/csv-cells'
import type { SheetNoun } from '#lib/archive/sheet-rows'
import { toCsv } from '#lib/importing/escape-csv'
import { listFields } from '#lib/importing/fields'
import type { Database } from '../client'
import type { ReadRows } from '../read-snapshot'
import {
  readChartSheet,
  readClothSheet,
  readKeySheet,
  readNotionSheet,
  readPlaceSheet,
  readProjectSheet,
  readSheetNames,
  readThreadSheet,
} from './read-sheets'
import { countRows } from './table-rows'

type Cells = Record<string, string | number | null | undefined>

/** One sheet as CSV, some thousands of rows at a time, its heading first. */
export type CsvSheet = {
  noun: SheetNoun
  /** At most so many rows, for progress. */
  rowCount: number
  lines: AsyncGenerator<{ text: string; rows: number }, void, void>
}

/** The columns of a noun's sheet: those Bring in reads, by their own labels. */
const headsOf = (noun: SheetNoun): [field: string, head: string][] => listFields(noun).map(({ name, label }) => [name, label])

async function* csvLines<Row>(noun: SheetNoun, rows: AsyncIterable<Row[]>, cellsOf: (row: Row) => Cells): CsvSheet['lines'] {
  const heads = headsOf(noun)
  // With the mark that tells spreadsheets it is UTF-8.
  yield { text: `\uFEFF${toCsv([heads.map(([, head]) => head)])}`, rows: 0 }
  for await (const some of rows) {
    const cells = some.map((row) => {
      const own = cellsOf(row)
      return heads.map(([field]) => own[field] ?? null)
    })
    yield { text: toCsv(cells), rows: some.length }
  }
}

/** The sheets of a collection in the shape Bring in reads, in the order in which they are best brought in. */
export async function collectionCsv(rows: ReadRows, engine: Database['engine']): Promise<CsvSheet[]> {
  const names = await readSheetNames(rows, engine)
  const sheet = async (noun: SheetNoun, table: string, lines: CsvSheet['lines']): Promise<CsvSheet> => ({
    ...{ noun, rowCount: await countRows(rows, table), lines },
  })
  return [
    await sheet('places', 'Place', csvLines('places', readPlaceSheet(rows, engine), placeCells)),
    await sheet('threads', 'Batch', csvLines('threads', readThreadSheet(rows, engine, names), threadCells)),
    await sheet('cloth', 'ClothPiece', csvLines('cloth', readClothSheet(rows, engine, names), clothCells)),
    await sheet('charts', 'Design', csvLines('charts', readChartSheet(rows, engine, names), chartCells)),
    await sheet('lists', 'KeyLine', csvLines('lists', readKeySheet(rows, engine, names), keyCells)),
    await sheet('projects', 'Project', csvLines('projects', readProjectSheet(rows, engine, names), projectCells)),
    await sheet('notions', 'Notion', csvLines('notions', readNotionSheet(rows, engine, names), notionCells)),
  ]
}
