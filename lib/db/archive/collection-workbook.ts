import 'server-only'
import {
  chartSheet,
  clothSheet,
  finishSheet,
  notionSheet,
  placeSheet,
  projectSheet,
  type SheetUnits,
  threadSheet,
} from '#lib/archive/collection-sheets'
import type { Sheet } from '#lib/archive/sheet'
import { ok, type Result, refused } from '#lib/result'
import { requireWhole } from '../access/whole'
import type { Database } from '../client'
import { type ReadRows, readSnapshot } from '../read-snapshot'
import {
  readChartSheet,
  readClothSheet,
  readNotionSheet,
  readPlaceSheet,
  readProjectSheet,
  readSheetNames,
  readThreadSheet,
} from './read-sheets'
import { type Workbook, writeWorkbook } from './write-workbook'

export const peopleSheets = ['threads', 'charts', 'cloth', 'places', 'notions', 'projects', 'finishes'] as const
/** What there is a sheet of, for people. */
export type PeopleSheet = (typeof peopleSheets)[number]

/** A workbook is put together in memory; beyond this CSV is the better file. */
export const mostSheetRows = 60_000

export type TooManyRows = { kind: 'too-many-rows'; sheet: PeopleSheet; most: number }

class TooMany extends Error {}

async function all<Row>(rows: AsyncIterable<Row[]>): Promise<Row[]> {
  const gathered: Row[] = []
  for await (const some of rows) {
    gathered.push(...some)
    if (gathered.length > mostSheetRows) throw new TooMany()
  }
  return gathered
}

async function readSheet(sheet: PeopleSheet, rows: ReadRows, engine: Database['engine'], units: SheetUnits): Promise<Sheet> {
  const names = await readSheetNames(rows, engine)
  switch (sheet) {
    case 'threads':
      return threadSheet(await all(readThreadSheet(rows, engine, names)), units)
    case 'charts':
      return chartSheet(await all(readChartSheet(rows, engine, names)), units)
    case 'cloth':
      return clothSheet(await all(readClothSheet(rows, engine, names)), units)
    case 'places':
      return placeSheet(await all(readPlaceSheet(rows, engine)))
    case 'notions':
      return notionSheet(await all(readNotionSheet(rows, engine, names)))
    case 'projects':
      return projectSheet(await all(readProjectSheet(rows, engine, names)))
    case 'finishes':
      return finishSheet(await all(readProjectSheet(rows, engine, names)))
  }
}

/** Some or all of a collection's sheets as one XLSX for people: everything is in it, prices and notes too. */
export function collectionWorkbook(
  database: Database,
  sheets: readonly PeopleSheet[],
  units: SheetUnits,
): Promise<Result<Workbook, TooManyRows>> {
  requireWhole()
  return readSnapshot(database, async (rows): Promise<Result<Workbook, TooManyRows>> => {
    const read: Sheet[] = []
    for (const sheet of sheets) {
      try {
        read.push(await readSheet(sheet, rows, database.engine, units))
      } catch (error) {
        if (error instanceof TooMany) return refused({ kind: 'too-many-rows', sheet, most: mostSheetRows })
        throw error
      }
    }
    return ok(await writeWorkbook(read))
  })
}
