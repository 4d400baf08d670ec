import * as XLSX from '@e965/xlsx'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { checkRows } from '#lib/importing/check-rows'
import { toCsv } from '#lib/importing/escape-csv'
import { importKinds } from '#lib/importing/fields'
import { sheetLayouts } from '#lib/importing/layouts'
import { arrangeFile, openFile } from '#lib/importing/open-file'
import { recogniseKind, suggestMapping } from '#lib/importing/recognise'
import { finish } from '#lib/importing/steps'

const settings = { seed: 20261130, numRuns: 60 }
const open = (bytes: Uint8Array) => openFile(bytes, { choose: () => null, run: async (steps) => finish(steps) })

/** Read a file by itself as far as its drafts; whatever is wrong with it has to come out as a refusal. */
async function readThrough(bytes: Uint8Array): Promise<'read' | 'refused'> {
  const opened = await open(bytes)
  if (!opened.ok) return 'refused'
  for (const layout of [undefined, ...sheetLayouts]) {
    const table = finish(arrangeFile(opened.value, layout ? { layout } : {}))
    if (!table.ok) continue
    const { headers, rows } = table.value
    const sample = rows.slice(0, 50).map(({ cells }) => cells)
    const kind = recogniseKind(headers, sample).kind ?? importKinds[headers.length % importKinds.length] ?? 'threads'
    const checked = checkRows(table.value, suggestMapping(kind, headers, sample))
    expect(checked.rows.length + new Set(checked.refusedRows.map(({ rowNumber }) => rowNumber)).size).toBe(
      rows.length + table.value.problems.length,
    )
  }
  return 'read'
}

const cell = fc.oneof(
  fc.constantFrom(
    'Maker',
    'Code',
    'Skeins',
    'Chart',
    'Width (cm)',
    'Total',
    'T1',
    'T2.1',
    '0017',
    '3-Dec',
    '=1+1',
    '1,5',
    '½',
    '',
  ),
  fc.string({ unit: 'grapheme', maxLength: 12 }),
)
const grid = fc.array(fc.array(cell, { minLength: 1, maxLength: 6 }), { minLength: 1, maxLength: 12 })

function bookOf(rows: string[][], merges: [number, number, number, number][] = []): Uint8Array {
  const sheet = XLSX.utils.aoa_to_sheet(rows)
  sheet['!merges'] = merges.map(([top, left, down, across]) => ({
    s: { r: top, c: left },
    e: { r: top + down, c: left + across },
  }))
  const book = XLSX.utils.book_new()
  XLSX.utils.book_append_sheet(book, sheet, 'One')
  return new Uint8Array(XLSX.write(book, { type: 'buffer', bookType: 'xlsx', compression: true, bookSST: rows.length % 2 === 0 }))
}

describe('any file', () => {
  it('of any cells, joined in any way, is read or refused', async () => {
    const small = fc.integer({ min: 0, max: 4 })
    await fc.assert(
      fc.asyncProperty(grid, fc.array(fc.tuple(small, small, small, small), { maxLength: 3 }), async (rows, merges) => {
        await readThrough(bookOf(rows, merges))
        await readThrough(new TextEncoder().encode(toCsv(rows)))
      }),
      settings,
    )
  })

  it('of any bytes, or with some of its bytes changed, is read or refused', async () => {
    const sound = [
      bookOf([
        ['Maker', 'Code', 'Skeins'],
        ['Larkholm', '0017', '2'],
        ['Larkholm', '0018', '1'],
      ]),
      new TextEncoder().encode('Maker;Code\n"Larkholm";"00""17"\n'),
    ]
    await fc.assert(
      fc.asyncProperty(
        fc.constantFrom(...sound),
        fc.array(fc.tuple(fc.nat(), fc.integer({ min: 0, max: 255 })), { maxLength: 8 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        async (bytes, changes, share) => {
          const changed = Uint8Array.from(bytes)
          for (const [at, value] of changes) changed[at % changed.length] = value
          await readThrough(changed)
          await readThrough(changed.subarray(0, Math.floor(share * changed.length)))
        },
      ),
      { ...settings, numRuns: 150 },
    )
  })

  it('says the same as a workbook and as a text', async () => {
    const plain = fc
      .string({ unit: 'grapheme-ascii', minLength: 1, maxLength: 10 })
      .filter((text) => text.trim() === text && !/^'*[=+\-@\t\r\n\0]/.test(text))
    const rows = fc.array(fc.array(plain, { minLength: 3, maxLength: 3 }), { minLength: 1, maxLength: 8 })
    await fc.assert(
      fc.asyncProperty(rows, async (body) => {
        const all = [['Maker', 'Code', 'Name'], ...body]
        const [book, text] = await Promise.all([open(bookOf(all)), open(new TextEncoder().encode(toCsv(all)))])
        if (!book.ok || !text.ok) throw new Error('a sound file was refused')
        expect(book.value.sheet.rows.map(({ rowNumber, cells }) => [rowNumber, cells])).toEqual(
          text.value.sheet.rows.map(({ rowNumber, cells }) => [rowNumber, cells]),
        )
      }),
      settings,
    )
  })

  it('longer than the pieces it is unpacked in comes out whole', async () => {
    const rows = [
      ['Maker', 'Code', 'Skeins'],
      ...Array.from({ length: 12_000 }, (_, at) => ['Larkholm', `c${at}`, at % 2 === 0 ? at : at / 8]),
    ]
    const opened = await open(bookOf(rows as string[][]))
    if (!opened.ok) throw new Error(opened.error.kind)
    expect(opened.value.sheet.rows.map(({ cells }) => cells.join())).toEqual(rows.map((cells) => cells.join()))
  })
})
