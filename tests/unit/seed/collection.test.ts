import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { type CollectionSize, makeCollection, sizePlans } from '#seed/collection'
import type { TableRow } from '#seed/collection/rows'
import { chartTitle } from '#seed/collection/words'
import { seededRandom } from '#seed/random'

function gather(size: CollectionSize, seed: number): { tables: Map<string, TableRow[]>; order: string[] } {
  const tables = new Map<string, TableRow[]>()
  const order: string[] = []
  for (const { table, rows } of makeCollection({ size, seed })) {
    if (!tables.has(table)) order.push(table)
    tables.set(table, [...(tables.get(table) ?? []), ...rows])
  }
  return { tables, order }
}

/** Each model's columns and foreign keys, read from the schema's own text. */
function readSchema(): Map<string, { columns: Set<string>; required: Set<string>; keys: [column: string, table: string][] }> {
  const text = readFileSync(new URL('../../../prisma/schema.prisma', import.meta.url), 'utf8')
  const models = new Map<string, { columns: Set<string>; required: Set<string>; keys: [string, string][] }>()
  for (const [, name = '', body = ''] of text.matchAll(/^model (\w+) \{\n([\s\S]*?)^\}/gm)) {
    const columns = new Set<string>()
    const required = new Set<string>()
    const keys: [string, string][] = []
    for (const line of body.split('\n')) {
      const [, column = '', type = '', optional = ''] = /^\s+(\w+)\s+(String|Int|Float|Boolean|DateTime)(\??)/.exec(line) ?? []
      if (type) {
        columns.add(column)
        if (!optional && !line.includes('@default')) required.add(column)
      }
      const [, table = '', key = ''] = /^\s+\w+\s+(\w+)\??\s+@relation\(.*fields: \[(\w+)\]/.exec(line) ?? []
      if (key) keys.push([key, table])
    }
    models.set(name, { columns, required, keys })
  }
  return models
}

const home = gather('home', 7)
const rowsOf = (table: string) => home.tables.get(table) ?? []
const schema = readSchema()

describe('a made-up collection', () => {
  it('has as many charts, threads and pieces as its size promises', () => {
    expect(rowsOf('Chart').length).toBe(500)
    expect(rowsOf('Thread').length).toBe(400)
    expect(rowsOf('ClothPiece').length).toBe(80)
    expect(sizePlans.shop).toMatchObject({ charts: 20_000, threads: 3_000, clothPieces: 1_500 })
    expect(sizePlans.archive.charts * (sizePlans.archive.keyLinesPerChart ?? 0)).toBe(6_000_000)
  })

  it('is the same for the same seed and another for another', () => {
    expect(gather('home', 7)).toEqual(home)
    expect(gather('home', 8).tables.get('Chart')).not.toEqual(rowsOf('Chart'))
  })

  it('uses the columns of the schema, leaves out none that is needed, and gives each row of a table the same ones', () => {
    for (const [table, rows] of home.tables) {
      const model = schema.get(table)
      const columns = Object.keys(rows[0] ?? {})
      for (const column of columns) expect(model?.columns, table).toContain(column)
      for (const column of model?.required ?? []) expect(columns, table).toContain(column)
      for (const row of rows) expect(Object.keys(row)).toEqual(columns)
    }
  })

  it('comes in an order that foreign keys accept', () => {
    const ids = new Map<string, Set<unknown>>()
    for (const { table, rows } of makeCollection({ size: 'home', seed: 3 })) {
      const own = ids.get(table) ?? new Set()
      ids.set(table, own)
      for (const row of rows) {
        for (const [column, target] of schema.get(table)?.keys ?? []) {
          const value = row[column]
          if (value !== null && value !== undefined) expect(ids.get(target)?.has(value), `${table}.${column} ${value}`).toBe(true)
        }
        own.add(row.id)
      }
    }
  })

  it('repeats no id and no unique name', () => {
    for (const [table, rows] of home.tables) {
      if (rows[0]?.id === undefined) continue
      expect(new Set(rows.map(({ id }) => id)).size, table).toBe(rows.length)
    }
    const unique = (table: string, ...columns: string[]) =>
      expect(new Set(rowsOf(table).map((row) => columns.map((column) => row[column]).join('|'))).size, table).toBe(
        rowsOf(table).length,
      )
    unique('Place', 'labelKey')
    unique('Designer', 'nameKey')
    unique('ThreadLine', 'makerId', 'nameKey')
    unique('Thread', 'lineId', 'code')
    unique('Design', 'chartId', 'titleKey')
    unique('ThreadList', 'designId', 'nameKey')
    unique('KeyLine', 'threadListId', 'position')
    unique('KeyLineThread', 'keyLineId', 'position')
    unique('ChartDesigner', 'chartId', 'designerId')
    unique('DesignTheme', 'designId', 'themeId')
    unique('ClothPiece', 'ownerId', 'labelKey')
  })

  it('makes every batch the sum of what was received', () => {
    const sums = new Map<unknown, [whole: number, part: number]>()
    for (const movement of rowsOf('Movement')) {
      if (movement.batchId === null) continue
      const [whole, part] = sums.get(movement.batchId) ?? [0, 0]
      sums.set(movement.batchId, [whole + Number(movement.wholeDelta), part + Number(movement.partDeltaStrandTenths)])
    }
    for (const { id, wholePutUps, partStrandTenths } of rowsOf('Batch'))
      expect(sums.get(id)).toEqual([wholePutUps, partStrandTenths])
    expect(sums.size).toBe(rowsOf('Batch').length)
  })

  it('says an amount for a part exactly when it is judged, and counts no stitches where the key counts none', () => {
    for (const { partCertainty, partStrandTenths } of rowsOf('Batch')) {
      expect(['none', 'some'].includes(String(partCertainty))).toBe(partStrandTenths === 0)
    }
    for (const { hasTally, full } of rowsOf('KeyLine')) expect(hasTally ? Number(full) > 0 : full === 0).toBe(true)
  })

  it('counts stitches in about seven lists of ten and stocks about six threads of ten', () => {
    const counted = new Set(rowsOf('KeyLine').flatMap((row) => (row.hasTally ? [row.threadListId] : [])))
    expect(counted.size / rowsOf('ThreadList').length).toBeCloseTo(0.7, 1)
    expect(new Set(rowsOf('Batch').map(({ threadId }) => threadId)).size / 400).toBeCloseTo(0.6, 1)
  })

  it('writes titles in thousands of different words', () => {
    const random = seededRandom('titles')
    const words = new Set(Array.from({ length: 20_000 }, () => chartTitle(random).split(' ')).flat())
    expect(words.size).toBeGreaterThan(5_000)
  })
})
