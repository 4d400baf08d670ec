import 'server-only'
import type { PageReading, ReadingProgress, ReadingRefusal, ReadingSource } from '#lib/reader/page-reading'
import { runReader } from '#lib/reader/run-reader'
import type { Result } from '#lib/result'
import type { Job, TooManyAtOnce } from '../job/job'
import { Jobs } from '../job/jobs'
import { keepReading } from './keep-reading'
import { readStagedBytes } from './reading-store'

/** Which staged file is read: its bytes lie in the data folder, so that no job holds files. */
export type AskedReading = { readingId: string; kind: ReadingSource['kind'] }

/** Null where it was read; what was found lies with the file. */
export type ReadingJob = Job<AskedReading, ReadingProgress, ReadingRefusal | null>

/** One is read at a time, so many may wait with it. */
export const mostReadingJobs = 8

type Parts = {
  run: typeof runReader
  /** The file's bytes; null when it is gone. */
  read: (readingId: string) => Promise<Uint8Array<ArrayBuffer> | null>
  keep: (readingId: string, jobId: string, read: Result<PageReading, ReadingRefusal>) => Promise<void>
}

/** Readings of one kind. */
export function readingJobs(kind: string, { run, read, keep }: Parts) {
  const jobs = new Jobs<AskedReading, ReadingProgress, ReadingRefusal | null>(kind, {
    ...{ most: mostReadingJobs, mostHere: 1, isTakenUpAgain: true, first: () => ({ step: 'waiting' }) },
    async run(asked, { id, signal, report }) {
      const bytes = await read(asked.readingId)
      if (!bytes) return { kind: 'reader-broke' }
      const found = await run({ kind: asked.kind, bytes }, { signal, onProgress: report })
      await keep(asked.readingId, id, found)
      return found.ok ? null : found.error
    },
  })
  return {
    /** Begin to read a file in the background; files wait for one another. @param jobId  its own */
    startReading: (asked: AskedReading, jobId: string): Promise<Result<ReadingJob, TooManyAtOnce>> => jobs.start(asked, jobId),
    /** @returns null for a job nobody knows, such as one from before the program was started, or that was cut short. */
    async findReading(id: string): Promise<ReadingJob | null> {
      const job = await jobs.find(id)
      return job?.state.kind === 'failed' ? null : job
    },
    /** End a reading, or its wait, with the refusal `stopped`, and wait until it has ended. One that has ended is left as it is. */
    stopReading: (id: string): Promise<void> => jobs.stop(id),
    /** Wait until a reading has ended by itself. */
    readingEnded: (id: string): Promise<void> => jobs.ended(id),
  }
}

export const { startReading, findReading, stopReading, readingEnded } = readingJobs('reading of a file', {
  ...{ run: runReader, read: readStagedBytes, keep: keepReading },
})
