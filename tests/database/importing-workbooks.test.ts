import { spawnSync } from 'node:child_process'
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import * as XLSX from '@e965/xlsx'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { bringIn } from '#lib/db/importing/bring-in'
import type { ImportChoices } from '#lib/db/importing/import-service'
import { listImports } from '#lib/db/importing/imports'
import { previewImport } from '#lib/db/importing/preview-import'
import { stageFile } from '#lib/db/importing/stage-file'
import { undoImport } from '#lib/db/importing/undo-import'
import { seededRandom } from '#seed/random'
import { describeOnEachEngine } from './engines'

/** Where LibreOffice is installed its own files are read too; elsewhere there is no such test. */
const office = ['/usr/bin/soffice', '/usr/bin/libreoffice', '/opt/libreoffice/program/soffice'].find((file) => existsSync(file))

describeOnEachEngine('bringing in a workbook', ({ open }) => {
  const folder = mkdtempSync(path.join(tmpdir(), 'larder-workbook-'))
  const before = process.env.LARDER_DATA
  beforeAll(() => {
    process.env.LARDER_DATA = folder
  })
  afterAll(() => {
    process.env.LARDER_DATA = before
    rmSync(folder, { recursive: true, force: true })
  })

  const nell: ImportChoices = { ownerName: 'Nell Oxtoby' }
  const stage = async (bytes: Uint8Array | string, name = 'stash.xlsx') =>
    (await stageFile(name, typeof bytes === 'string' ? new TextEncoder().encode(bytes) : bytes)).stagedId
  const bring = async (stagedId: string, choices: ImportChoices = nell) => {
    const result = await bringIn(stagedId, choices)
    if (!result.ok) throw new Error(JSON.stringify(result.error))
    return result.value
  }
  const preview = async (stagedId: string, choices: ImportChoices = nell) => {
    const result = await previewImport(stagedId, choices)
    if (!result.ok) throw new Error(JSON.stringify(result.error))
    return result.value
  }
  const bookOf = (sheets: Record<string, unknown[][]>): Uint8Array => {
    const book = XLSX.utils.book_new()
    for (const [name, rows] of Object.entries(sheets))
      XLSX.utils.book_append_sheet(book, XLSX.utils.aoa_to_sheet(rows, { UTC: true }), name)
    return new Uint8Array(XLSX.write(book, { type: 'buffer', bookType: 'xlsx', bookSST: true }))
  }
  const homesOf = async (code: string) => {
    const held = await open().prisma.batch.findMany({
      where: { thread: { code }, goneAt: null },
      select: { wholePutUps: true, homePlace: { select: { label: true } }, currentPlace: { select: { label: true } } },
      orderBy: { id: 'asc' },
    })
    return held.map((batch) => [batch.homePlace?.label, batch.currentPlace?.label, batch.wholePutUps])
  }

  it('takes each sheet by itself, titles, joined cells, notes and days that were codes told', async () => {
    const threads = XLSX.utils.aoa_to_sheet(
      [
        ['What we hold, March'],
        [],
        ['Drawer', 'Maker', 'Line', 'Code', 'Skeins'],
        ['W1', 'Larkholm', 'Workbook Cotton', '0017', 2],
        ['', 'Larkholm', 'Workbook Cotton', '0018', 1],
        ['W2', 'Larkholm', 'Workbook Cotton', new Date(Date.UTC(2026, 11, 3)), 1],
        ['Total', '', '', '', 4],
      ],
      { UTC: true },
    )
    threads['!merges'] = [XLSX.utils.decode_range('A4:A5')]
    XLSX.utils.cell_add_comment(threads.E5 as XLSX.CellObject, 'half used', 'Nell')
    threads.E4 = { t: 'n', v: 2, f: '1+1' }
    const book = XLSX.utils.book_new()
    XLSX.utils.book_append_sheet(book, threads, 'Threads')
    XLSX.utils.book_append_sheet(
      book,
      XLSX.utils.aoa_to_sheet([
        ['Label', 'Kind'],
        ['W1', 'drawer'],
      ]),
      'Places',
    )
    const stagedId = await stage(new Uint8Array(XLSX.write(book, { type: 'buffer', bookType: 'xlsx' })))

    const seen = await preview(stagedId)
    expect(seen).toMatchObject({
      kind: 'threads',
      counts: { added: 3, refused: 0 },
      found: { sheetName: 'Threads', headerRowNumber: 3 },
    })
    expect(seen.found.sheets?.map(({ name }) => name)).toEqual(['Threads', 'Places'])
    expect(seen.warnings.map(({ kind, accepted }) => [kind, accepted])).toEqual(
      expect.arrayContaining([
        ['merged-cells-filled', ['1']],
        ['totals-row', undefined],
        ['formulas-taken', ['1']],
        ['code-looks-like-date', ['3-12', '12-3']],
      ]),
    )
    await bring(stagedId)
    expect(await homesOf('0018')).toEqual([['W1', 'W1', 1]])
    expect(await open().prisma.thread.findFirstOrThrow({ where: { code: '0018' } })).toMatchObject({ note: 'Skeins: half used' })

    const places = await preview(stagedId, { reading: { sheet: 'Places' } })
    expect(places).toMatchObject({ kind: 'places', counts: { changed: 0, same: 1 } })
    expect((await listImports(1))[0]).toMatchObject({ fileName: 'stash.xlsx, Threads' })
    expect(await previewImport(stagedId, { reading: { sheet: 'Nowhere' } })).toMatchObject({
      ok: false,
      error: { kind: 'no-such-sheet', sheets: ['Threads', 'Places'] },
    })
  })

  it('turns a sheet of drawers into threads, and remembers sheet, layout, headings and maker for the next of its shape', async () => {
    const drawers = [
      ['X1', 'X2'],
      ['0411 (2)', '0412'],
      ['0413', '0414 Pine (3)'],
    ]
    const first = await stage(
      bookOf({
        Notes: [
          ['Only', 'words'],
          ['nothing', 'here'],
        ],
        Chest: drawers,
      }),
      'chest.xlsx',
    )
    const reading = { sheet: 'Chest' }
    expect(await previewImport(first, { ...nell, reading })).toMatchObject({
      ok: false,
      error: { kind: 'mapping-incomplete', missing: ['Maker'] },
    })
    const mapping = {
      kind: 'threads' as const,
      columns: { place: 0, code: 1, name: 2, skeins: 3 },
      units: {},
      defaults: { owner: 'Nell Oxtoby', maker: 'Larkholm', line: 'Chest Cotton' },
      reading,
    }
    expect((await bring(first, { mapping })).counts).toEqual({ added: 4, changed: 0, same: 0, refused: 0 })
    expect(await homesOf('0414')).toEqual([['X2', 'X2', 3]])
    const movement = await open().prisma.movement.findFirstOrThrow({ where: { batch: { thread: { code: '0414' } } } })
    expect(movement.reason).toBe('brought in from chest.xlsx, Chest, cell B3')

    // Another file of the same sheets and the same look, with nothing said.
    const next = await stage(
      bookOf({
        Notes: [
          ['Only', 'words'],
          ['nothing', 'here'],
        ],
        Chest: [...drawers, ['0415', '']],
      }),
      'later.xlsx',
    )
    const again = await preview(next, {})
    expect(again).toMatchObject({
      isMappingRemembered: true,
      kind: 'threads',
      found: { sheetName: 'Chest', layout: 'drawer-columns' },
    })
    expect(again.counts).toEqual({ added: 1, changed: 0, same: 4, refused: 0 })
  })

  it('finds the headings again where a person had to say where they stand', async () => {
    const text = (code: string) => `Aisle;Shelf\nnot;these\nMarke;Farbe\nLarkholm;${code}\n`
    const reading = { headerRowNumber: 3, headerRows: 1 as const, layout: 'rows' as const }
    const mapping = {
      kind: 'threads' as const,
      columns: { maker: 0, code: 1 },
      units: {},
      defaults: { owner: 'Nell Oxtoby', line: 'Aisle Cotton' },
      reading,
    }
    await bring(await stage(text('0511'), 'a.csv'), { mapping })
    expect(await preview(await stage(text('0512'), 'b.csv'), { kind: 'threads' })).toMatchObject({
      isMappingRemembered: true,
      found: { headerRowNumber: 3 },
      counts: { added: 1, refused: 0 },
    })
  })

  it('moves a batch whose drawer changed in the file it came from, asks where another file names it, and can be told either way', async () => {
    const file = (rows: string[]) =>
      ['Maker,Line,Code,Skeins,Place', ...rows.map((row) => `Larkholm,Move Cotton,${row}`)].join('\n')
    await bring(await stage(file(['0601,2,M1', '0602,1,M1', '0603,1,M1']), 'list.csv'))
    const changed = await stage(file(['0601,2,M2', '0602,1,M1', '0603,1,M1']), 'list.csv')
    expect((await preview(changed)).warnings).toMatchObject([{ kind: 'batch-moved', raw: 'M2', accepted: ['M1'] }])
    const moved = await bring(changed)
    expect(moved.counts).toMatchObject({ added: 0, changed: 1, same: 2 })
    expect(await homesOf('0601')).toEqual([['M2', 'M2', 2]])
    expect((await bring(changed)).counts).toMatchObject({ added: 0, changed: 0 })
    expect(await undoImport(moved.importId)).toMatchObject({ ok: true, value: { left: [] } })
    expect(await homesOf('0601')).toEqual([['M1', 'M1', 2]])

    const other = await stage(file(['0602,4,M7']), 'other.csv')
    const asked = await preview(other)
    expect(asked).toMatchObject({ counts: { added: 1 }, warnings: [{ kind: 'batch-perhaps-moved', accepted: ['M1'] }] })
    const toldMoved = await preview(other, { mapping: { ...asked.mapping, otherHome: 'moved' } })
    expect(toldMoved.counts).toMatchObject({ added: 0, changed: 1 })
    expect(await preview(changed, { mapping: { ...asked.mapping, otherHome: 'beside' } })).toMatchObject({
      counts: { added: 1 },
      warnings: [],
    })
  })

  it('comes through files with bytes changed at random without half an import, a crash or a hang', {
    timeout: 120_000,
  }, async () => {
    const random = seededRandom('broken workbooks')
    const sound = [
      bookOf({
        Threads: [
          ['Maker', 'Line', 'Code', 'Skeins'],
          ['Larkholm', 'Fuzz Cotton', '0701', 1],
          ['Larkholm', 'Fuzz Cotton', '0702', 2],
        ],
      }),
      new TextEncoder().encode('Maker,Line,Code,Skeins\nLarkholm,Fuzz Cotton,0701,1\n"Larkholm",Fuzz Cotton,"07""02",2\n'),
    ]
    const stock = async () => [
      await open().prisma.batch.count(),
      await open().prisma.movement.count(),
      await open().prisma.importBatch.count(),
    ]
    for (let turn = 0; turn < 12; turn++) {
      const bytes = Uint8Array.from(sound[turn % 2] as Uint8Array)
      for (let times = 0; times < 1 + (turn % 5); times++)
        bytes[Math.floor(random.next() * bytes.length)] = Math.floor(random.next() * 256)
      const was = await stock()
      const result = await bringIn(await stage(bytes), { ...nell, kind: 'threads' })
      if (result.ok) {
        expect(await undoImport(result.value.importId)).toMatchObject({ ok: true })
        expect(
          await open().prisma.batch.count({ where: { goneAt: null, thread: { line: { name: { startsWith: 'Fuzz' } } } } }),
        ).toBe(0)
      } else expect(await stock()).toEqual(was)
    }
  })

  if (office !== undefined)
    it('reads what LibreOffice writes', { timeout: 120_000 }, async () => {
      const csv = path.join(folder, 'office.csv')
      writeFileSync(csv, 'Maker,Line,Code,Skeins\nLarkholm,Office Cotton,"0801",2\nLarkholm,Office Cotton,"0802",3\n')
      const profile = `-env:UserInstallation=file://${path.join(folder, 'office')}`
      // The last figure takes every column as text (2), so that codes keep their zeros.
      const filter = '--infilter=CSV:44,34,76,1,1/2/2/2/3/2/4/2'
      spawnSync(office, [profile, '--headless', filter, '--convert-to', 'xlsx', '--outdir', folder, csv], { timeout: 100_000 })
      const stagedId = await stage(new Uint8Array(readFileSync(path.join(folder, 'office.xlsx'))), 'office.xlsx')
      expect(await preview(stagedId)).toMatchObject({ kind: 'threads', counts: { added: 2, refused: 0 } })
      await bring(stagedId)
      expect(await open().prisma.thread.count({ where: { code: { in: ['0801', '0802'] } } })).toBe(2)
    })
})
