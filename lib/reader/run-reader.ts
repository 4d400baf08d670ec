import 'server-only'
import path from 'node:path'
import { log } from '#lib/log/log'
import { type Result, refused } from '#lib/result'
import type { PageReading, ReadingProgress, ReadingRefusal, ReadingSource } from './page-reading'
import type { ReaderPosted, ReaderWork } from './reader-worker'

type ReaderOptions = {
  /** Ends the work at once, or the wait for it. */
  signal?: AbortSignal
  onProgress?: (progress: ReadingProgress) => void
  timeLimitSeconds?: number
  mostMegabytes?: number
  /** Another worker, for tests. */
  workerFile?: string
}

export const mostFileBytes = 50 * 1024 * 1024
/** Forty photographed pages at three seconds a page, and as much again on a busy machine. */
const defaultTimeLimitSeconds = 240
/** A page drawn at 250 dots to the inch takes 25 MB as it is drawn; what pdf.js and the letters' model need comes on top. */
const defaultMostMegabytes = 1_024

// Taken from Node past the screens' bundler: that would follow a worker's path, and where it cannot tell it, take in the whole project.
const threads = process.getBuiltinModule('node:worker_threads')

// The path is made at run time from the folder the project is started in.
const builtWorker = () => path.join(process.cwd(), 'lib', 'reader', 'built', 'reader-worker.mjs')

// Actions, pages and routes are bundled apart; the one queue is known to all of them.
const shared = globalThis as unknown as { larderReaderQueue?: Promise<unknown> }

/**
 * Read a file in a worker thread of its own, one file at a time. Nothing a file holds ends the program: what breaks the worker, or takes
 * too long, is a refusal. Nothing is fetched: fonts, character maps and the letters' model come with the program.
 *
 * @param source  Not touched: the worker gets a copy.
 */
export function runReader(source: ReadingSource, options: ReaderOptions = {}): Promise<Result<PageReading, ReadingRefusal>> {
  const bytes = source.bytes.length
  if (bytes > mostFileBytes) return Promise.resolve(refused({ kind: 'file-too-large', bytes, mostBytes: mostFileBytes }))
  const before = shared.larderReaderQueue ?? Promise.resolve()
  const mine = waitFor(before, options.signal).then(() => readNow(source, options))
  // The next waits for the one before as well: a wait that was stopped frees nothing.
  shared.larderReaderQueue = Promise.allSettled([before, mine])
  return mine
}

/** Until the one before has ended, or the wait is stopped. */
function waitFor(before: Promise<unknown>, signal: AbortSignal | undefined): Promise<unknown> {
  if (!signal) return before
  if (signal.aborted) return Promise.resolve()
  return new Promise((resolve) => {
    const go = () => {
      signal.removeEventListener('abort', go)
      resolve(null)
    }
    signal.addEventListener('abort', go)
    void before.then(go)
  })
}

async function readNow(source: ReadingSource, options: ReaderOptions): Promise<Result<PageReading, ReadingRefusal>> {
  const { signal, onProgress, timeLimitSeconds = defaultTimeLimitSeconds, workerFile = builtWorker() } = options
  if (signal?.aborted) return refused({ kind: 'stopped' })
  const worker = new threads.Worker(workerFile, {
    workerData: { source, root: process.cwd() } satisfies ReaderWork,
    resourceLimits: { maxOldGenerationSizeMb: options.mostMegabytes ?? defaultMostMegabytes },
    stdout: true,
    stderr: true,
  })
  // What the packages have to say about a bad file is nobody's to read, but has to go somewhere.
  worker.stdout.resume()
  worker.stderr.resume()
  const ended = new AbortController()
  try {
    return await new Promise<Result<PageReading, ReadingRefusal>>((resolve) => {
      const overdue = setTimeout(
        () => resolve(refused({ kind: 'took-too-long', seconds: timeLimitSeconds })),
        timeLimitSeconds * 1_000,
      )
      ended.signal.addEventListener('abort', () => clearTimeout(overdue))
      signal?.addEventListener('abort', () => resolve(refused({ kind: 'stopped' })), { signal: ended.signal })
      let isAnswered = false
      const broke = (why: unknown) => {
        // A thread that broke ends as well; one that has answered may.
        if (!isAnswered && !ended.signal.aborted) log.warn('a file broke the reader', { error: why })
        isAnswered = true
        resolve(refused({ kind: 'reader-broke' }))
      }
      worker.on('message', (posted: ReaderPosted) => {
        if (posted.kind === 'progress') onProgress?.(posted.progress)
        else {
          isAnswered = true
          resolve(posted.result)
        }
      })
      worker.once('messageerror', broke)
      worker.once('error', broke)
      worker.once('exit', (code) => broke(`the worker ended with ${code}`))
    })
  } finally {
    ended.abort()
    await worker.terminate()
  }
}
