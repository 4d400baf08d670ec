import 'server-only'
import { planTransition, type TransitionRefused } from '#lib/project/life-cycle'
import type { FinishPlan } from '#lib/project/plan-finish'
import { ok, type Result, refused } from '#lib/result'
import type { Settings } from '#lib/settings/settings'
import type { PreparedPhoto } from '../photo/prepare-photo'
import { withPhoto } from '../photo/with-photo'
import { ensurePlace } from '../place/ensure-place'
import { getSettings } from '../settings/settings'
import { write } from '../write'
import { type ClothOutcome, closeCloth, closeKeptCloth, type FinishClothRefused } from './finish-cloth'
import { type FinishLeftoverRefused, type Leftover, readLeftovers, writeReadings } from './finish-leftovers'
import { readKit } from './project-bag'
import { type ProjectEdit, type ProjectEditRefused, readProject, writeProject } from './project-row'
import { bringHome, type CloseRefused, closeStock, type PutBackHow } from './put-kit-back'
import { needsLeft, readProjectNeed } from './read-need'
import { usableByThread } from './usable-thread'

export type FinishProject = ProjectEdit & {
  /** yyyy-mm-dd */
  finishedOn: string
  /** All of it, not to be added to what is logged. */
  hoursTenths: number
  stitchesDone: number
  /** Threads left out were used as the design needs, as far as they were there. `all`: nothing of it is left. */
  used: readonly { threadId: string; strandTenths: number | 'all' }[]
  /** Threads whose use is known by what is left in the bag; they come before `used`, and one's own allowance is learnt from them. */
  leftovers?: readonly Leftover[]
  /** Pulled, and not in the bag when it was unpacked. */
  missingBatchIds: readonly string[]
  cloth: ClothOutcome
  /** Other pieces cut or set aside for it: those that were used up; the others are free again. */
  usedKeptClothIds?: readonly string[]
  /** Left out, all is said to lie where it lives already. */
  putBack?: PutBackHow | undefined
  finishing: string | null
  forWhom: string | null
  /** Where the finished piece is. */
  placeLabel: string | null
  note: string | null
  photo: PreparedPhoto | null
}

export type FinishRefused =
  | ProjectEditRefused
  | TransitionRefused
  | CloseRefused
  | FinishClothRefused
  | FinishLeftoverRefused
  | { kind: 'finished-before-started'; startedOn: string }

export type Finished = FinishPlan & { offcutIds: string[]; walkId: string | null }

/**
 * Finish a project, in one write: thread that was used is used up, the rest goes back where it lives, promises are freed, the cloth is
 * used, offcuts are pieces of cloth again, chart and notions go back: at once, or by a list to be ticked.
 */
export async function finishProject(input: FinishProject): Promise<Result<Finished, FinishRefused>> {
  const settings = await getSettings()
  return withPhoto(input.photo, (photoFile) => writeFinish(input, photoFile, settings))
}

const writeFinish = (input: FinishProject, photoFile: string | null, settings: Settings) =>
  write<Finished, FinishRefused>(async (writing) => {
    const { tx } = writing
    const read = await readProject(tx, input)
    if (!read.ok) return read
    const project = read.value
    const finished = planTransition({ ...project, finishedOn: null }, 'finished', input.finishedOn)
    if (!finished.ok) return finished
    if (project.startedOn !== null && input.finishedOn < project.startedOn)
      return refused({ kind: 'finished-before-started', startedOn: project.startedOn })

    const { hoursTenths, stitchesDone, finishing, forWhom, note, who } = input
    const placeId = input.placeLabel === null ? null : await ensurePlace(writing, input.placeLabel)
    const written = await writeProject(writing, project, {
      ...finished.value,
      ...{ hoursTenths, stitchesDone, finishing, forWhom, note, placeId },
      ...(photoFile !== null && { photoFile }),
    })
    if (!written.ok) return written

    const kit = await readKit(tx, project)
    const present = kit.batches.filter((batch) => !input.missingBatchIds.includes(batch.id))
    const usable = usableByThread(project.id, present, kit.promises)
    const need = await readProjectNeed(tx, project, settings)
    const { leftovers = [], missingBatchIds } = input
    const left = await readLeftovers(tx, kit.batches, { leftovers, missingBatchIds })
    if (!left.ok) return left
    const used = new Map(
      input.used.map(({ threadId, strandTenths }) => [
        threadId,
        strandTenths === 'all' ? (usable.get(threadId) ?? 0) : strandTenths,
      ]),
    )
    for (const { threadId, usedStrandTenths } of left.value) used.set(threadId, usedStrandTenths)
    const measuredThreadIds = new Set(left.value.map(({ threadId }) => threadId))
    const closing = { needs: needsLeft(need), used, missingBatchIds, measuredThreadIds }
    const how = input.putBack ?? 'now'
    const closed = await closeStock(writing, project, closing, { how, who })
    if (!closed.ok) return closed
    await writeReadings(writing, project, { uses: left.value, needs: need.needs })

    const kept = await closeKeptCloth(writing, project, { usedIds: input.usedKeptClothIds ?? [], who })
    if (!kept.ok) return kept
    const { clothPieceId } = project
    const isClothUsed = clothPieceId !== null && input.cloth.kind === 'used'
    const clothPieceIds = [...(clothPieceId !== null && !isClothUsed ? [clothPieceId] : []), ...kept.value.freedIds]
    const rest = { how, leftovers: closed.value.putBack, clothPieceIds, takesNotions: true, who }
    const walkId = await bringHome(writing, project, rest)
    for (const id of clothPieceIds) writing.touch('cloth', id)
    if (clothPieceId === null || input.cloth.kind === 'not-used') return ok({ ...closed.value, offcutIds: [], walkId })
    const cut = await closeCloth(writing, clothPieceId, { projectId: project.id, offcuts: input.cloth.offcuts, who })
    return cut.ok ? ok({ ...closed.value, ...cut.value, walkId }) : cut
  })
