import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, expect, it } from 'vitest'
import {
  bringBackOperation,
  getArchiveJob,
  getGivenArchive,
  giveArchiveOperation,
  listArchivesOperation,
  removeArchiveOperation,
  stopArchiveJobOperation,
  writeArchiveOperation,
} from '#api/archives'
import { archiveJobEnded } from '#lib/db/archive/archive-jobs'
import type { Database } from '#lib/db/client'
import { POST as remove } from '../../app/api/v1/archives/[archiveName]/remove/route'
import { POST as bringBack } from '../../app/api/v1/archives/given/[givenId]/bring-back/route'
import { GET as getGiven } from '../../app/api/v1/archives/given/[givenId]/route'
import { POST as give } from '../../app/api/v1/archives/given/route'
import { GET as getJob } from '../../app/api/v1/archives/jobs/[jobId]/route'
import { POST as stop } from '../../app/api/v1/archives/jobs/[jobId]/stop/route'
import { GET as list, POST as write } from '../../app/api/v1/archives/route'
import { GET as fetchArchive } from '../../app/archive/files/[name]/route'
import { POST as giveRaw } from '../../app/archive/given/route'
import { GET as fetchSheet } from '../../app/archive/sheets/[file]/route'
import { answer, problem } from './api-caller'
import { describeOnEachEngine, openEmpty } from './engines'
import { addSmallWorld } from './small-world'

const held = globalThis as { larderDatabase?: Database }

const formOf = (bytes: BlobPart, name = 'collection.zip'): FormData => {
  const form = new FormData()
  form.set('file', new File([bytes], name, { type: 'application/zip' }))
  return form
}

describeOnEachEngine('archives over the API', ({ name, open }) => {
  const dataBefore = process.env.LARDER_DATA
  let folder = ''
  let bytes: ArrayBuffer
  let rowCount = 0

  beforeAll(async () => {
    folder = mkdtempSync(path.join(tmpdir(), 'larder-archives-'))
    process.env.LARDER_DATA = folder
    await addSmallWorld(open())
  })
  afterAll(() => {
    process.env.LARDER_DATA = dataBefore
    rmSync(folder, { recursive: true, force: true })
  })

  const send = async (file: BlobPart) => {
    const request = new Request('http://127.0.0.1/api/v1/archives/given', { method: 'POST', body: formOf(file) })
    const response = await give(request)
    return { status: response.status, body: await response.json() }
  }
  const ended = async (jobId: string) => {
    await archiveJobEnded(jobId)
    return answer(getArchiveJob, getJob, { parts: { jobId } })
  }

  it('are written, listed and fetched', async () => {
    const begun = await answer(writeArchiveOperation, write, { method: 'POST' })
    expect(begun).toMatchObject({ verb: 'take-out', state: 'running' })
    const done = await ended(begun.jobId)
    expect(done).toMatchObject({ state: 'done', missing: [], refusal: null })
    rowCount = done.rowCount ?? 0
    const { archives, sheets } = await answer(listArchivesOperation, list)
    expect(archives.map(({ href }) => href)).toEqual([done.archive?.href])
    const response = await fetchArchive(new Request('http://127.0.0.1/'), {
      params: Promise.resolve({ name: archives[0]?.name ?? '' }),
    })
    expect(response.headers.get('content-disposition')).toMatch(/^attachment; filename="chart-larder-\d{4}-\d\d-\d\d\.zip"$/)
    bytes = await response.arrayBuffer()
    expect(bytes.byteLength).toBe(archives[0]?.bytes)
    for (const { href } of sheets) {
      const sheet = await fetchSheet(new Request('http://127.0.0.1/'), { params: Promise.resolve({ file: path.basename(href) }) })
      expect([href, sheet.status]).toEqual([href, 200])
    }
  })

  it('are told what is in them, and refused where there is a collection', async () => {
    const sent = await send(bytes)
    expect(sent.status).toBe(201)
    const given = giveArchiveOperation.answer.parse(sent.body)
    expect(given).toMatchObject({ rowCount, missingCount: 0 })
    expect(given.held.length).toBeGreaterThan(0)
    const begun = await answer(bringBackOperation, bringBack, { method: 'POST', parts: { givenId: given.givenId } })
    const done = await ended(begun.jobId)
    expect(done.state).toBe('refused')
    expect(done.refusal).toMatch(/^There is a collection here already: 3 charts, .* only where there is nothing/)
  })

  it('are brought back where there is nothing, sent straight to the disk', async () => {
    const other = await openEmpty(name === 'SQLite' ? 'sqlite' : 'postgresql')
    if (!other) return
    held.larderDatabase = other.database
    const response = await giveRaw(
      new Request('http://127.0.0.1/archive/given', {
        method: 'POST',
        body: bytes,
        headers: { 'content-type': 'application/zip' },
      }),
    )
    const { givenId } = (await response.json()) as { givenId: string }
    expect(await answer(getGivenArchive, getGiven, { parts: { givenId } })).toMatchObject({ held: [], rowCount })
    const begun = await answer(bringBackOperation, bringBack, { method: 'POST', parts: { givenId } })
    expect(await ended(begun.jobId)).toMatchObject({ verb: 'bring-back', state: 'done', rowCount })
    expect(await other.database.prisma.chart.count()).toBe(await open().prisma.chart.count())
    // What was brought back is not kept any longer.
    expect(await problem(getGiven, { parts: { givenId } })).toMatchObject({ status: 404 })
    held.larderDatabase = open()
    await other.drop()
  })

  it('are refused with a sentence when they are none, and not kept', async () => {
    expect(await send('Maker,Code')).toMatchObject({ status: 409, body: { detail: expect.stringMatching(/not an archive/) } })
    expect(await send(bytes.slice(0, 9_000))).toMatchObject({ status: 409, body: { detail: expect.stringMatching(/cut off/) } })
    const foreign = new Request('http://127.0.0.1/archive/given', {
      ...{ method: 'POST', body: bytes, headers: { origin: 'http://elsewhere.example' } },
    })
    expect((await giveRaw(foreign)).status).toBe(403)
  })

  it('are removed, and nobody knows others', async () => {
    const { archives } = await answer(listArchivesOperation, list)
    for (const { name: archiveName } of archives)
      await answer(removeArchiveOperation, remove, { method: 'POST', parts: { archiveName } })
    expect((await answer(listArchivesOperation, list)).archives).toEqual([])
    for (const archiveName of ['../larder.db', 'x.zip', archives[0]?.name ?? ''])
      expect(await problem(remove, { method: 'POST', parts: { archiveName } })).toMatchObject({ status: 404 })
    expect(await problem(getJob, { parts: { jobId: 'none' } })).toMatchObject({ status: 404 })
    expect(await problem(stop, { method: 'POST', parts: { jobId: 'none' } })).toMatchObject({ status: 404 })
    expect(await problem(bringBack, { method: 'POST', parts: { givenId: '../../larder' } })).toMatchObject({ status: 404 })
  })

  it('are stopped without a file', async () => {
    const { jobId } = await answer(writeArchiveOperation, write, { method: 'POST' })
    const stopped = await answer(stopArchiveJobOperation, stop, { method: 'POST', parts: { jobId } })
    expect(['stopped', 'done']).toContain(stopped.state)
    const { archives } = await answer(listArchivesOperation, list)
    expect(archives).toHaveLength(stopped.state === 'done' ? 1 : 0)
  })
})
