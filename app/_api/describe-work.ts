import { database } from '#lib/db/client'
import { findProject } from '#lib/db/project/queries'
import type { ChangeWorkRefused } from '#lib/db/work/change-work'
import { findRemovedWork, findTimer, findWork, listWork, type WorkRow } from '#lib/db/work/queries'
import { readLog } from '#lib/db/work/settle-log'
import type { WorkEntryRefused } from '#lib/db/work/work-entry'
import { notInLog } from '#lib/project/work-log'
import type { Result } from '#lib/result'
import { workRefusalWords } from '#words/work'
import { nextAfter } from './paging'
import { notFound, Problem } from './problem'
import type { WorkEntryAnswer } from './work'

const describeEntry = ({ id, photoFile, ...entry }: WorkRow): WorkEntryAnswer => ({ entryId: id, photo: photoFile, ...entry })

const latest = 50

/** A page of a project's log with its totals, or a problem. */
export async function describeLog(projectId: string, page: { limit: number; after?: number | undefined } = { limit: latest }) {
  const { limit, after: offset = 0 } = page
  const [project, { entries, total }, removed, timer, log] = await Promise.all([
    findProject(projectId),
    listWork(projectId, { offset, limit }),
    findRemovedWork(projectId),
    findTimer(projectId),
    readLog(database().prisma, projectId),
  ])
  if (!project) return notFound('project', projectId)
  const { hoursTenths, stitchesDone } = project
  const rest = notInLog({ hoursTenths, stitchesDone }, log)
  return {
    ...{ projectId, hoursTenths, stitchesDone },
    notInLog: { stitches: rest.stitchesDone, hoursTenths: rest.hoursTenths },
    timerSince: timer?.toISOString() ?? null,
    removed: removed && describeEntry(removed),
    ...{ total, entries: entries.map(describeEntry), next: nextAfter(offset + entries.length, total) },
  }
}

/** What a change of a project's log answers: the log, or why not. */
export async function answerLog(
  projectId: string,
  done: Result<unknown, ChangeWorkRefused | WorkEntryRefused | { kind: 'given-up' }>,
) {
  if (done.ok) return describeLog(projectId)
  const { error } = done
  switch (error.kind) {
    case 'no-such-project':
      return notFound('project', error.projectId)
    case 'no-such-entry':
      return notFound('work entry', error.entryId)
    case 'changed-meanwhile':
      return new Problem('refused', 'It was changed meanwhile. Read the log again, then ask with its new version.')
    default:
      return new Problem('refused', workRefusalWords(error))
  }
}

/** An entry of a project, in its log or taken out of it; a problem where it is none of its. */
export async function findEntry({ projectId, entryId }: { projectId: string; entryId: string }): Promise<WorkRow | Problem> {
  return (await findWork(projectId, entryId)) ?? notFound('work entry', entryId)
}
