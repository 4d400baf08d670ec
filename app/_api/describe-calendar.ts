import { listOwners } from '#lib/db/owner/owners'
import { findFeedToken } from '#lib/db/planning/days/calendar-feed'
import { listOwnOccasions, readOccasionWorld } from '#lib/db/planning/days/occasions'
import { listParts } from '#lib/db/planning/days/parts'
import type { SaveOccasionRefused } from '#lib/db/planning/days/save-occasion'
import type { PartRefused } from '#lib/db/planning/days/save-part'
import type { TickPartRefused } from '#lib/db/planning/days/tick-part'
import type { OwnerSchedule } from '#lib/db/planning/pace/read-schedule'
import { listOccasions, nextOccasion } from '#lib/planning/days/occasions'
import { calendarDay } from '#lib/quantity/day'
import type { Result } from '#lib/result'
import { occasionRefusalWords } from '#words/occasion'
import { partRefusalWords } from '#words/parts'
import { notFound, Problem } from './problem'
import { noSuch } from './stock-refusal'

export async function describeOccasions(ownerIds: string[]) {
  const [world, own] = await Promise.all([readOccasionWorld(ownerIds), listOwnOccasions(ownerIds)])
  const today = calendarDay(new Date())
  return {
    ...{ ownerIds, country: world.country },
    occasions: listOccasions(world).map((one) => ({ ...one, nextOn: nextOccasion(one.key, today, world)?.on ?? null })),
    own: own.map(({ id, ...one }) => ({ occasionId: id, ...one })),
  }
}

/** Every owner's occasions, once they were changed; or why they were not. */
export async function answerOccasions(done: Result<unknown, SaveOccasionRefused>) {
  if (done.ok) return describeOccasions((await listOwners()).map(({ id }) => id))
  const { error } = done
  if (error.kind === 'no-such-owner') return noSuch('owner', 'ownerId')
  if (error.kind === 'no-such-occasion') return notFound('occasion', error.occasionKey)
  return new Problem('refused', occasionRefusalWords(error))
}

export async function describeParts(projectId: string) {
  const parts = await listParts(projectId)
  return { projectId, parts: parts.map(({ id, position: _position, ...part }) => ({ partId: id, ...part })) }
}

/** A project's parts, once they were changed; or why they were not. */
export async function answerParts(projectId: string, done: Result<unknown, PartRefused | TickPartRefused>) {
  if (done.ok) return describeParts(projectId)
  const { error } = done
  if (error.kind === 'no-such-project') return notFound('project', projectId)
  if (error.kind === 'no-such-part') return notFound('part of this project', error.id)
  return new Problem('refused', partRefusalWords(error))
}

/** Refuses a part of another project, which the address does not name. */
export async function refusePartOfOther(projectId: string, partId: string): Promise<Problem | null> {
  return (await listParts(projectId)).some(({ id }) => id === partId) ? null : notFound('part of this project', partId)
}

export async function describeFeeds(ownerIds: readonly string[]) {
  const owners = (await listOwners()).filter(({ id }) => ownerIds.includes(id))
  const tokens = await Promise.all(owners.map(({ id }) => findFeedToken(id)))
  return {
    feeds: owners.map(({ id, name }, at) => ({
      owner: { id, name },
      path: tokens[at] ? `/calendar/feed/${tokens[at]}.ics` : null,
    })),
  }
}

export const describeSchedule = ({ owner, paces, works, atPaces }: OwnerSchedule) => ({
  owner,
  paces: paces.map(({ kind, pace, schedule }) => ({ kind, stitchesPerWeek: pace.amount / pace.weeks, gaps: schedule.gaps })),
  works: works.map(({ id, title, status, dueOn, occasionKey, stitchedBy, left }) => ({
    ...{ projectId: id, title, status, dueOn, occasionKey, stitchedBy, left },
    atPaces: (atPaces.get(id) ?? []).map(({ kind, outlook, latestStart, beginsOn, endsOn, daysLate }) => ({
      ...{ kind, startBy: outlook?.due?.startBy ?? null, latestStart, beginsOn, endsOn, daysLate },
    })),
  })),
})
