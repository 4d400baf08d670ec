import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import sharp from 'sharp'
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import type { PageReading, ReadingProgress } from '#lib/reader/page-reading'
import { mostFileBytes, runReader } from '#lib/reader/run-reader'
import { seededRandom } from '#seed/random'
import { granted } from '#tests/database/granted'
import { bundleWorkers } from '../../../prisma/bundle-workers.mjs'
import { said } from '../chart/page-text/pages'
import { aPdf, aPhoto, aScannedPdf, keyRows } from './reader-files'

const folder = mkdtempSync(path.join(tmpdir(), 'larder-test-'))
beforeAll(() => bundleWorkers())
afterAll(() => rmSync(folder, { recursive: true, force: true }))

/** A worker of these lines instead of the reader. */
function aWorker(name: string, lines: string): string {
  const file = path.join(folder, `${name}.mjs`)
  writeFileSync(file, `import { parentPort } from 'node:worker_threads'\n${lines}\n`)
  return file
}

const asRead = (reading: PageReading) => said(reading.lines)
const rowsSaid = keyRows.map((row) => row.join(' | '))
const ofText = (text: string) => new Uint8Array(Buffer.from(text))

describe('reading a PDF', () => {
  it('takes its words where they stand, and its first page as cover', async () => {
    const pdf = await aPdf({ pages: 2 })
    const steps: ReadingProgress[] = []
    const reading = granted(await runReader({ kind: 'pdf', bytes: pdf }, { onProgress: (step) => steps.push(step) }))
    // The face has no triangle: that row's symbol is not in the text as a letter.
    const withoutTriangle = (rows: string[]) => rows.filter((row) => !row.includes('1691'))
    expect(withoutTriangle(asRead(reading))).toEqual(withoutTriangle([...rowsSaid, ...rowsSaid]))
    expect(reading).toMatchObject({ pageCount: 2, wasPhotographed: false })
    expect(reading.lines.every(({ cells }) => cells.every(({ text, certainty }) => text === '?' || certainty === 1))).toBe(true)
    const cover = await sharp(reading.cover as Uint8Array).metadata()
    // A4 is 1 to the root of 2.
    expect(cover.format).toBe('webp')
    expect((cover.height as number) / (cover.width as number)).toBeCloseTo(Math.SQRT2, 2)
    expect(steps).toContainEqual({ step: 'words', page: 2, pages: 2 })
  })

  it('reads a page that holds no words as a picture', async () => {
    const scan = await aScannedPdf(await aPhoto())
    const reading = granted(await runReader({ kind: 'pdf', bytes: scan }))
    expect(reading.wasPhotographed).toBe(true)
    const read = asRead(reading)
    const right = rowsSaid.filter((row) => read.includes(row))
    expect(right.length, read.join('\n')).toBeGreaterThanOrEqual(rowsSaid.length - 2)
  })

  it('refuses one that wants a password, is broken, or is none', async () => {
    const refusalOf = async (bytes: Uint8Array) => {
      const read = await runReader({ kind: 'pdf', bytes })
      return read.ok ? read.value : read.error
    }
    expect(await refusalOf(await aPdf({ password: 'loft' }))).toEqual({ kind: 'pdf-locked' })
    expect(await refusalOf(ofText('%PDF-1.7\nnothing of a file'))).toEqual({ kind: 'pdf-unreadable' })
    expect(await refusalOf(await aPhoto())).toEqual({ kind: 'not-a-pdf', found: 'image/jpeg' })
    expect(await refusalOf(ofText('0311 Pale Pine'))).toEqual({ kind: 'not-a-pdf', found: null })
    expect(await refusalOf(new Uint8Array(mostFileBytes + 1))).toEqual({
      kind: 'file-too-large',
      bytes: mostFileBytes + 1,
      mostBytes: mostFileBytes,
    })
  })
})

describe('reading a photograph', () => {
  it('sets a turned page in uneven light straight, takes its lines off and reads its key', async () => {
    const reading = granted(await runReader({ kind: 'picture', bytes: await aPhoto({ degrees: -5, shade: 0.35 }) }))
    expect(asRead(reading)).toEqual(rowsSaid)
    expect(reading).toMatchObject({ pageCount: 1, wasPhotographed: true })
    expect(reading.pages[0]?.rules?.horizontal.length).toBeGreaterThanOrEqual(keyRows.length)
    // Never quite sure of what was told from a picture.
    for (const { cells } of reading.lines)
      for (const { text, certainty } of cells) if (text !== '') expect(certainty).toBeLessThan(1)
    expect((await sharp(reading.cover as Uint8Array).metadata()).format).toBe('webp')
  })

  it('refuses what it cannot read, and says so of phones’ HEIC', async () => {
    const refusalOf = async (bytes: Uint8Array) => {
      const read = await runReader({ kind: 'picture', bytes })
      return read.ok ? read.value : read.error
    }
    const heic = new Uint8Array(Buffer.from('0000001c66747970686569630000000068656963', 'hex'))
    expect(await refusalOf(heic)).toEqual({ kind: 'photo-heic' })
    expect(await refusalOf(ofText('0311 Pale Pine'))).toEqual({ kind: 'not-a-photo', found: null })
    expect(await refusalOf(await aPdf())).toEqual({ kind: 'not-a-photo', found: 'application/pdf' })
    expect(await refusalOf((await aPhoto()).subarray(0, 300))).toEqual({ kind: 'photo-unreadable' })
  })
})

describe('the reader’s thread', () => {
  const source = { kind: 'pdf' as const, bytes: ofText('%PDF-') }

  it('may break, run out of memory or never answer: that is a refusal', async () => {
    const warned = vi.spyOn(console, 'warn').mockImplementation(() => {})
    const throwing = aWorker('throws', `throw new Error('a fault')`)
    expect(await runReader(source, { workerFile: throwing })).toEqual({ ok: false, error: { kind: 'reader-broke' } })
    const greedy = aWorker('greedy', `const kept = []; for (;;) kept.push(new Array(1e6).fill(0).map((_, at) => ({ at })))`)
    expect(await runReader(source, { workerFile: greedy, mostMegabytes: 48 })).toEqual({
      ok: false,
      error: { kind: 'reader-broke' },
    })
    const leaving = aWorker('leaves', `process.exit(3)`)
    expect(await runReader(source, { workerFile: leaving })).toEqual({ ok: false, error: { kind: 'reader-broke' } })
    expect(warned).toHaveBeenCalledTimes(3)
    warned.mockRestore()
    const busy = aWorker('busy', `for (;;) {}`)
    const late = await runReader(source, { workerFile: busy, timeLimitSeconds: 0.3 })
    expect(late).toEqual({ ok: false, error: { kind: 'took-too-long', seconds: 0.3 } })
  })

  it('is stopped by a person, and the next file is read; one that waits is stopped as well', async () => {
    const busy = aWorker('busy-too', `for (;;) {}`)
    const [first, second] = [new AbortController(), new AbortController()]
    const running = runReader(source, { workerFile: busy, signal: first.signal })
    const waiting = runReader(source, { workerFile: busy, signal: second.signal })
    second.abort()
    expect(await waiting).toEqual({ ok: false, error: { kind: 'stopped' } })
    const answering = aWorker(
      'answers',
      `parentPort.postMessage({ kind: 'ended', result: { ok: false, error: { kind: 'pdf-locked' } } })`,
    )
    let answered = false
    const next = runReader(source, { workerFile: answering }).then((read) => {
      answered = true
      return read
    })
    await new Promise((resolve) => setTimeout(resolve, 50))
    expect(answered).toBe(false)
    first.abort()
    expect(await running).toEqual({ ok: false, error: { kind: 'stopped' } })
    expect(await next).toEqual({ ok: false, error: { kind: 'pdf-locked' } })
  })
})

/** None is a broken reader, nor one that took too long: a damaged file ends by itself. */
const namedRefusals = [
  'pdf-unreadable',
  'pdf-locked',
  'not-a-pdf',
  'too-many-pages',
  'photo-unreadable',
  'not-a-photo',
  'photo-heic',
]

describe('files that were damaged', () => {
  it('end in a reading or a refusal of their own, and never in a broken reader', async () => {
    const random = seededRandom('damaged files')
    const pdf = await aPdf()
    const photo = new Uint8Array(
      await sharp(await aPhoto())
        .resize(300)
        .jpeg()
        .toBuffer(),
    )
    for (let turn = 0; turn < 6; turn++) {
      const isPicture = turn === 2
      const damaged = new Uint8Array(isPicture ? photo : pdf)
      for (let at = 0; at < 1 + turn * 8; at++)
        damaged[Math.floor(random.next() * damaged.length)] = Math.floor(random.next() * 256)
      const cut = turn % 4 === 1 ? damaged.subarray(0, Math.floor(random.next() * damaged.length)) : damaged
      const read = await runReader({ kind: isPicture ? 'picture' : 'pdf', bytes: cut }, { timeLimitSeconds: 60 })
      if (!read.ok) expect(namedRefusals, `turn ${turn}`).toContain(read.error.kind)
    }
  }, 120_000)
})
