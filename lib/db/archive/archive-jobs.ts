import 'server-only'
import type { ArchiveRefused } from '#lib/archive/refusal'
import { ok, type Result, refused } from '#lib/result'
import { requireWhole } from '../access/whole'
import { database } from '../client'
import type { Job, JobControls, TooManyAtOnce } from '../job/job'
import { Jobs } from '../job/jobs'
import { troubleOf } from '../trouble'
import { archiveFileOf, findGiven, newArchiveFile, removeGiven } from './archive-files'
import { type BroughtBack, bringBack } from './bring-back'
import { type ArchiveProgress, type WrittenArchive, writeArchive } from './write-archive'

/** What an archive was asked for: made, under this name, or brought back. */
export type ArchiveErrand = { kind: 'take-out'; name: string } | { kind: 'bring-back'; givenId: string }

export type ArchiveEnding =
  | { kind: 'written'; written: Omit<WrittenArchive, 'parts'> }
  | { kind: 'brought-back'; back: BroughtBack }
  | { kind: 'refused'; refusal: ArchiveRefused }
  /** The disk had no room for it. */
  | { kind: 'disk-full' }

export type ArchiveJob = Job<ArchiveErrand, ArchiveProgress, ArchiveEnding>

/** One at a time: each reads or writes everything there is. */
const jobs = new Jobs<ArchiveErrand, ArchiveProgress, ArchiveEnding>('archive', {
  ...{ most: 1, isTakenUpAgain: false, first: () => ({ step: 'rows', done: 0, of: 0 }) },
  run: (errand, controls) => (errand.kind === 'take-out' ? takeOut(errand.name, controls) : bringIn(errand.givenId, controls)),
})

export const findArchiveJob = (jobId: string): Promise<ArchiveJob | null> => jobs.find(jobId)
export const stopArchiveJob = (jobId: string): Promise<void> => jobs.stop(jobId)
export const archiveJobEnded = (jobId: string): Promise<void> => jobs.ended(jobId)

/** Begin to write everything there is into one file; `findArchiveJob` says how it goes. */
export async function startTakeOut(): Promise<Result<ArchiveJob, TooManyAtOnce>> {
  requireWhole()
  const { name } = await newArchiveFile(new Date())
  return jobs.start({ kind: 'take-out', name })
}

type Controls = JobControls<ArchiveProgress>

async function takeOut(name: string, { signal, report }: Controls): Promise<ArchiveEnding> {
  try {
    const { parts: _, ...written } = await writeArchive(database(), { file: archiveFileOf(name), signal, report })
    return { kind: 'written', written }
  } catch (error) {
    if (signal.aborted) return { kind: 'refused', refusal: { kind: 'stopped' } }
    if (troubleOf(error) === 'full') return { kind: 'disk-full' }
    throw error
  }
}

export type NoSuchGiven = { kind: 'no-such-file'; givenId: string }

/** Begin to bring an archive back that was given before. */
export async function startBringBack(givenId: string): Promise<Result<ArchiveJob, TooManyAtOnce | NoSuchGiven>> {
  requireWhole()
  if (!(await findGiven(givenId))) return refused({ kind: 'no-such-file', givenId })
  const started = await jobs.start({ kind: 'bring-back', givenId })
  return started.ok ? ok(started.value) : started
}

async function bringIn(givenId: string, { signal, report }: Controls): Promise<ArchiveEnding> {
  const given = await findGiven(givenId)
  // It was there when this was asked for, and lies in the folder that all processes share.
  if (!given) throw new Error('bringIn: the archive that was given is gone')
  try {
    const back = await bringBack(database(), { file: given.file, signal, report })
    if (!back.ok) return { kind: 'refused', refusal: back.error }
    await removeGiven(givenId)
    return { kind: 'brought-back', back: back.value }
  } catch (error) {
    if (troubleOf(error) === 'full') return { kind: 'disk-full' }
    throw error
  }
}
