import { createHash } from 'node:crypto'
import { mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import sharp from 'sharp'
import { afterAll, beforeAll, expect, it, vi } from 'vitest'
import { addChart } from '#lib/db/chart/add-chart'
import { findChart } from '#lib/db/chart/queries'
import { readCovers } from '#lib/db/chart/read-covers'
import { removeChart } from '#lib/db/chart/remove-chart'
import { setCover } from '#lib/db/chart/set-cover'
import { keepFile } from '#lib/db/file/keep-file'
import { mostFileBytes, type PreparedFile, prepareFile } from '#lib/db/file/prepare-file'
import { findFileOf, findSameFile, listFiles, readFileOf } from '#lib/db/file/queries'
import { removeFile, restoreFile } from '#lib/db/file/remove-file'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { aDesign, aLeaflet, hanneDrewitt, theShop } from './things'

let viewerIds: string[] = []
vi.mock('#viewer/viewer', () => ({ getViewer: async () => ({ ownerIds: viewerIds }) }))
// Files of a group share what is loaded: the stand-in is seen by what is loaded anew, and by nothing after this file.
vi.resetModules()
const { GET } = await import('../../app/files/[fileId]/route')
afterAll(() => {
  vi.resetModules()
})

const pdfBytes = (words: string) => new TextEncoder().encode(`%PDF-1.4\n% ${words}\n%%EOF\n`)
const aPdf = async (words: string, name = 'salt-road.pdf'): Promise<PreparedFile> =>
  granted(await prepareFile(name, pdfBytes(words)))

describeOnEachEngine('kept files', ({ open }) => {
  const [hanne, shop] = [hanneDrewitt(), theShop()]
  let folder = ''
  const before = process.env.LARDER_DATA
  const onDisk = () => readdirSync(path.join(folder, 'uploads', 'files'))
  const addOf = async (title: string, ownerId: string) =>
    granted(await addChart({ ...aLeaflet(title, ownerId), isAnother: false, design: aDesign(title) })).chartId
  const keep = (chartId: string, file: PreparedFile, over: Partial<Parameters<typeof keepFile>[0]> = {}) =>
    keepFile({ thing: { noun: 'chart', id: chartId }, role: 'chart', file, pages: 3, isAnother: false, ...over })

  beforeAll(async () => {
    folder = mkdtempSync(path.join(tmpdir(), 'larder-files-'))
    process.env.LARDER_DATA = folder
    await open().prisma.owner.create({ data: hanne })
    await open().prisma.owner.create({ data: shop })
  })
  afterAll(() => {
    if (before === undefined) delete process.env.LARDER_DATA
    else process.env.LARDER_DATA = before
    rmSync(folder, { recursive: true, force: true })
  })

  it('goes by what a file is, not by its name', async () => {
    expect(await prepareFile('a.pdf', new Uint8Array())).toEqual({ ok: false, error: { kind: 'file-empty' } })
    const heic = Buffer.concat([Buffer.from([0, 0, 0, 24]), Buffer.from('ftypheic'), Buffer.alloc(64)])
    expect(await prepareFile('a.jpg', heic)).toEqual({ ok: false, error: { kind: 'file-heic' } })
    const script = new TextEncoder().encode('<svg xmlns="http://www.w3.org/2000/svg"/>')
    expect(await prepareFile('a.pdf', script)).toMatchObject({ ok: false, error: { kind: 'file-of-another-kind' } })
    const large = new Uint8Array(mostFileBytes + 1)
    expect(await prepareFile('a.pdf', large)).toMatchObject({ ok: false, error: { kind: 'file-too-large' } })
    const kept = await aPdf('x', '../../etc/"salt\u202e road".pdf')
    expect([kept.name, kept.mime]).toEqual(['salt road.pdf', 'application/pdf'])
  })

  it('keeps a file as it came, says when it is there already, and brings back what was taken off', async () => {
    const chartId = await addOf('The Salt Road', hanne.id)
    const file = await aPdf('the salt road')
    const { fileId } = granted(await keep(chartId, file))
    expect(await listFiles({ noun: 'chart', id: chartId })).toMatchObject([
      { id: fileId, role: 'chart', owner: { id: hanne.id }, name: 'salt-road.pdf', pages: 3, isGone: false, version: 0 },
    ])
    const read = await readFileOf(fileId, [hanne.id])
    expect(read?.bytes).toEqual(new Uint8Array(file.bytes))
    expect(file.sha256).toBe(createHash('sha256').update(file.bytes).digest('hex'))

    expect(await keep(chartId, file)).toMatchObject({ ok: false, error: { kind: 'kept-already', file: { fileId } } })
    const other = await addOf('The Salt Road, again', hanne.id)
    const elsewhere = { kind: 'kept-elsewhere', file: { fileId, chartId, chartTitle: 'The Salt Road' } }
    expect(await keep(other, file)).toEqual({
      ok: false,
      error: { ...elsewhere, file: { ...elsewhere.file, name: 'salt-road.pdf' } },
    })
    granted(await keep(other, file, { isAnother: true }))
    expect(onDisk()).toHaveLength(2)

    granted(await removeFile({ id: fileId, version: 0 }))
    expect(await readFileOf(fileId, [hanne.id])).toBeNull()
    expect(await removeFile({ id: fileId, version: 0 })).toEqual({ ok: false, error: { kind: 'changed-meanwhile' } })
    granted(await restoreFile({ id: fileId, version: 1 }))
    granted(await removeFile({ id: fileId, version: 2 }))
    // The same bytes once more: the row that was there stands again, and nothing is kept twice on the disk.
    expect(granted(await keep(chartId, file, { isAnother: true })).fileId).toBe(fileId)
    expect(onDisk()).toHaveLength(2)
  })

  it('knows the same file among an owner’s own, and forgets those of charts that are gone', async () => {
    const file = await aPdf('little barge')
    const chartId = await addOf('Little Barge', shop.id)
    granted(await keep(chartId, file))
    expect(await findSameFile(file.sha256, [shop.id])).toMatchObject({ chartId, chartTitle: 'Little Barge' })
    expect(await findSameFile(file.sha256, [hanne.id])).toBeNull()
    granted(await removeChart({ id: chartId, version: 0, ending: 'lost', note: null }))
    expect(await findSameFile(file.sha256, [shop.id])).toBeNull()
    expect(await listFiles({ noun: 'chart', id: chartId })).toHaveLength(1)
  })

  it('serves a file to those who look after its owner’s goods alone, to be saved and never run', async () => {
    const chartId = await addOf('Moth and Candle', hanne.id)
    const { fileId } = granted(await keep(chartId, await aPdf('moth', 'Moth & “Candle” (été).pdf')))
    const get = () => GET(new Request('http://127.0.0.1/'), { params: Promise.resolve({ fileId }) })
    viewerIds = [shop.id]
    expect((await get()).status).toBe(404)
    expect(await findFileOf(fileId, [shop.id])).toBeNull()
    viewerIds = [hanne.id]
    const served = await get()
    expect(served.status).toBe(200)
    expect(new Uint8Array(await served.arrayBuffer())).toEqual(new Uint8Array(pdfBytes('moth')))
    expect(Object.fromEntries(served.headers)).toMatchObject({
      ...{ 'content-type': 'application/pdf', 'cache-control': 'no-store', 'x-content-type-options': 'nosniff' },
      'content-disposition': `attachment; filename="Moth & _Candle_ (_t_).pdf"; filename*=UTF-8''Moth%20%26%20%E2%80%9CCandle%E2%80%9D%20%28%C3%A9t%C3%A9%29.pdf`,
    })
  })

  it('keeps receipts with anything, and digital charts with charts alone', async () => {
    const project = { noun: 'project', id: 'nothing' } as const
    const file = await aPdf('receipt')
    expect(await keep('', file, { thing: project })).toEqual({ ok: false, error: { kind: 'only-charts' } })
    expect(await keep('', file, { thing: project, role: 'receipt' })).toEqual({ ok: false, error: { kind: 'no-such-thing' } })
    const { prisma } = open()
    const piece = { name: 'Linen', weave: 'single', endsThreads: 28, endsPerUm: 25_400, picksThreads: 28, picksPerUm: 25_400 }
    await prisma.clothPiece.create({ data: { id: 'c1', ownerId: shop.id, ...piece, widthUm: 100_000, heightUm: 100_000 } })
    granted(await keep('', file, { thing: { noun: 'cloth', id: 'c1' }, role: 'receipt' }))
    expect(await listFiles({ noun: 'cloth', id: 'c1' })).toMatchObject([{ role: 'receipt', owner: { id: shop.id } }])
  })

  it('gives a chart a cover, and takes it off', async () => {
    const chartId = await addOf('Harbour Band Sampler', shop.id)
    const { coverHash } = await import('#lib/db/photo/cover-hash')
    const picture = await sharp({ create: { width: 60, height: 80, channels: 3, background: '#8e2f2b' } })
      .png()
      .toBuffer()
    const hash = await coverHash(picture)
    granted(await setCover({ chartId, version: 0, cover: { file: 'a.webp', hash } }))
    expect(await readCovers([chartId])).toEqual(new Map([[chartId, { file: 'a.webp', look: undefined }]]))
    expect((await findChart(chartId))?.version).toBe(1)
    expect(await setCover({ chartId, version: 0, cover: null })).toEqual({ ok: false, error: { kind: 'changed-meanwhile' } })
    granted(await setCover({ chartId, version: 1, cover: null }))
    expect((await readCovers([chartId])).size).toBe(0)
  })
})
