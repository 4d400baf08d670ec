import 'server-only'
import type { OccasionRefused } from '#lib/planning/days/occasion-due'
import type { Result } from '#lib/result'
import { getSettings } from '../settings/settings'
import { write } from '../write'
import { type ForOccasion, planDue } from './plan-due'
import { type ProjectEdit, type ProjectEditRefused, readProject, writeProject } from './project-row'

/**
 * Say by which day, yyyy-mm-dd, or for which occasion a project is due, and how many weeks its finishing takes; what is left out stays
 * as it is.
 */
export async function setDeadline(
  input: ProjectEdit & {
    dueOn?: string | null | undefined
    forOccasion?: ForOccasion | undefined
    finishingWeeks?: number | null | undefined
  },
): Promise<Result<null, ProjectEditRefused | OccasionRefused>> {
  const settings = await getSettings()
  return write<null, ProjectEditRefused | OccasionRefused>(async (writing) => {
    const read = await readProject(writing.tx, input)
    if (!read.ok) return read
    const due = await planDue(writing.tx, read.value, input, settings)
    if (!due.ok) return due
    return writeProject(writing, read.value, { ...due.value, finishingWeeks: input.finishingWeeks })
  })
}
