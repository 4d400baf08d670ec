import 'server-only'
import type { Result } from '#lib/result'
import { write } from '../write'
import { type ProjectEdit, type ProjectEditRefused, readProject, writeProject } from './project-row'

/** Say by which day, yyyy-mm-dd, a project is due, and how many weeks its finishing takes; what is left out stays as it is. */
export function setDeadline(
  input: ProjectEdit & { dueOn?: string | null | undefined; finishingWeeks?: number | null | undefined },
): Promise<Result<null, ProjectEditRefused>> {
  return write<null, ProjectEditRefused>(async (writing) => {
    const read = await readProject(writing.tx, input)
    const { dueOn, finishingWeeks } = input
    return read.ok ? writeProject(writing, read.value, { dueOn, finishingWeeks }) : read
  })
}
