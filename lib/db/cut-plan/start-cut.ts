import 'server-only'
import type { AskedCut } from '#lib/coverage/asked-cut'
import { ok, type Result, refused } from '#lib/result'
import type { Settings } from '#lib/settings/settings'
import type { TooManyAtOnce } from '../job/job'
import { type CutJob, findCutJob, startCutJob } from './cut-jobs'
import type { KeptAsked } from './cut-plan-rows'
import { readCutChoices, type StuckWish } from './read-cut-choices'

export type StartCutRefused =
  | TooManyAtOnce
  /** A design or project is not there, or nobody knows how large it is. */
  | { kind: 'not-known'; stuck: StuckWish[] }
  /** None of it can be cut from the pieces there are; those asked for that are of no use. */
  | { kind: 'nothing-to-cut'; uselessIds: string[] }

/** The longest a person may let one search go on. */
export const mostCutSeconds = 600

export type SearchedCut = CutJob<KeptAsked>

/** Begin to search for a plan of cuts; `findCut` says how it goes. */
export async function startCut(
  asked: AskedCut,
  { ownerIds, settings, timeLimitSeconds }: { ownerIds: readonly string[]; settings: Settings; timeLimitSeconds: number },
): Promise<Result<SearchedCut, StartCutRefused>> {
  const choices = await readCutChoices(asked, { ownerIds, settings })
  const { request, wishes, stuck, uselessIds } = choices
  const unknown = stuck.filter(({ why }) => why !== 'no-piece')
  if (unknown.length > 0) return refused({ kind: 'not-known', stuck: unknown })
  if (request.pieces.length === 0) return refused({ kind: 'nothing-to-cut', uselessIds })
  const about: KeptAsked = {
    asked: { ...asked, pieceIds: request.pieces.map(({ id }) => id) },
    wishes: wishes.map((wish) => ({
      id: wish.id,
      title: wish.title,
      designId: wish.kind === 'design' ? wish.designId : null,
      projectId: wish.kind === 'design' ? wish.projectId : null,
      fitsSome: request.wishes.some(({ id, ways }) => id === wish.id && Object.keys(ways).length > 0),
    })),
  }
  const started = await startCutJob({ about, request, timeLimitSeconds })
  return started.ok ? ok(started.value) : started
}

/** @returns null for one nobody knows any more, as after the program was started again. */
export const findCut = (jobId: string): Promise<SearchedCut | null> => findCutJob<KeptAsked>(jobId)
