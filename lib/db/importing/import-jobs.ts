import 'server-only'
import type { Result } from '#lib/result'
import { Jobs } from '../job/jobs'
import { type BroughtIn, bringIn, type ReportImport } from './bring-in'
import type { ImportChoices, ImportProgress, ImportRefused } from './import-service'
import { bringInSample } from './sample'

type Asked = { kind: 'file'; stagedId: string; choices: ImportChoices } | { kind: 'sample' }
type Running = Extract<ImportProgress, { state: 'running' }>
type Ended = Extract<ImportProgress, { state: 'done' | 'refused' | 'stopped' }>

/** Thrown where a running import is asked to stop: nothing of it stays. */
class Stopped extends Error {}

/** They write one after another anyway; so many never wait. */
const most = 200

const jobs = new Jobs<Asked, Running, Ended>('bringing in', {
  most,
  // What was being written is taken back where its process ends, but whether it was all written by then only a person can see.
  isTakenUpAgain: false,
  first: () => ({ state: 'running', step: 'reading', done: 0, of: 1 }),
  async run(asked, { signal, report }) {
    const told: ReportImport = (progress) => {
      if (signal.aborted) throw new Stopped()
      report(progress)
    }
    try {
      return endedAs(await (asked.kind === 'file' ? bringIn(asked.stagedId, asked.choices, told) : bringInSample(told)))
    } catch (error) {
      if (error instanceof Stopped) return { state: 'stopped' }
      throw error
    }
  },
})

const endedAs = (result: Result<BroughtIn, ImportRefused>): Ended =>
  result.ok ? { state: 'done', ...result.value } : { state: 'refused', refusal: result.error }

async function start(asked: Asked): Promise<{ jobId: string }> {
  const started = await jobs.start(asked)
  if (!started.ok) throw new Error(`start: ${most} imports wait already`)
  return { jobId: started.value.id }
}

/** Begin to bring a staged file in; ask `importProgress` how it goes. */
export const startBringIn = (stagedId: string, choices: ImportChoices): Promise<{ jobId: string }> =>
  start({ kind: 'file', stagedId, choices })

/** Begin to bring the sample in; ask `importProgress` how it goes. */
export const startSample = (): Promise<{ jobId: string }> => start({ kind: 'sample' })

/** @returns null for a job nobody knows, such as one from before the server was started. */
export async function importProgress(jobId: string): Promise<ImportProgress | null> {
  const job = await jobs.find(jobId)
  if (!job) return null
  switch (job.state.kind) {
    case 'running':
      return job.progress
    case 'ended':
      return job.state.answer
    case 'failed':
      return { state: 'failed', errorId: job.state.errorId }
  }
}

/** Ask a running job to stop before its next step; nothing of it then stays. */
export const stopBringIn = (jobId: string): Promise<void> => jobs.askToStop(jobId)
