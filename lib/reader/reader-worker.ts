// Runs in a worker thread, one file each, so that nothing a file holds can stop the program. Bundled by prisma/bundle-workers.mjs.
import { parentPort, workerData } from 'node:worker_threads'
import { layLines } from '#lib/chart/page-text/lay-lines'
import { ok, type Result } from '#lib/result'
import type { PageReading, ReadingParts, ReadingProgress, ReadingRefusal, ReadingSource } from './page-reading'
import { partsClock } from './parts-clock'
import { readPdf } from './read-pdf'
import { readPicture } from './read-picture'

/** `root`: the project's folder, where the packages are. */
export type ReaderWork = { source: ReadingSource; root: string }
export type ReaderPosted =
  | { kind: 'progress'; progress: ReadingProgress }
  | { kind: 'ended'; result: Result<PageReading, ReadingRefusal> }

const { source, root } = workerData as ReaderWork
const post = (posted: ReaderPosted) => parentPort?.postMessage(posted)

async function read(): Promise<Result<PageReading, ReadingRefusal>> {
  const clock = partsClock()
  const desk = { root, clock, tell: (progress: ReadingProgress) => post({ kind: 'progress', progress }) }
  const read = source.kind === 'pdf' ? await readPdf(source.bytes, desk) : await readPicture(source.bytes, desk)
  if (!read.ok) return read
  const { pages } = read.value
  desk.tell({ step: 'laying-out', page: pages.length, pages: pages.length })
  const lines = clock.timeNow('layingOut', () => layLines(pages))
  const parts: ReadingParts = clock.parts
  return ok({ ...read.value, lines, pageCount: pages.length, parts })
}

// The thread is ended from outside: ending it here may be sooner than the answer is sent.
post({ kind: 'ended', result: await read() })
