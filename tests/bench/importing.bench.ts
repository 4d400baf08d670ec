import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import * as XLSX from '@e965/xlsx'
import Libsql from 'libsql'
import Papa from 'papaparse'
import readExcelFile from 'read-excel-file/node'
import type { Database } from '#lib/db/client'
import { bringIn } from '#lib/db/importing/bring-in'
import { inTurns } from '#lib/db/importing/in-turns'
import { stageFile } from '#lib/db/importing/stage-file'
import { openFile } from '#lib/importing/open-file'
import { openZip } from '#lib/importing/xlsx/unzip'
import { openFolder } from './made-collection'
import type { Bench, Measurement } from './measurement'
import { measuredBytes } from './memory'
import { comparedTimes, spreadOf } from './timing'

const rowCount = 100_000
const bookRows = 20_000
const rounds = 3
const bookRounds = 15
const bookWarmUps = 5
const mostBytes = 1024 * 1024 * 1024

/** A stock list as a shop keeps it: three makers, twelve lines each, thirty thousand colours in several lots and a thousand drawers. */
const cellsOf = (at: number): string[] => [
  ['Larkholm', 'Oddny Loft', 'Tessaly'][at % 3] as string,
  `Cotton ${at % 12}`,
  String(at % 30_000).padStart(5, '0'),
  `Shade ${at % 997}`,
  `L${Math.floor(at / 30_000)}`,
  String(1 + (at % 5)),
  at % 3 === 0 ? '1/2' : '',
  `T${at % 40}.${at % 25}`,
  'bought at the fair',
]
const headers = ['Maker', 'Line', 'Code', 'Name', 'Lot', 'Skeins', 'Part', 'Place', 'Note']

const timed = async (work: () => unknown): Promise<number> => {
  const begun = performance.now()
  await work()
  return performance.now() - begun
}

type Rows = { table: string; columns: string[]; rows: unknown[][] }

/** All rows an import left, as a program that does nothing else would insert them. */
function rowsLeft(file: string): Rows[] {
  const connection = new Libsql(file)
  const tables = [
    'ImportBatch',
    'Owner',
    'Place',
    'Maker',
    'ThreadLine',
    'Thread',
    'Batch',
    'Movement',
    'ImportStep',
    'ImportRow',
  ]
  const left = tables.map((table) => {
    const select = connection.prepare(`SELECT * FROM "${table}"`)
    const columns = select.columns().map(({ name }) => name as string)
    return { table, columns, rows: select.raw().all() as unknown[][] }
  })
  connection.close()
  return left
}

function insertPrepared(file: string, all: readonly Rows[]): void {
  const connection = new Libsql(file)
  connection.exec('BEGIN')
  for (const { table, columns, rows } of all) {
    const names = columns.map((column) => `"${column}"`).join(', ')
    const insert = connection.prepare(`INSERT INTO "${table}" (${names}) VALUES (${columns.map(() => '?').join(', ')})`)
    for (const row of rows) insert.run(...row)
  }
  connection.exec('COMMIT')
  connection.close()
}

const fileOf = ({ url }: Database): string => path.resolve(url.replace(/^file:/, ''))
const freshFolder = () => openFolder(mkdtempSync(path.join(tmpdir(), 'larder-bench-')))

async function csv(): Promise<Measurement[]> {
  const text = [headers, ...Array.from({ length: rowCount }, (_, at) => cellsOf(at))].map((cells) => cells.join(',')).join('\n')
  const bytes = new TextEncoder().encode(text)
  const [ours, sameRows, flatRows]: [number[], number[], number[]] = [[], [], []]
  let longestWaitMs = 0
  let mostUsed = 0
  for (let round = 0; round < rounds; round++) {
    const store = await freshFolder()
    const { stagedId } = await stageFile('stock.csv', bytes)
    const before = process.memoryUsage().rss
    // Whoever else asks meanwhile waits as long as this timer does.
    let asked = performance.now()
    const ticker = setInterval(() => {
      longestWaitMs = Math.max(longestWaitMs, performance.now() - asked - 5)
      mostUsed = Math.max(mostUsed, process.memoryUsage().rss - before)
      asked = performance.now()
    }, 5)
    ours.push(
      await timed(async () => {
        const result = await bringIn(stagedId, { ownerName: 'Nell Oxtoby' })
        if (!result.ok || result.value.counts.added !== rowCount) throw new Error('importing: not all rows came in')
      }),
    )
    clearInterval(ticker)
    const left = rowsLeft(fileOf(store))
    const empty = await freshFolder()
    sameRows.push(
      await timed(() => {
        Papa.parse(text)
        insertPrepared(fileOf(empty), left)
      }),
    )
    const flat = path.join(mkdtempSync(path.join(tmpdir(), 'larder-bench-')), 'flat.db')
    new Libsql(flat).exec(`CREATE TABLE "Flat" (${headers.map((name) => `"${name}" TEXT`).join(', ')})`)
    flatRows.push(
      await timed(() => {
        const rows = Papa.parse<string[]>(text).data.slice(1)
        insertPrepared(flat, [{ table: 'Flat', columns: headers, rows }])
      }),
    )
  }
  const count = rowCount.toLocaleString('en')
  const compared = (name: string, against: number[], timesFaster: number | null) =>
    comparedTimes(name, { ours: spreadOf(ours), against: spreadOf(against) }, { samples: rounds, timesFaster })
  return [
    compared(`CSV of ${count} rows brought in, against parsing it and raw inserts of the rows it becomes`, sameRows, 1 / 2.5),
    compared('the same, against parsing it and raw inserts of its own cells into one bare table', flatRows, null),
    measuredBytes('memory it takes beside that', mostUsed, { words: 'under 1 GB', isMet: mostUsed < mostBytes }),
    {
      name: 'longest anybody else has to wait meanwhile',
      ours: longestWaitMs,
      against: null,
      ratio: null,
      unit: 'ms',
      samples: 1,
      oursRange: null,
      againstRange: null,
      goal: null,
    },
  ]
}

async function workbook(): Promise<Measurement[]> {
  const rows = [
    headers,
    ...Array.from({ length: bookRows }, (_, at) => cellsOf(at).map((cell, column) => (column === 5 ? Number(cell) : cell))),
  ]
  const book = XLSX.utils.book_new()
  XLSX.utils.book_append_sheet(book, XLSX.utils.aoa_to_sheet(rows), 'Threads')
  const buffer: Buffer = XLSX.write(book, { type: 'buffer', bookType: 'xlsx', compression: true, bookSST: true })
  const unzip = async () => {
    const zip = await openZip(buffer)
    for (const name of zip.parts.keys()) await zip.read(name, () => {})
  }
  const read = async () => {
    const opened = await openFile(buffer, { choose: () => null, run: inTurns })
    if (!opened.ok || opened.value.sheet.rows.length !== bookRows + 1) throw new Error('importing: not all rows were read')
  }
  const other = async () => {
    if ((await readExcelFile(buffer))[0]?.data.length !== bookRows + 1) throw new Error('importing: the other reader lost rows')
  }
  const samples = { ours: [] as number[], against: [] as number[], other: [] as number[] }
  for (let round = -bookWarmUps; round < bookRounds; round++) {
    const turns =
      round % 2 === 0
        ? ([
            ['ours', read],
            ['against', unzip],
          ] as const)
        : ([
            ['against', unzip],
            ['ours', read],
          ] as const)
    for (const [name, work] of turns) {
      const ms = await timed(work)
      if (round >= 0) samples[name].push(ms)
    }
    if (round >= 0 && round % 5 === 0) samples.other.push(await timed(other))
  }
  const ours = spreadOf(samples.ours)
  const count = bookRows.toLocaleString('en')
  return [
    comparedTimes(
      `workbook of ${count} rows read, against unzipping it`,
      { ours, against: spreadOf(samples.against) },
      { samples: bookRounds, timesFaster: 1 / 7 },
    ),
    comparedTimes(
      'the same, against read-excel-file',
      { ours, against: spreadOf(samples.other) },
      { samples: samples.other.length, timesFaster: null },
    ),
  ]
}

export const importing: Bench = {
  name: 'importing',
  about: [
    'A stock list of 100,000 rows as CSV, staged, read, checked, planned and written to an empty collection with its journal, its undo and the keys its rows are known again by. Beside it, in the same run: papaparse on the same text and one prepared INSERT a row, in one transaction, of (first) every row the import left in ten tables with their indexes and triggers, copied beforehand, and (second) the cells of the file into one table without any. While it runs a timer of 5 ms stands for whoever else asks.',
    'A workbook of 20,000 rows and nine columns, written by another library, read to its cells with the limits a stranger’s file is held to; against inflating all of its parts with the same limits and doing nothing with them, and against read-excel-file, which has none.',
  ],
  run: async () => [...(await workbook()), ...(await csv())],
}
