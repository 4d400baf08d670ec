import { listOwners } from '#lib/db/owner/owners'
import type { TimeAwayRefused } from '#lib/db/planning/days/save-time-away'
import { listTimesAway } from '#lib/db/planning/days/times-away'
import type { NotInRotation } from '#lib/db/planning/pace/leave-rotation'
import type { PaceReading } from '#lib/db/planning/pace/read-pace'
import { readRotation } from '#lib/db/planning/pace/rotation'
import type { ProjectEditRefused } from '#lib/db/project/project-row'
import { findProject } from '#lib/db/project/queries'
import { hasWeekday, type NextTurn } from '#lib/planning/pace/rotation'
import { calendarDay } from '#lib/quantity/day'
import type { Result } from '#lib/result'
import { timeAwayRefusalWords } from '#words/time-away'
import { notFound, Problem } from './problem'
import { noSuch } from './stock-refusal'

/** A project's pace as it is answered. */
export function describePace(projectId: string, pace: PaceReading) {
  const { unit, done, total, left, source, perHour, log, isPartial, weeks, deadline, outlooks } = pace
  return {
    ...{ projectId, unit, done, left, source, perHour, log, isPartial, weeks, deadline },
    total: total?.stitches ?? (unit === 'per-mille' ? 1_000 : null),
    totalHow: total?.how ?? null,
    outlooks: outlooks.map(({ pace: mean, ...outlook }) => ({ ...outlook, amountPerWeek: mean.amount / mean.weeks })),
  }
}

function describeNext(next: NextTurn) {
  const { kind } = next
  switch (kind) {
    case 'empty':
    case 'no-days':
      return { kind, projectIds: [], on: null, had: null }
    case 'stays':
      return { kind, projectIds: [next.projectId], on: null, had: { projectId: next.projectId, done: next.done, of: next.of } }
    case 'turn':
      return { kind, projectIds: [next.projectId], on: null, had: next.after }
    case 'today':
      return { kind, projectIds: next.projectIds, on: null, had: null }
    case 'free-day':
      return { kind, projectIds: next.projectIds, on: next.nextOn, had: null }
  }
}

const weekdays = [1, 2, 3, 4, 5, 6, 7]

export async function describeRotation(ownerIds: string[]) {
  const { rule, next, members } = await readRotation(ownerIds, calendarDay(new Date()))
  return {
    ...{ ownerIds, rule, next: describeNext(next) },
    members: members.map((member) => ({
      ...member,
      weekdays: weekdays.filter((weekday) => hasWeekday(member.weekdays, weekday)),
    })),
  }
}

/** The rotation of the owner a project is of, once it was changed; or why it was not. */
export async function answerRotation(projectId: string, done: Result<null, ProjectEditRefused | NotInRotation>) {
  const project = await findProject(projectId)
  if (!project) return notFound('project', projectId)
  if (!done.ok) {
    return done.error.kind === 'changed-meanwhile'
      ? new Problem('refused', 'It was changed meanwhile. Ask again.')
      : notFound('project of the rotation', projectId)
  }
  return describeRotation([project.owner.id])
}

export async function describeTimesAway(ownerIds: readonly string[]) {
  const times = await listTimesAway(ownerIds)
  return { timesAway: times.map(({ id, ...time }) => ({ timeAwayId: id, ...time })) }
}

/** Every owner's times away, once they were changed; or why they were not. */
export async function answerTimesAway(done: Result<unknown, TimeAwayRefused>) {
  if (done.ok) return describeTimesAway((await listOwners()).map(({ id }) => id))
  const { error } = done
  if (error.kind === 'no-such-owner') return noSuch('owner', 'ownerId')
  if (error.kind === 'no-such-time-away') return notFound('time away', error.id)
  return new Problem('refused', timeAwayRefusalWords(error))
}
