import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import fc from 'fast-check'
import { afterAll, beforeAll, expect, it } from 'vitest'
import type { ArchiveRefused } from '#lib/archive/refusal'
import { archiveVersion } from '#lib/archive/versions'
import { bringBack } from '#lib/db/archive/bring-back'
import { heldHere } from '#lib/db/archive/held-here'
import { writeArchive } from '#lib/db/archive/write-archive'
import type { Database } from '#lib/db/client'
import { changeRows, manifestOf, readParts, tellAnew, writeParts } from './archive-parts'
import { describeOnEachEngine, openEmpty } from './engines'
import { granted } from './granted'
import { addOneOfEverything } from './one-of-everything'
import { addSmallWorld } from './small-world'

describeOnEachEngine('an archive that is not brought back', ({ name, open }) => {
  const dataBefore = process.env.LARDER_DATA
  let folder = ''
  let whole = ''
  let parts: Map<string, Buffer>
  let other: { database: Database; drop: () => Promise<void> }

  beforeAll(async () => {
    folder = mkdtempSync(path.join(tmpdir(), 'larder-refused-'))
    process.env.LARDER_DATA = path.join(folder, 'data')
    await addSmallWorld(open())
    await addOneOfEverything(open())
    whole = path.join(folder, 'whole.zip')
    await writeArchive(open(), { file: whole })
    parts = await readParts(whole)
    process.env.LARDER_DATA = path.join(folder, 'there')
    other = (await openEmpty(name === 'SQLite' ? 'sqlite' : 'postgresql')) as typeof other
  })
  afterAll(async () => {
    await other.drop()
    process.env.LARDER_DATA = dataBefore
    rmSync(folder, { recursive: true, force: true })
  })

  /** Try to bring a file back; whatever it says, nothing is to be there afterwards. */
  async function refusalOf(file: string): Promise<ArchiveRefused> {
    const before = await other.database.prisma.revision.findMany()
    const result = await bringBack(other.database, { file })
    if (result.ok) throw new Error('it was brought back')
    expect(await heldHere(other.database.prisma)).toEqual([])
    expect(await other.database.prisma.owner.count()).toBe(0)
    expect(await other.database.prisma.revision.findMany()).toEqual(before)
    const uploads = path.join(folder, 'there', 'uploads')
    const files = existsSync(uploads) ? readdirSync(uploads, { recursive: true, withFileTypes: true }) : []
    expect(files.filter((entry) => entry.isFile())).toEqual([])
    return result.error
  }

  async function refusalOfParts(changed: Iterable<[string, Buffer]>): Promise<ArchiveRefused> {
    const file = path.join(folder, 'changed.zip')
    await writeParts(file, changed)
    return refusalOf(file)
  }

  const withRows = (table: string, change: Parameters<typeof changeRows>[2]) =>
    refusalOfParts(tellAnew(changeRows(new Map(parts), table, change)))

  it('because it is something else', async () => {
    const file = path.join(folder, 'other.zip')
    writeFileSync(file, 'Maker,Line,Code\n')
    expect(await refusalOf(file)).toEqual({ kind: 'not-an-archive' })
    expect(await refusalOfParts([['threads.csv', Buffer.from('Maker')]])).toMatchObject({ kind: 'part-unknown' })
    expect(await refusalOfParts([['csv/threads.csv', Buffer.from('Maker')]])).toEqual({ kind: 'not-an-archive' })
  })

  it('because a newer version of the format was written than is read here', async () => {
    const newer = { ...manifestOf(parts), version: archiveVersion + 1, somethingNew: [] }
    const changed = new Map(parts).set('manifest.json', Buffer.from(JSON.stringify(newer)))
    const readable = archiveVersion
    expect(await refusalOfParts(changed)).toEqual({ kind: 'archive-newer', version: archiveVersion + 1, readable })
  })

  it('because it is cut off, wherever that is', async () => {
    const bytes = readFileSync(whole)
    const file = path.join(folder, 'torn.zip')
    for (const part of [0.1, 0.5, 0.9, 0.999]) {
      writeFileSync(file, bytes.subarray(0, Math.floor(bytes.length * part)))
      expect(await refusalOf(file)).toEqual({ kind: 'archive-torn' })
    }
  })

  it('because a byte of it was changed, wherever that is', async () => {
    const bytes = readFileSync(whole)
    const file = path.join(folder, 'bit.zip')
    const before = await other.database.prisma.revision.findMany()
    // Some bytes of a ZIP say nothing, times and what stands twice: where changing one does no harm, everything is there.
    const places = fc.sample(fc.record({ at: fc.nat(bytes.length - 1), bit: fc.nat(7) }), { seed: 7, numRuns: 8 })
    let refusals = 0
    for (const { at, bit } of places) {
      const changed = Buffer.from(bytes)
      changed[at] = (changed[at] as number) ^ (1 << bit)
      writeFileSync(file, changed)
      const fresh = await openEmpty('sqlite')
      if (!fresh) return
      const result = await bringBack(fresh.database, { file })
      if (result.ok) {
        const again = await writeArchive(fresh.database, { file: path.join(folder, 'again.zip') })
        expect(again.parts).toEqual(manifestOf(parts).parts)
      } else {
        refusals++
        expect(await heldHere(fresh.database.prisma)).toEqual([])
      }
      await fresh.drop()
      rmSync(path.join(folder, 'there'), { recursive: true, force: true })
    }
    expect(refusals).toBeGreaterThan(3)
    expect(await other.database.prisma.revision.findMany()).toEqual(before)
  })

  it('because a part is other than the manifest tells', async () => {
    const threads = String(parts.get('tables/Thread.jsonl'))
    expect(threads).toContain('"0017"')
    const changed = new Map(parts).set('tables/Thread.jsonl', Buffer.from(threads.replace('"0017"', '"0071"')))
    expect(await refusalOfParts(changed)).toEqual({ kind: 'part-altered', path: 'tables/Thread.jsonl' })
    const photo = [...parts.keys()].find((part) => part.startsWith('uploads/photos/')) as string
    const size = (parts.get(photo) as Buffer).length
    expect(await refusalOfParts(new Map(parts).set(photo, Buffer.alloc(size)))).toEqual({ kind: 'part-altered', path: photo })
    const sheet = new Map(parts).set('csv/places.csv', Buffer.alloc((parts.get('csv/places.csv') as Buffer).length, 'x'))
    expect(await refusalOfParts(sheet)).toEqual({ kind: 'part-altered', path: 'csv/places.csv' })
  })

  it('because a part is missing, or one too many', async () => {
    for (const lost of ['tables/Movement.jsonl', [...parts.keys()].find((part) => part.startsWith('uploads/files/')) as string]) {
      const fewer = new Map(parts)
      fewer.delete(lost)
      expect(await refusalOfParts(fewer)).toEqual({ kind: 'part-missing', path: lost })
      expect(await refusalOfParts(tellAnew(fewer))).toEqual({ kind: 'part-missing', path: lost })
    }
    const stray = new Map(parts).set('csv/other.csv', Buffer.from('x'))
    expect(await refusalOfParts(stray)).toEqual({ kind: 'part-unknown', path: 'csv/other.csv' })
    const twice: [string, Buffer][] = [...parts, ['tables/Owner.jsonl', Buffer.from('')]]
    expect(await refusalOfParts(twice)).toEqual({ kind: 'part-unknown', path: 'tables/Owner.jsonl' })
  })

  it('because a name in it leads elsewhere', async () => {
    const file = path.join(folder, 'astray.zip')
    for (const [harmless, astray] of [
      ['csv/aaaaaaaaaa.csv', '../../../../ab.csv'],
      ['csv/bbbbbbbbbb.csv', '/etc/cron.d/ab.csv'],
      ['csv/cccccccccc.csv', 'csv/..\\..\\..\\a.csv'],
      ['csv/dddddddddd.csv', 'uploads/photos/.ab'],
      ['csv/eeeeeeeeee.csv', 'C:/Windows/abc.csv'],
    ] as const) {
      expect(astray.length).toBe(harmless.length)
      await writeParts(file, tellAnew(new Map(parts).set(harmless, Buffer.from('x'))))
      writeFileSync(file, Buffer.from(readFileSync(file).toString('latin1').replaceAll(harmless, astray), 'latin1'))
      expect(await refusalOf(file)).toMatchObject({ kind: 'part-unknown' })
      expect(existsSync(path.join(folder, '..', 'ab.csv'))).toBe(false)
    }
  })

  it('because it would swell to far more than it is', async () => {
    const swollen = new Map(parts).set('tables/Setting.jsonl', Buffer.alloc(8 * 1024 ** 2, ' '))
    expect(await refusalOfParts(tellAnew(swollen))).toEqual({ kind: 'archive-too-large', path: 'tables/Setting.jsonl' })
  })

  it('because its rows do not hold together, whoever signed for them', async () => {
    const first = (change: Record<string, unknown>) => (rows: Record<string, unknown>[]) =>
      rows.map((row, at) => (at === 0 ? { ...row, ...change } : row))
    // A row that names one that is not there.
    expect(await withRows('Batch', first({ threadId: 'nobody' }))).toEqual({ kind: 'rows-do-not-fit', table: 'Batch' })
    expect(await withRows('Place', first({ parentId: 'nowhere' }))).toEqual({ kind: 'rows-do-not-fit', table: 'Place' })
    // A figure the database's own checks refuse.
    expect(await withRows('Batch', first({ wholePutUps: -1 }))).toEqual({ kind: 'rows-do-not-fit', table: 'Batch' })
    expect(await withRows('Project', first({ status: 'lost' }))).toEqual({ kind: 'rows-do-not-fit', table: 'Project' })
    // The same row twice.
    const twice = await withRows('Maker', (rows) => [...rows, rows[0] as Record<string, unknown>])
    expect(twice).toEqual({ kind: 'rows-do-not-fit', table: 'Maker' })
    // A file that is named and neither there nor told of as missing.
    const photoFile = '00000000-0000-7000-8000-00000000000a.webp'
    expect(await withRows('Notion', first({ photoFile }))).toEqual({ kind: 'part-missing', path: `uploads/photos/${photoFile}` })
  })

  it('because a line of it is no row', async () => {
    const cases: [Record<string, unknown>, object][] = [
      [{ version: '0' }, { kind: 'cell-not-right', column: 'version', takes: 'whole' }],
      [{ name: null }, { kind: 'cell-not-right', column: 'name', takes: 'text' }],
      [{ version: 2 ** 31 }, { kind: 'cell-not-right', column: 'version', takes: 'whole' }],
      [{ nickname: 'x' }, { kind: 'column-unknown', column: 'nickname' }],
    ]
    for (const [change, fault] of cases)
      expect(await withRows('Owner', (rows) => rows.map((row, at) => (at === 1 ? { ...row, ...change } : row)))).toEqual({
        ...{ kind: 'row-not-read', table: 'Owner', line: 2, fault },
      })
    const broken = tellAnew(new Map(parts).set('tables/Owner.jsonl', Buffer.from('{"id":\n')))
    expect(await refusalOfParts(broken)).toEqual({
      ...{ kind: 'row-not-read', table: 'Owner', line: 1, fault: { kind: 'not-a-row' } },
    })
  })

  it('because it was stopped in the middle', async () => {
    for (const step of ['rows', 'files'] as const) {
      const stop = new AbortController()
      const before = await other.database.prisma.revision.findMany()
      const result = await bringBack(other.database, {
        ...{ file: whole, signal: stop.signal },
        report: (progress) => progress.step === step && progress.done > 0 && stop.abort(new Error('enough')),
      })
      expect(result).toEqual({ ok: false, error: { kind: 'stopped' } })
      expect(await heldHere(other.database.prisma)).toEqual([])
      expect(await other.database.prisma.revision.findMany()).toEqual(before)
    }
  })

  it('because there is something here already, until there is not', async () => {
    const held = await open().prisma.batch.count()
    const result = await bringBack(open(), { file: whole })
    expect(result).toMatchObject({ ok: false, error: { kind: 'not-empty' } })
    if (!result.ok && result.error.kind === 'not-empty') expect(result.error.held).toContainEqual({ table: 'Batch', count: held })
    // An owner with nothing on record, and settings, are no collection.
    await other.database.prisma.owner.create({ data: { id: 'o', name: 'Somebody', nameKey: 'somebody' } })
    granted(await bringBack(other.database, { file: whole }))
    expect(await other.database.prisma.batch.count()).toBe(held)
    expect(await other.database.prisma.owner.count({ where: { id: 'o' } })).toBe(0)
  })
})
