import type { MissingQuestion } from '#lib/db/missing/queries'
import { findMissing } from '#lib/db/missing/queries'
import { readClues } from '#lib/db/missing/read-clues'
import type { ReportMissingRefused } from '#lib/db/missing/report-missing'
import type { ReportThingRefused } from '#lib/db/missing/report-thing'
import type { SettleRefused } from '#lib/db/missing/settle-missing'
import type { UnpackBagRefused } from '#lib/db/unpack/unpack-bag'
import { describeMissingRefusal, describeUnpackRefusal } from '#words/missing'
import { placeRef } from './collection'
import { notFound, Problem } from './problem'

export function describeQuestion({ thing, project, ...question }: MissingQuestion) {
  const isThread = thing.noun === 'thread'
  return {
    ...{ missingId: question.id, version: question.version, status: question.status },
    ...{ noun: thing.noun, thingId: thing.id, name: nameOf(thing), owner: question.ownerName },
    thread: isThread
      ? { threadId: thing.threadId, maker: thing.makerName, line: thing.lineName, code: thing.code, name: thing.name }
      : null,
    lot: isThread ? thing.lot : null,
    wholePutUps: isThread ? thing.wholePutUps : null,
    partStrandTenths: isThread ? thing.partStrandTenths : null,
    ...{ home: placeRef(thing.home), current: placeRef(thing.current), lastSeen: placeRef(question.lastSeen) },
    project: project && { projectId: project.id, title: project.title },
    ...{ askedAt: question.askedAt.toISOString(), askedBy: question.askedBy, note: question.note },
    ...{ settledAt: question.settledAt?.toISOString() ?? null, settledBy: question.settledBy },
  }
}

const nameOf = (thing: MissingQuestion['thing']): string =>
  thing.noun === 'thread'
    ? [thing.makerName, thing.code, thing.name].filter(Boolean).join(' ')
    : thing.noun === 'chart'
      ? thing.title
      : [thing.noun === 'cloth' ? thing.label : null, thing.name].filter(Boolean).join(' ')

/** One question with where the thing may be, or that there is none. */
export async function describeMissing(missingId: string) {
  const question = await findMissing(missingId)
  if (!question) return notFound('question', missingId)
  const clues = (await readClues([question])).get(missingId)
  return {
    ...describeQuestion(question),
    places: (clues?.places ?? []).map(({ place, clues: why }) => ({
      place: { placeId: place.id, label: place.label },
      why: why.map(({ kind, text, at }) => ({ kind, text, at: at?.toISOString() ?? null })),
    })),
    lastHands: (clues?.lastHands ?? []).map((hand) => ({ ...hand, at: hand.at.toISOString() })),
  }
}

export const missingProblem = (refusal: ReportMissingRefused | ReportThingRefused | SettleRefused, missingId = ''): Problem =>
  refusal.kind === 'no-such-question' ? notFound('question', missingId) : new Problem('refused', describeMissingRefusal(refusal))

export const unpackProblem = (refusal: UnpackBagRefused): Problem =>
  refusal.kind === 'no-such-place'
    ? notFound('place', refusal.placeId)
    : new Problem('refused', describeUnpackRefusal(refusal, 'm'))
