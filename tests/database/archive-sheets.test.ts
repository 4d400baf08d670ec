import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { read, utils } from '@e965/xlsx'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { collectionWorkbook, mostSheetRows, peopleSheets } from '#lib/db/archive/collection-workbook'
import { writeArchive } from '#lib/db/archive/write-archive'
import { bringIn } from '#lib/db/importing/bring-in'
import { bringInSample } from '#lib/db/importing/sample'
import { stageFile } from '#lib/db/importing/stage-file'
import { importKinds } from '#lib/importing/fields'
import { readParts } from './archive-parts'
import { openEmpty } from './engines'
import { granted } from './granted'

const held = globalThis as { larderDatabase?: unknown; larderAnswers?: unknown }
type Empty = NonNullable<Awaited<ReturnType<typeof openEmpty>>>
const units = { lengthUnit: 'in', threadUnit: 'm' } as const

/** Texts a spreadsheet would run, or take zeros or a mark off, as codes, names, lots and notes. */
const nasty = [
  'Owner,Maker,Line,Code,Name,Skeins,Lot,Place,Note',
  'Hanne Drewitt,Larkholm,Stranded Cotton,0017,Straw,2,007,N9,"=HYPERLINK(""http://x"",""y"")"',
  'Hanne Drewitt,Larkholm,Stranded Cotton,17,Honey,1,7,N9,+1+2',
  'Hanne Drewitt,Larkholm,Stranded Cotton,3-12,Moss,1,-0,N9,-2+3',
  "Hanne Drewitt,Larkholm,Stranded Cotton,1E5,Rush,1,1e9,N9,'quoted'",
  'Hanne Drewitt,Larkholm,Stranded Cotton,\'\'+9,"Sedge, ""soft""",1,@lot,N9,@SUM(1)',
  'Hanne Drewitt,Larkholm,Stranded Cotton,-0087,Reed,1,,N9,"\'=1+2"',
].join('\r\n')

// On one engine: that both write the same sheets, an archive's round trip shows.
describe('sheets that leave', () => {
  const dataBefore = process.env.LARDER_DATA
  let folder = ''
  let made: Empty
  const open = () => made.database
  beforeAll(async () => {
    made = (await openEmpty('sqlite')) as Empty
    held.larderDatabase = made.database
    folder = mkdtempSync(path.join(tmpdir(), 'larder-sheets-'))
    process.env.LARDER_DATA = path.join(folder, 'data')
    granted(await bringInSample())
    const { stagedId } = await stageFile('nasty.csv', Buffer.from(nasty))
    const { counts } = granted(await bringIn(stagedId, { kind: 'threads' }))
    expect(counts).toMatchObject({ refused: 0 })
  })
  afterAll(async () => {
    await made.drop()
    process.env.LARDER_DATA = dataBefore
    delete held.larderAnswers
    rmSync(folder, { recursive: true, force: true })
  })

  const sheetsOf = async () => {
    const file = path.join(folder, 'sheets.zip')
    await writeArchive(open(), { file })
    return readParts(file)
  }

  it('as CSV are brought in again as what they were', { timeout: 120_000 }, async () => {
    const sheets = await sheetsOf()
    const other = (await openEmpty('sqlite')) as Empty
    held.larderDatabase = other.database
    try {
      for (const kind of importKinds) {
        const bytes = sheets.get(`csv/${kind}.csv`) as Buffer
        // Nothing is said of it: its headings do.
        const { stagedId } = await stageFile(`${kind}.csv`, bytes)
        const { counts } = granted(await bringIn(stagedId, {}))
        expect([kind, counts.refused, counts.added > 0]).toEqual([kind, 0, true])
      }
      const file = path.join(folder, 'again.zip')
      await writeArchive(other.database, { file })
      const again = await readParts(file)
      for (const kind of importKinds)
        expect([
          kind,
          String(again.get(`csv/${kind}.csv`))
            .split('\r\n')
            .sort(),
        ]).toEqual([
          kind,
          String(sheets.get(`csv/${kind}.csv`))
            .split('\r\n')
            .sort(),
        ])
    } finally {
      held.larderDatabase = open()
      await other.drop()
    }
  })

  it('as CSV run nothing, and keep every sign of a code', async () => {
    const threads = String((await sheetsOf()).get('csv/threads.csv'))
    for (const cell of [',0017,', ',17,', ',3-12,', ',1E5,', ',-0087,', `"'=HYPERLINK(""http://x"",""y"")"`, `"'@lot"`])
      expect(threads).toContain(cell)
    expect(threads).not.toMatch(/(?:^|,|\n)"?[=@]/)
  })

  it('as XLSX keep codes as text with their zeros, days as days, and have no formula', async () => {
    const workbook = read(granted(await collectionWorkbook(open(), peopleSheets, units)), {
      cellFormula: true,
      cellDates: true,
      cellNF: true,
    })
    expect(workbook.SheetNames).toEqual(['Threads', 'Charts', 'Cloth', 'Places', 'Notions', 'Projects', 'Finishes'])
    for (const sheet of Object.values(workbook.Sheets))
      for (const [address, cell] of Object.entries(sheet)) if (!address.startsWith('!')) expect(cell.f).toBeUndefined()

    const sheetOf = (title: string) => workbook.Sheets[title] as NonNullable<(typeof workbook.Sheets)[string]>
    const rowsOf = (title: string) => utils.sheet_to_json<Record<string, unknown>>(sheetOf(title), { raw: true })
    const { prisma } = open()
    const threads = rowsOf('Threads')
    const nastyRows = threads.filter((row) => row['Lives in'] === 'N9')
    expect(nastyRows.map((row) => row.Code).sort()).toEqual(["'+9", '-0087', '0017', '17', '1E5', '3-12'])
    expect(nastyRows.find((row) => row.Code === '0017')).toMatchObject({
      Lot: '007',
      Note: '=HYPERLINK("http://x","y")',
      Whole: 2,
    })
    expect(nastyRows.find((row) => row.Code === '-0087')).toMatchObject({ Note: '=1+2' })
    expect(threads.length).toBe(
      (await prisma.batch.count({ where: { goneAt: null } })) +
        (await prisma.thread.count({ where: { goneAt: null, batches: { none: { goneAt: null } } } })),
    )

    const finished = await prisma.project.findMany({ where: { status: 'finished', goneAt: null } })
    const finishes = rowsOf('Finishes')
    expect(finishes.length).toBe(finished.length)
    const [first] = finishes
    expect(first?.Finished).toBeInstanceOf(Date)
    const latest = finished
      .map(({ finishedOn }) => finishedOn ?? '')
      .sort()
      .at(-1)
    expect((first?.Finished as Date | undefined)?.toISOString().slice(0, 10)).toBe(latest)
    const priced = rowsOf('Charts').find((row) => row.Chart === 'Kettle at Wend Cross')
    // As the sample's own file has it.
    expect(priced).toMatchObject({ Price: 14.5, Copies: 3, 'Stitches across': 112, 'Stitches up': 84, Designer: 'Mirabel Stoat' })
    expect((priced?.Bought as Date | undefined)?.toISOString().slice(0, 10)).toBe('2023-12-28')
  })

  it('as XLSX have headings that stay in sight and columns with a width', async () => {
    const file = path.join(folder, 'one.xlsx')
    writeFileSync(file, granted(await collectionWorkbook(open(), ['threads'], units)))
    const sheet = String((await readParts(file)).get('xl/worksheets/sheet1.xml'))
    expect(sheet).toMatch(/<pane [^>]*ySplit="1"[^>]*state="frozen"/)
    expect(sheet).toMatch(/<col [^>]*width="/)
    expect(sheet).not.toContain('<f>')
    expect(mostSheetRows).toBeLessThan(1_048_576)
  })
})
