import * as XLSX from '@e965/xlsx'
import { describe, expect, it } from 'vitest'
import writeExcelFile from 'write-excel-file/node'
import { readSheet } from '#lib/importing/xlsx/read-sheet'
import { openWorkbook } from '#lib/importing/xlsx/workbook'
import { workbookOf, zipOf } from './make-workbook'

async function open(bytes: Uint8Array) {
  const workbook = await openWorkbook(bytes)
  if (!workbook.ok) throw new Error(JSON.stringify(workbook.error))
  return workbook.value
}
async function sheetOf(bytes: Uint8Array, place = 0) {
  const sheet = await readSheet(await open(bytes), place)
  if (!sheet.ok) throw new Error(JSON.stringify(sheet.error))
  return sheet.value
}
const cells = async (bytes: Uint8Array) => (await sheetOf(bytes)).rows.map((row) => row.cells)
const refusal = async (bytes: Uint8Array) => {
  const workbook = await openWorkbook(bytes)
  if (!workbook.ok) return workbook.error
  const sheet = await readSheet(workbook.value, 0)
  return sheet.ok ? null : sheet.error
}

/** Written by another library, which puts texts in a shared table (`bookSST`) or in the cells. */
function writtenByAnother(book: XLSX.WorkBook, bookSST = true): Uint8Array {
  return new Uint8Array(XLSX.write(book, { type: 'buffer', bookType: 'xlsx', compression: true, bookSST }))
}

describe('a workbook written by another library', () => {
  const rows = [
    ['Maker', 'Code', 'Skeins', 'Bought', 'Open'],
    ['Larkholm & Daughters <1874>', '0017', 2, new Date(Date.UTC(2026, 2, 1)), true],
    ['Oddny Loft', '"3-12"', 0.1 + 0.2, null, false],
  ]
  const read = [
    ['Maker', 'Code', 'Skeins', 'Bought', 'Open'],
    ['Larkholm & Daughters <1874>', '0017', '2', '2026-03-01', 'yes'],
    ['Oddny Loft', '"3-12"', '0.3', '', 'no'],
  ]

  it.each([true, false])('says the same cells, its texts shared: %s', async (isShared) => {
    const book = XLSX.utils.book_new()
    XLSX.utils.book_append_sheet(book, XLSX.utils.aoa_to_sheet(rows, { UTC: true }), 'Threads')
    expect(await cells(writtenByAnother(book, isShared))).toEqual(read)
  })

  it('says the same cells where a third one wrote it', async () => {
    const written = await writeExcelFile(
      rows.map((row) =>
        row.map((value) => (value === null ? null : value instanceof Date ? { value, format: 'yyyy-mm-dd' } : { value })),
      ),
    ).toBuffer()
    expect(await cells(new Uint8Array(written))).toEqual(read)
  })

  it('has its sheets in their order, the hidden ones told', async () => {
    const book = XLSX.utils.book_new()
    for (const name of ['Threads', 'Old', 'Charts']) XLSX.utils.book_append_sheet(book, XLSX.utils.aoa_to_sheet([[name]]), name)
    book.Workbook = { Sheets: [{ Hidden: 0 }, { Hidden: 2 }, { Hidden: 0 }] }
    const { sheets } = await open(writtenByAnother(book))
    expect(sheets.map(({ name, isHidden }) => [name, isHidden])).toEqual([
      ['Threads', false],
      ['Old', true],
      ['Charts', false],
    ])
  })

  it('has its joined cells and its notes', async () => {
    const sheet = XLSX.utils.aoa_to_sheet([
      ['Drawer', 'Code'],
      ['T1', '0017'],
      ['', '0018'],
    ])
    sheet['!merges'] = [XLSX.utils.decode_range('A2:A3')]
    XLSX.utils.cell_add_comment(sheet.B3 as XLSX.CellObject, 'the last of its lot', 'Nell')
    const book = XLSX.utils.book_new()
    XLSX.utils.book_append_sheet(book, sheet, 'T')
    const { merges, marks } = await sheetOf(writtenByAnother(book))
    expect(merges).toEqual([{ top: 2, left: 0, bottom: 3, right: 0 }])
    expect(marks).toEqual([{ rowNumber: 3, column: 1, kind: 'note', text: 'the last of its lot' }])
  })
})

describe('a cell', () => {
  const styles = (code: string) =>
    `<numFmts count="1"><numFmt numFmtId="164" formatCode="${code}"/></numFmts><cellXfs count="2"><xf numFmtId="0"/><xf numFmtId="164"/></cellXfs>`
  const formatted = async (code: string, value: string) => {
    const bytes = await workbookOf({
      sheet: `<sheetData><row r="1"><c r="A1" s="1"><v>${value}</v></c></row></sheetData>`,
      styles: styles(code),
    })
    return (await cells(bytes))[0]?.[0]
  }

  // As a spreadsheet shows them; the serial numbers are the day counts of ECMA-376, part 1, 18.17.4.1.
  it.each([
    ['0000', '17', '0017'],
    ['00-00', '312', '03-12'],
    ['&quot;A&quot;000', '7', 'A007'],
    ['000', '12345', '12345'],
    ['0', '17', '17'],
    ['0.00', '2.5', '2.5'],
    ['0%', '0.5', '50%'],
    ['yyyy\\-mm\\-dd', '46082', '2026-03-01'],
    ['d/m/yy', '61', '1900-03-01'],
    ['d/m/yy', '59', '1900-02-28'],
    ['[$-809]d mmm yyyy', '46082', '2026-03-01'],
    ['h:mm', '0.5', '12:00'],
    ['[Red]0000', '17', '0017'],
    ['#,##0', '1240', '1240'],
  ])('in the format %s with %s is read as %s', async (code, value, shown) => {
    expect(await formatted(code, value)).toBe(shown)
  })

  it('holds a day counted from 1904 where the workbook does', async () => {
    const sheet = '<sheetData><row r="1"><c r="A1" s="1"><v>44620</v></c></row></sheetData>'
    expect(await cells(await workbookOf({ sheet, styles: styles('yyyy'), workbookPr: '<workbookPr date1904="1"/>' }))).toEqual([
      ['2026-03-01'],
    ])
  })

  it('is what stands in it, wherever the workbook puts its text', async () => {
    const sheet = `<sheetData><row r="2"><c r="B2" t="s"><v>0</v></c><c r="C2" t="inlineStr"><is><r><t>two </t></r><r><t xml:space="preserve">runs</t></r></is></c>
      <c r="D2" t="str"><f>CONCATENATE("a","b")</f><v>ab</v></c><c r="E2"><f>1/0</f></c><c r="F2" t="e"><v>#N/A</v></c><c t="b"><v>1</v></c></row></sheetData>`
    const shared = '<si><t>caf&#233; &lt;b&gt; _x0041_</t><rPh sb="0" eb="1"><t>spoken</t></rPh></si>'
    const { rows, marks } = await sheetOf(await workbookOf({ sheet, shared }))
    expect(rows).toMatchObject([{ rowNumber: 2, cells: ['', 'café <b> A', 'two runs', 'ab', '', '', 'yes'] }])
    expect(marks).toEqual([
      { rowNumber: 2, column: 3, kind: 'formula' },
      { rowNumber: 2, column: 4, kind: 'formula-without-answer' },
      { rowNumber: 2, column: 5, kind: 'error', text: '#N/A' },
    ])
  })
})

describe('a hostile workbook', () => {
  const blank = '<sheetData/>'

  it('that declares entities is refused, whichever part does', async () => {
    const laughs = '<!DOCTYPE a [<!ENTITY l "ha"><!ENTITY m "&l;&l;&l;">]><a>&m;</a>'
    expect(await refusal(await workbookOf({ sheet: blank, more: { 'xl/worksheets/sheet1.xml': laughs } }))).toEqual({
      kind: 'workbook-declares-entities',
    })
    const outside = '<!DOCTYPE a SYSTEM "file:///etc/hostname"><Relationships/>'
    expect(await refusal(await workbookOf({ sheet: blank, more: { 'xl/_rels/workbook.xml.rels': outside } }))).toEqual({
      kind: 'workbook-declares-entities',
    })
    const sheet = '<sheetData><row><c t="str"><v>&unknown;</v></c></row></sheetData>'
    expect(await refusal(await workbookOf({ sheet }))).toEqual({ kind: 'workbook-declares-entities' })
  })

  it('that swells is refused before it is unpacked', async () => {
    // 24 MB of one letter pack into some 25 kB, a thousandth.
    const bomb = await workbookOf({ sheet: blank, more: { 'xl/worksheets/sheet1.xml': 'x'.repeat(24 * 1024 * 1024) } })
    expect(bomb.length).toBeLessThan(100_000)
    const before = process.memoryUsage().rss
    expect(await refusal(bomb)).toMatchObject({ kind: 'workbook-swells' })
    expect(process.memoryUsage().rss - before).toBeLessThan(16 * 1024 * 1024)
  })

  it('that holds more than it says is stopped where it goes beyond', async () => {
    const bytes = await workbookOf({ sheet: blank, more: { 'xl/worksheets/sheet1.xml': 'x'.repeat(3_000_000) } })
    // The size in its directory (APPNOTE.TXT 4.3.12, at 24 from the signature) made smaller than the truth.
    const view = Buffer.from(bytes)
    let at = view.indexOf('PK\u0001\u0002', 0, 'latin1')
    for (; at !== -1; at = view.indexOf('PK\u0001\u0002', at + 4, 'latin1'))
      if (view.readUInt32LE(at + 24) === 3_000_000) view.writeUInt32LE(90, at + 24)
    expect(await refusal(new Uint8Array(view))).toEqual({ kind: 'workbook-broken' })
  })

  it('with more parts, columns or letters than a table has is refused', async () => {
    const parts = Object.fromEntries(Array.from({ length: 1_600 }, (_, at) => [`p${at}`, '']))
    expect(await refusal(await zipOf(parts))).toMatchObject({ kind: 'workbook-too-many', what: 'parts' })
    const far = '<sheetData><row r="1"><c r="XFD1"><v>1</v></c></row></sheetData>'
    expect(await refusal(await workbookOf({ sheet: far }))).toMatchObject({ kind: 'workbook-too-many', what: 'columns' })
  })

  it('broken off anywhere is refused and nothing else', async () => {
    const whole = await workbookOf({
      sheet: '<sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>Maker</t></is></c></row></sheetData>',
    })
    for (let cut = 0; cut < whole.length; cut += 37)
      expect(await refusal(whole.subarray(0, cut))).toEqual({ kind: 'workbook-broken' })
    for (const sheet of [
      '<sheetData>',
      '</sheetData>',
      '<row><c></row></c>',
      'text < more',
      '<a b="<">',
      `<${'a><'.repeat(400)}`,
    ])
      expect(await refusal(await workbookOf({ sheet }))).toMatchObject({ kind: 'workbook-broken' })
  })

  it('that joins a million rows, or points outside itself, costs and fetches nothing', async () => {
    const sheet = `<sheetData><row r="1"><c r="A1"><v>1</v></c></row></sheetData><mergeCells><mergeCell ref="A1:XFD1048576"/></mergeCells>`
    const link =
      '<Relationships><Relationship Id="x" TargetMode="External" Type="a/comments" Target="http://127.0.0.1:1/notes.xml"/></Relationships>'
    const read = await sheetOf(await workbookOf({ sheet, more: { 'xl/worksheets/_rels/sheet1.xml.rels': link } }))
    expect(read).toMatchObject({ merges: [{ bottom: 1_048_576 }], marks: [] })
  })
})
