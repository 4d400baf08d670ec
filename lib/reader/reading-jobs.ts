import 'server-only'
import type { Result } from '#lib/result'
import { type Job, Jobs, type TooManyAtOnce } from '../solver/jobs'
import type { PageReading, ReadingProgress, ReadingRefusal, ReadingSource } from './page-reading'
import { runReader } from './run-reader'

/** What is kept of the question: the file itself is not, so that ended jobs hold no files. */
export type AskedReading = { kind: ReadingSource['kind']; byteCount: number }

export type ReadingJob = Job<AskedReading, ReadingProgress, Result<PageReading, ReadingRefusal>>

/** One is read at a time, so many may wait with it. */
export const mostReadingJobs = 8

const jobs = new Jobs<AskedReading, ReadingProgress, Result<PageReading, ReadingRefusal>>('reading of a file', {
  most: mostReadingJobs,
})

/** Begin to read a file in the background; files wait for one another. */
export const startReading = (source: ReadingSource, run: typeof runReader = runReader): Result<ReadingJob, TooManyAtOnce> =>
  jobs.start({
    about: { kind: source.kind, byteCount: source.bytes.length },
    first: { step: 'waiting' },
    run: ({ signal, report }) => run(source, { signal, onProgress: report }),
  })

/** @returns null for a job nobody knows, such as one from before the program was started, or long ended. */
export const findReading = (id: string): ReadingJob | null => jobs.find(id)

/** End a reading, or its wait, with the refusal `stopped`, and wait until it has ended. One that has ended is left as it is. */
export const stopReading = (id: string): Promise<void> => jobs.stop(id)

/** Wait until a reading has ended by itself. */
export const readingEnded = (id: string): Promise<void> => jobs.ended(id)
