import { describe, expect, it } from 'vitest'
import { findReading, readingEnded, startReading, stopReading } from '#lib/reader/reading-jobs'
import { refused } from '#lib/result'
import { granted } from '#tests/database/granted'

const source = { kind: 'pdf' as const, bytes: new Uint8Array(2_000) }

describe('a reading in the background', () => {
  it('waits at first, tells how far it is, and does not hold on to the file', async () => {
    let tell = () => {}
    const job = granted(
      startReading(source, (_, { onProgress } = {}) => {
        onProgress?.({ step: 'words', page: 3, pages: 8 })
        return new Promise((resolve) => {
          tell = () => resolve(refused({ kind: 'pdf-locked' }))
        })
      }),
    )
    expect(findReading(job.id)).toMatchObject({
      about: { kind: 'pdf', byteCount: 2_000 },
      state: { kind: 'running' },
      progress: { step: 'words', page: 3, pages: 8 },
    })
    expect(Object.values(job.about).some((value) => (value as unknown) instanceof Uint8Array)).toBe(false)
    tell()
    await readingEnded(job.id)
    expect(findReading(job.id)?.state).toEqual({ kind: 'ended', answer: { ok: false, error: { kind: 'pdf-locked' } } })
  })

  it('ends as stopped when a person stops it', async () => {
    const job = granted(
      startReading(
        source,
        (_, { signal } = {}) =>
          new Promise((resolve) => signal?.addEventListener('abort', () => resolve(refused({ kind: 'stopped' })))),
      ),
    )
    expect(job.progress).toEqual({ step: 'waiting' })
    await stopReading(job.id)
    expect(findReading(job.id)?.state).toEqual({ kind: 'ended', answer: { ok: false, error: { kind: 'stopped' } } })
  })
})
