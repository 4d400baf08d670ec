import { describe, expect, it } from 'vitest'
import { readingJobs } from '#lib/db/reading/reading-jobs'
import type { runReader } from '#lib/reader/run-reader'
import { refused } from '#lib/result'
import { granted } from '#tests/database/granted'

const kept: unknown[] = []
/** Readings of a file of 2,000 bytes, done by `run`. */
const readings = (kind: string, run: typeof runReader) =>
  readingJobs(kind, {
    run,
    read: async () => new Uint8Array(2_000),
    keep: async (...what) => void kept.push(what),
  })
const asked = { readingId: 'r-1', kind: 'pdf' as const }

describe('a reading in the background', () => {
  it('tells how far it is, keeps what was found with its file, and does not hold on to the file', async () => {
    let tell = () => {}
    const { startReading, findReading, readingEnded } = readings('reading, told', (source, { onProgress } = {}) => {
      expect(source.bytes.length).toBe(2_000)
      onProgress?.({ step: 'words', page: 3, pages: 8 })
      return new Promise((resolve) => {
        tell = () => resolve(refused({ kind: 'pdf-locked' }))
      })
    })
    const job = granted(await startReading(asked, 'j-1'))
    await new Promise((resolve) => setImmediate(resolve))
    expect(await findReading('j-1')).toMatchObject({
      ...{ about: asked, state: { kind: 'running' }, progress: { step: 'words', page: 3, pages: 8 } },
    })
    expect(Object.values(job.about).some((value) => (value as unknown) instanceof Uint8Array)).toBe(false)
    tell()
    await readingEnded(job.id)
    expect((await findReading(job.id))?.state).toEqual({ kind: 'ended', answer: { kind: 'pdf-locked' } })
    expect(kept).toEqual([['r-1', 'j-1', { ok: false, error: { kind: 'pdf-locked' } }]])
  })

  it('ends as stopped when a person stops it', async () => {
    const { startReading, findReading, stopReading } = readings(
      'reading, stopped',
      (_, { signal } = {}) =>
        new Promise((resolve) => signal?.addEventListener('abort', () => resolve(refused({ kind: 'stopped' })))),
    )
    const job = granted(await startReading(asked, 'j-2'))
    expect(job.progress).toEqual({ step: 'waiting' })
    await new Promise((resolve) => setImmediate(resolve))
    await stopReading(job.id)
    expect((await findReading(job.id))?.state).toEqual({ kind: 'ended', answer: { kind: 'stopped' } })
  })
})
