import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import type { Transaction } from '../client'
import { newId } from '../new-id'
import { getSettings } from '../settings/settings'
import type { ChangedMeanwhile } from '../stock/apply-stock-change'
import { hasOwner, type NoSuchOwner } from '../stock/change-batch'
import { write } from '../write'
import { ensureBag } from './project-bag'
import { type ClothChoiceRefused, checkCloth } from './project-row'
import { type Promised, promiseForProject } from './promise-for-project'

export type StartProject = {
  designId: string
  /** One of the design's own; null when it has none or the choice is left open: nothing can then be promised. */
  threadListId: string | null
  ownerId: string
  clothPieceId: string | null
  /** null follows the chart */
  over: 1 | 2 | null
  /** All copies, spares among them. */
  quantity: number
  /** How many of them are spare kits, fewer than there are copies; none when left out. */
  spares?: number
  /** Where the kit will be; a label that is new becomes a bag. */
  bagLabel: string | null
  forWhom: string | null
  /** yyyy-mm-dd */
  dueOn: string | null
  /** yyyy-mm-dd: when it is meant to be begun */
  plannedOn?: string | null
  note: string | null
  /** Only wanted: no stock is promised, and the cloth is not kept for it. */
  isWish: boolean
  who?: string | null
}

export type ChoiceRefused = ClothChoiceRefused | { kind: 'no-such-list'; threadListId: string }

export type StartRefused = { kind: 'no-such-design'; designId: string } | NoSuchOwner | ChoiceRefused | ChangedMeanwhile

export type StartedProject = Promised & { projectId: string }

/**
 * Start a project from a design: it is planned, and promised exact batches for every thread as far as they are free.
 *
 * @throws {RangeError} if the quantity is not a whole number above nought, or all of it would be spares
 */
export async function startProject(input: StartProject): Promise<Result<StartedProject, StartRefused>> {
  if (!Number.isSafeInteger(input.quantity) || input.quantity < 1)
    throw new RangeError(`startProject: quantity ${input.quantity}`)
  const { spares = 0 } = input
  if (!Number.isSafeInteger(spares) || spares < 0 || spares >= input.quantity)
    throw new RangeError(`startProject: ${spares} spares of ${input.quantity}`)
  const settings = await getSettings()
  return write<StartedProject, StartRefused>(async (writing) => {
    const { tx, touch } = writing
    const { designId, threadListId, ownerId, clothPieceId, over, quantity, forWhom, dueOn, plannedOn, note } = input
    if ((await tx.design.count({ where: { id: designId, chart: { goneAt: null } } })) === 0)
      return refused({ kind: 'no-such-design', designId })
    if (!(await hasOwner(tx, ownerId))) return refused({ kind: 'no-such-owner', ownerId })
    const chosen = await checkChoices(tx, { designId, threadListId, ownerId, clothPieceId, projectId: null })
    if (!chosen.ok) return chosen

    const project = { id: newId(), designId, threadListId, ownerId, clothPieceId, over, quantity }
    const status = input.isWish ? ('wanted' as const) : ('planned' as const)
    const placeId = input.bagLabel ? await ensureBag(writing, input.bagLabel) : null
    await tx.project.create({ data: { ...project, spares, status, placeId, forWhom, dueOn, plannedOn, note } })
    touch('project', project.id)
    if (clothPieceId) touch('cloth', clothPieceId)
    if (input.isWish) return ok({ projectId: project.id, promised: [], short: [] })
    const promised = await promiseForProject(writing, { ...project, status, placeId }, settings, input.who)
    return promised.ok ? ok({ projectId: project.id, ...promised.value }) : promised
  })
}

/** Whether list and cloth can be this project's: the list is the design's own, the piece is the owner's and nobody else's plan. */
export async function checkChoices(
  tx: Transaction,
  choice: {
    designId: string
    threadListId: string | null
    ownerId: string
    clothPieceId: string | null
    projectId: string | null
  },
): Promise<Result<null, ChoiceRefused>> {
  const { designId, threadListId, ownerId, clothPieceId, projectId } = choice
  if (threadListId && (await tx.threadList.count({ where: { id: threadListId, designId } })) === 0)
    return refused({ kind: 'no-such-list', threadListId })
  return checkCloth(tx, { ownerId, clothPieceId, projectId })
}
