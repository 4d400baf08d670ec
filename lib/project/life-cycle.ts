import { ok, type Result, refused } from '#lib/result'

export const projectStatuses = [
  'wanted',
  'planned',
  'kitted',
  'stitching',
  'resting',
  'stitched',
  'finished',
  'abandoned',
] as const
export type ProjectStatus = (typeof projectStatuses)[number]

/**
 * Where a project may go from each status. Steps may be left out going forward: not everybody kits before the first stitch. Back goes
 * only what nothing was stitched of yet: a kit whose bag is emptied is planned again.
 */
export const transitions: Readonly<Record<ProjectStatus, readonly ProjectStatus[]>> = {
  wanted: ['planned', 'kitted', 'stitching', 'abandoned'],
  planned: ['kitted', 'stitching', 'abandoned'],
  kitted: ['planned', 'stitching', 'abandoned'],
  stitching: ['resting', 'stitched', 'finished', 'abandoned'],
  resting: ['stitching', 'stitched', 'finished', 'abandoned'],
  stitched: ['finished', 'abandoned'],
  finished: [],
  abandoned: [],
}

/** Where this project may go. Kits for others are finished once they are sold: nobody stitches them here. */
export const allowedFrom = ({ status, quantity = 1 }: { status: ProjectStatus; quantity?: number }): readonly ProjectStatus[] =>
  status === 'kitted' && quantity > 1 ? [...transitions[status], 'finished'] : transitions[status]

/** Not yet finished nor given up, the nearest to the needle first. */
export const underWayStatuses = [
  'stitching',
  'resting',
  'kitted',
  'planned',
  'stitched',
  'wanted',
] as const satisfies ProjectStatus[]

/** Statuses in which a project may hold stock and cloth: promised, in its bag or under the needle. */
export const openStatuses = ['planned', 'kitted', 'stitching', 'resting', 'stitched'] as const satisfies ProjectStatus[]

/** Whether it can have its turn in the rotation: it is there to be stitched, and not yet done. */
export const isInRotation = (status: ProjectStatus): boolean =>
  status === 'kitted' || status === 'stitching' || status === 'resting'

export type ProjectDates = { startedOn: string | null; finishedOn: string | null }

export type TransitionRefused = {
  kind: 'not-from-here'
  from: ProjectStatus
  to: ProjectStatus
  allowed: readonly ProjectStatus[]
}

/**
 * Move a project on. The day it is first stitched is its start, the day it is finished its finish; days already recorded are kept.
 *
 * @param today  yyyy-mm-dd
 */
export function planTransition(
  project: { status: ProjectStatus; quantity?: number } & ProjectDates,
  to: ProjectStatus,
  today: string,
): Result<{ status: ProjectStatus } & ProjectDates, TransitionRefused> {
  const allowed = allowedFrom(project)
  if (!allowed.includes(to)) return refused({ kind: 'not-from-here', from: project.status, to, allowed })
  return ok({
    status: to,
    startedOn: to === 'stitching' ? (project.startedOn ?? today) : project.startedOn,
    finishedOn: to === 'finished' ? (project.finishedOn ?? today) : project.finishedOn,
  })
}
