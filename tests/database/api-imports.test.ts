import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { bringFileIn, getImport, listImportsOperation, undoImportOperation } from '#api/imports'
import { problemSchema } from '#api/problem'
import { ask } from '#tests/unit/api/ask'
import { GET as oneImport } from '../../app/api/v1/imports/[importId]/route'
import { POST as undo } from '../../app/api/v1/imports/[importId]/undo/route'
import { POST as bring, GET as imports } from '../../app/api/v1/imports/route'
import { describeOnEachEngine } from './engines'

const csv = { 'content-type': 'text/csv' }
const stash = [
  'Brand;Range;No.;Colour;Skeins;Drawer',
  'Larkholm;Stranded;0017;Rook Grey;2;T2.1',
  'Larkholm;Stranded;17;Larch;two;T2.1',
].join('\n')

describeOnEachEngine('bringing in by the API', ({ open }) => {
  const folder = mkdtempSync(path.join(tmpdir(), 'larder-api-import-'))
  const before = process.env.LARDER_DATA
  beforeAll(() => {
    process.env.LARDER_DATA = folder
  })
  afterAll(() => {
    process.env.LARDER_DATA = before
    rmSync(folder, { recursive: true, force: true })
  })

  const post = async (asked: Parameters<typeof ask>[1]) => {
    const { status, body } = await ask(bring, asked)
    expect(body).not.toHaveProperty('detail')
    expect(status).toBe(200)
    return bringFileIn.answer.parse(body)
  }
  const problem = async (asked: Parameters<typeof ask>[1]) => problemSchema.parse((await ask(bring, asked)).body)
  const held = () => open().prisma.batch.count({ where: { goneAt: null } })

  it('says what a file would do, by row and column, and writes nothing', async () => {
    const report = await post({ path: 'imports?dry-run=true', raw: stash, headers: csv })
    expect(report).toMatchObject({
      ...{ isDryRun: true, import: null, kind: 'threads', separator: ';', rowCount: 2 },
      counts: { added: 1, changed: 0, same: 0, refused: 1 },
      errors: [{ row: 3, column: 'Skeins' }],
    })
    expect(report.errors[0]?.message).toContain('two')
    expect(report.mappingText).toContainEqual({ field: 'Code', column: 'No.' })
    expect(await held()).toBe(0)
    expect(listImportsOperation.answer.parse((await ask(imports)).body).imports).toEqual([])
  })

  it('brings the good rows in once, by the body or a form, and takes them back', async () => {
    const form = new FormData()
    form.set('file', new File([stash], 'stash.csv', { type: 'text/csv' }))
    const first = await post({ path: 'imports?kind=threads', raw: form, method: 'POST' })
    expect(first).toMatchObject({ fileName: 'stash.csv', counts: { added: 1, refused: 1 }, import: { status: 'done' } })
    expect(await held()).toBe(1)

    form.set('mapping', JSON.stringify(first.mapping))
    const again = await post({ path: 'imports', raw: form, method: 'POST' })
    expect(again.counts).toMatchObject({ added: 0, changed: 0, same: 1 })
    expect(await held()).toBe(1)

    const importId = first.import?.importId as string
    const parts = { importId }
    expect(getImport.answer.parse((await ask(oneImport, { parts })).body)).toEqual(first.import)
    const undone = await ask(undo, { parts, method: 'POST' })
    expect(undoImportOperation.answer.parse(undone.body).takenBack).toBeGreaterThan(0)
    expect(await held()).toBe(0)
    expect((await ask(undo, { parts, method: 'POST' })).status).toBe(409)
    expect((await ask(oneImport, { parts })).body).toMatchObject({ status: 'undone' })
    const list = listImportsOperation.answer.parse((await ask(imports)).body)
    expect(list.imports.map(({ status }) => status)).toEqual(['done', 'undone'])
  })

  it('refuses what is no table, and says what would be', async () => {
    expect(await problem({ raw: '', headers: csv })).toMatchObject({ status: 422, detail: 'The file is empty.' })
    expect(await problem({ raw: 'a,b\n1,2', headers: csv })).toMatchObject({ status: 422, errors: [{ parameter: 'kind' }] })
    expect((await problem({ raw: stash, headers: { 'content-type': 'application/json' } })).status).toBe(415)
    const zip = new Uint8Array([0x50, 0x4b, 0x03, 0x04, 0, 0, 0, 0])
    expect((await problem({ raw: zip, headers: csv })).status).toBe(415)
    expect((await problem({ raw: stash, headers: { 'content-type': 'multipart/form-data; boundary=x' } })).status).toBe(415)
    expect((await problem({ path: 'imports?kind=spoons', raw: stash, headers: csv })).errors).toMatchObject([
      { parameter: 'kind' },
    ])
    const noFile = new FormData()
    noFile.set('file', 'text')
    expect((await problem({ raw: noFile, method: 'POST' })).errors).toMatchObject([{ field: '/file' }])
    const badMapping = new FormData()
    badMapping.set('file', new File([stash], 'stash.csv'))
    badMapping.set('mapping', '{"kind":"threads","columns":{"spoon":1},"units":{},"defaults":{}}')
    expect((await problem({ raw: badMapping, method: 'POST' })).errors).toMatchObject([{ field: '/mapping/columns/spoon' }])
    expect((await problem({ raw: stash, headers: { ...csv, 'content-length': '61000000' } })).status).toBe(413)
    expect(await held()).toBe(0)
    expect((await ask(undo, { parts: { importId: 'none' }, method: 'POST' })).status).toBe(404)
  })
})
