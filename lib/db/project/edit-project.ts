import 'server-only'
import type { OccasionRefused } from '#lib/planning/days/occasion-due'
import { ok, type Result, refused } from '#lib/result'
import { getSettings } from '../settings/settings'
import { write } from '../write'
import { type ForOccasion, planDue } from './plan-due'
import { type ProjectEdit, type ProjectEditRefused, readProject, writeProject } from './project-row'
import { promiseForProject } from './promise-for-project'
import { type ChoiceRefused, checkChoices } from './start-project'

export type ProjectDetails = {
  threadListId: string | null
  clothPieceId: string | null
  over: 1 | 2 | null
  /** All copies, spares among them. */
  quantity: number
  /** Of them; as they were when left out, as far as that leaves one to be sold. */
  spares?: number
  forWhom: string | null
  dueOn: string | null
  /** What it is due for: choosing one sets the day; left out, it stays as it is. */
  forOccasion?: ForOccasion | undefined
  /** 1 to 5; null takes them off; left out, they stay as they are. */
  stars?: number | null
  /** yyyy-mm-dd: when it is meant to be begun; left out, it stays as it is. */
  plannedOn?: string | null
  finishing: string | null
  /** Null follows the settings; left out, it stays as it is. */
  finishingWeeks?: number | null
  note: string | null
  hoursTenths: number
  stitchesDone: number
}

export type EditRefused = ProjectEditRefused | ChoiceRefused | OccasionRefused | { kind: 'already-kitted' }

/**
 * Change what was set down about a project. List, cloth, over and quantity can change only until it is kitted; when they do, its
 * promises are chosen anew.
 */
export async function editProject(input: ProjectEdit & ProjectDetails): Promise<Result<null, EditRefused>> {
  const settings = await getSettings()
  return write<null, EditRefused>(async (writing) => {
    const read = await readProject(writing.tx, input)
    if (!read.ok) return read
    const project = read.value
    const { threadListId, clothPieceId, over, quantity } = input
    const choices = { threadListId, clothPieceId, over, quantity }
    const isSameWork =
      threadListId === project.threadListId &&
      clothPieceId === project.clothPieceId &&
      over === project.over &&
      quantity === project.quantity
    if (!isSameWork) {
      if (project.status !== 'wanted' && project.status !== 'planned') return refused({ kind: 'already-kitted' })
      const chosen = await checkChoices(writing.tx, { ...choices, ...project, threadListId, clothPieceId, projectId: project.id })
      if (!chosen.ok) return chosen
      for (const id of new Set([clothPieceId, project.clothPieceId])) if (id) writing.touch('cloth', id)
    }
    const due = await planDue(writing.tx, project, input, settings)
    if (!due.ok) return due
    const { forWhom, stars, plannedOn, finishing, finishingWeeks, note, hoursTenths, stitchesDone } = input
    const spares = Math.min(input.spares ?? project.spares, quantity - 1)
    const written = await writeProject(writing, project, {
      ...choices,
      ...{ spares, forWhom, ...due.value, stars, plannedOn, finishing, finishingWeeks, note, hoursTenths, stitchesDone },
    })
    if (!written.ok) return written
    if (!isSameWork && project.status === 'planned') {
      const promised = await promiseForProject(writing, { ...project, ...choices }, settings, input.who)
      if (!promised.ok) return promised
    }
    return ok(null)
  })
}
