import 'server-only'
import type { Result } from '#lib/result'
import { write } from '../write'
import { type ProjectEdit, type ProjectEditRefused, readProject, writeProject } from './project-row'

/** Say on which day a project is meant to be begun, or (null) that no day is planned. `plannedOn` is yyyy-mm-dd. */
export function planDay(input: ProjectEdit & { plannedOn: string | null }): Promise<Result<null, ProjectEditRefused>> {
  return write<null, ProjectEditRefused>(async (writing) => {
    const read = await readProject(writing.tx, input)
    return read.ok ? writeProject(writing, read.value, { plannedOn: input.plannedOn }) : read
  })
}
