import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { fileOperations } from '#api/files'
import { problemSchema } from '#api/problem'
import { readingOperations } from '#api/readings'
import type { Handler } from '#api/serve'
import { addThread } from '#lib/db/thread/add-thread'
import { ask } from '#tests/unit/api/ask'
import { POST as removeIt } from '../../app/api/v1/files/[fileId]/remove/route'
import { POST as restoreIt } from '../../app/api/v1/files/[fileId]/restore/route'
import { GET as oneFile } from '../../app/api/v1/files/[fileId]/route'
import { POST as keep, GET as listKept } from '../../app/api/v1/files/route'
import { POST as correct } from '../../app/api/v1/readings/[readingId]/corrections/route'
import { POST as drop } from '../../app/api/v1/readings/[readingId]/drop/route'
import { GET as one } from '../../app/api/v1/readings/[readingId]/route'
import { POST as save } from '../../app/api/v1/readings/[readingId]/save/route'
import { POST as undo } from '../../app/api/v1/readings/[readingId]/undo/route'
import { GET as list, POST as readFile } from '../../app/api/v1/readings/route'
import { POST as undoSaved } from '../../app/api/v1/readings/saved/[changeId]/undo/route'
import { POST as readText } from '../../app/api/v1/readings/text/route'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { aThread, hanneDrewitt, stranded, theShop } from './things'

const text =
  'The Salt Road\nLarkholm stranded\n● 0311 Deep Mussel, 2 strands, 1,240 stitches\n■ 9912 Kiln Red, 2 strands, 44 stitches'

describeOnEachEngine('keys and files by the API', ({ open }) => {
  const [hanne, shop] = [hanneDrewitt('a-hanne'), theShop('b-shop')]
  let folder = ''
  const before = process.env.LARDER_DATA

  beforeAll(async () => {
    folder = mkdtempSync(path.join(tmpdir(), 'larder-api-readings-'))
    process.env.LARDER_DATA = folder
    await open().prisma.owner.createMany({ data: [hanne, shop] })
    granted(await addThread({ ...aThread('0311', { name: 'Deep Mussel' }), line: stranded() }))
  })
  afterAll(() => {
    if (before === undefined) delete process.env.LARDER_DATA
    else process.env.LARDER_DATA = before
    rmSync(folder, { recursive: true, force: true })
  })

  const problem = async (handler: Handler, asked: Parameters<typeof ask>[1]) =>
    problemSchema.parse((await ask(handler, asked)).body).detail

  it('reads a text, corrects it, saves it with the threads that are meant, and takes it back', async () => {
    const read = readingOperations.readText.answer.parse((await ask(readText, { body: { text, ownerId: hanne.id } })).body)
    expect(read).toMatchObject({ state: 'read', source: 'text', lineCount: 2, version: 0, name: 'The Salt Road' })
    const parts = { readingId: read.readingId }
    const path_ = `readings/x?owner=${hanne.id}`

    const field = { kind: 'field', place: { design: 0, list: 0, line: 0 }, edit: { field: 'symbol', value: '○' } }
    const corrections = [field]
    const corrected = readingOperations.correct.answer.parse(
      (await ask(correct, { parts, path: path_, body: { version: 0, corrections } })).body,
    )
    expect(corrected.reading.version).toBe(1)
    expect(await problem(correct, { parts, path: path_, body: { version: 0, corrections } })).toContain('Somebody else corrected')
    expect(
      await problem(correct, { parts, path: path_, body: { version: 1, corrections: [{ ...field, edit: { field: 'x' } }] } }),
    ).toBeTruthy()
    const undone = readingOperations.undo.answer.parse((await ask(undo, { parts, path: path_, body: { version: 1 } })).body)
    expect(undone.version).toBe(2)

    const lists = [{ index: 0, name: 'Cotton' }]
    const target = {
      kind: 'chart',
      title: 'The Salt Road',
      ownerId: hanne.id,
      designs: [{ index: 0, title: 'The Salt Road', lists }],
    }
    expect(await problem(save, { parts, path: path_, body: { version: 2, target } })).toContain('line 2 has a new thread')
    const addThreads = [{ maker: 'Larkholm', line: 'stranded', code: '9912' }]
    const saved = readingOperations.save.answer.parse(
      (await ask(save, { parts, path: path_, body: { version: 2, target, addThreads } })).body,
    )
    expect(saved).toMatchObject({ lineCount: 2, addedThreads: 1 })
    const now = readingOperations.get.answer.parse((await ask(one, { parts, path: path_ })).body)
    expect(now).toMatchObject({ state: 'saved', saved: { chartId: saved.chartId } })
    const { status } = await ask(undoSaved, { parts: { changeId: saved.changeId }, method: 'POST' })
    expect(status).toBe(200)
    expect(await open().prisma.design.count()).toBe(0)
  })

  it('tells nobody of another owner’s readings, and throws one away', async () => {
    const read = readingOperations.readText.answer.parse((await ask(readText, { body: { text, ownerId: shop.id } })).body)
    const parts = { readingId: read.readingId }
    expect((await ask(one, { parts, path: `readings/x?owner=${hanne.id}` })).status).toBe(404)
    const mine = async () =>
      readingOperations.list.answer
        .parse((await ask(list, { path: `readings?owner=${shop.id}` })).body)
        .readings.map((each) => each.readingId)
    expect(await mine()).toEqual([read.readingId])
    expect((await ask(drop, { parts, path: `readings/x?owner=${shop.id}`, method: 'POST' })).status).toBe(200)
    expect(await mine()).toEqual([])
  })

  it('refuses what is neither a PDF nor a picture before it is read', async () => {
    const form = new FormData()
    form.set('file', new File(['words'], 'key.pdf'))
    expect(await problem(readFile, { raw: form, method: 'POST' })).toContain('key.pdf: it is neither a PDF nor a picture')
  })

  it('keeps a receipt with a chart, lists it for its owner alone, takes it off and brings it back', async () => {
    const { prisma } = open()
    await prisma.chart.create({ data: { id: 'h1', title: 'Nine Wrens', titleKey: 'nine wrens', ownerId: hanne.id } })
    const form = new FormData()
    form.set('file', new File(['%PDF-1.4\n%%EOF\n'], 'receipt.pdf'))
    const query = 'noun=chart&thingId=h1'
    const kept = fileOperations.keep.answer.parse(
      (await ask(keep, { path: `files?${query}&role=receipt`, raw: form, method: 'POST' })).body,
    )
    expect(kept).toMatchObject({ role: 'receipt', name: 'receipt.pdf', mime: 'application/pdf', isGone: false })
    expect(await problem(keep, { path: `files?${query}&role=receipt`, raw: form, method: 'POST' })).toContain('kept here already')
    const listed = async (owner: string) =>
      fileOperations.list.answer.parse((await ask(listKept, { path: `files?${query}&owner=${owner}` })).body).files.length
    expect([await listed(hanne.id), await listed(shop.id)]).toEqual([1, 0])
    const parts = { fileId: kept.fileId }
    expect((await ask(oneFile, { parts, path: `files/x?owner=${shop.id}` })).status).toBe(404)
    const asHers = `files/x?owner=${hanne.id}`
    const removed = fileOperations.remove.answer.parse((await ask(removeIt, { parts, path: asHers, body: {} })).body)
    expect(removed).toMatchObject({ isGone: true, version: 1 })
    expect(await problem(removeIt, { parts, path: asHers, body: { version: 1 } })).toContain('changed')
    expect(fileOperations.restore.answer.parse((await ask(restoreIt, { parts, path: asHers, body: {} })).body)).toMatchObject({
      isGone: false,
    })
  })
})
