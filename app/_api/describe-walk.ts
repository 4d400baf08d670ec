import type { z } from 'zod'
import { getSettings } from '#lib/db/settings/settings'
import { findWalk, type ShownLine, type WalkListed, type WalkNews } from '#lib/db/walk/queries'
import type { WalkRefusal } from '#lib/db/walk/walk-refusal'
import { type LastMoved, readWhereMayBe } from '#lib/db/walk/where-may-be'
import { threadLength } from '#words/amounts'
import { heldWords } from '#words/stock'
import { threadName } from '#words/thread'
import { describeWalkRefusal, thingName } from '#words/walk'
import { placeRef } from './collection'
import { notFound, Problem } from './problem'
import type { getWalk, getWhereMayBe } from './walks'

export const describeListedWalk = ({ id, place, startedAt, closedAt, ...walk }: WalkListed) => ({
  ...{ walkId: id, kind: walk.kind, title: walk.title, status: walk.status, place: placeRef(place) },
  ...{ startedAt: startedAt.toISOString(), startedBy: walk.startedBy },
  ...{ closedAt: closedAt?.toISOString() ?? null, closedBy: walk.closedBy },
  ...{ version: walk.version, progress: walk.progress },
})

const describeLine = ({ id, thing, place, tickedAt, ...line }: ShownLine) => ({
  ...{ lineId: id, kind: thing.kind, thingId: line.thingId, name: thingName(thing) },
  ...{ lot: thing.kind === 'thread' ? thing.lot : null, place: placeRef(place), projectId: line.projectId },
  ...{ count: line.count, takesPart: line.takesPart, status: line.status },
  ...{ tickedAt: tickedAt?.toISOString() ?? null, tickedBy: line.tickedBy, isCarried: line.isCarried, note: line.note },
})

/** A walk with its lines, or that there is none. */
export async function describeWalk(walkId: string): Promise<z.input<typeof getWalk.answer> | Problem> {
  const found = await findWalk(walkId)
  if (!found) return notFound('walk', walkId)
  const { walk, progress, projects, lines, revision } = found
  return {
    ...describeListedWalk({ ...walk, progress }),
    revision,
    projects: projects.map(({ id, title, quantity, status, place }) => ({
      ...{ projectId: id, title, quantity, status, bag: placeRef(place) },
    })),
    lines: lines.map(describeLine),
  }
}

export const describeNews = ({ lines, ...news }: WalkNews) => ({
  ...news,
  lines: lines.map(({ id, tickedAt, ...line }) => ({ lineId: id, tickedAt: tickedAt?.toISOString() ?? null, ...line })),
})

const describeMoved = (moved: LastMoved | null) =>
  moved && { at: moved.at.toISOString(), what: moved.kind, who: moved.who, from: moved.from, to: moved.to }

/** Where a thing may be, or that there is no such line. */
export async function describeWhereMayBe(
  walkId: string,
  lineId: string,
): Promise<z.input<typeof getWhereMayBe.answer> | Problem> {
  const [found, { threadUnit }] = await Promise.all([readWhereMayBe(walkId, lineId), getSettings()])
  if (!found) return notFound('line of this walk', lineId)
  return {
    lineId,
    lastMoved: describeMoved(found.lastMoved),
    formerHomes: found.formerHomes.map(({ place, until }) => ({
      place: { placeId: place.id, label: place.label },
      until: until.toISOString(),
    })),
    others: found.others.map(({ batch, thread, place, home, freeStrandTenths, promisedTo, lastMoved, isStandIn }) => ({
      ...{ batchId: batch.id, name: threadName(thread), lot: batch.lot, isStandIn },
      ...{ place: placeRef(place), home: placeRef(home), held: heldWords(batch, thread, threadUnit) },
      ...{ freeStrandTenths, free: threadLength(freeStrandTenths, thread.strands, threadUnit) },
      promisedTo: promisedTo.map(({ id, title }) => ({ projectId: id, title })),
      lastMoved: describeMoved(lastMoved),
    })),
  }
}

/** Why nothing was done, as the API says it. */
export function describeWalkProblem(refusal: WalkRefusal): Problem {
  if (refusal.kind === 'no-such-walk') return notFound('walk', refusal.walkId)
  if (refusal.kind === 'no-such-line') return notFound('line of this walk', refusal.lineId)
  if (refusal.kind === 'no-such-project') return notFound('project', refusal.projectId)
  return new Problem('refused', describeWalkRefusal(refusal))
}
