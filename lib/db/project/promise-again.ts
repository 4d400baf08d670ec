import 'server-only'
import { type TransitionRefused, transitions } from '#lib/project/life-cycle'
import { type Result, refused } from '#lib/result'
import { getSettings } from '../settings/settings'
import { write } from '../write'
import {
  type ClothChoiceRefused,
  type ProjectEdit,
  type ProjectEditRefused,
  planStep,
  readProject,
  writeProject,
} from './project-row'
import { type Promised, promiseForProject } from './promise-for-project'

export type PromiseAgainRefused = ProjectEditRefused | TransitionRefused | ClothChoiceRefused

/**
 * Promise a project what has become free since; one that was only wanted becomes planned by it. Until something is in its bag all of
 * its promises are chosen anew; later, what it was promised stays.
 */
export async function promiseAgain(input: ProjectEdit): Promise<Result<Promised, PromiseAgainRefused>> {
  const settings = await getSettings()
  return write<Promised, PromiseAgainRefused>(async (writing) => {
    const read = await readProject(writing.tx, input)
    if (!read.ok) return read
    const project = read.value
    if (transitions[project.status].length === 0)
      return refused({ kind: 'not-from-here', from: project.status, to: 'planned', allowed: [] })
    const planned = project.status === 'wanted' ? await planStep(writing, project, 'planned', '') : null
    if (planned && !planned.ok) return planned
    const written = await writeProject(writing, project, planned ? { status: planned.value.status } : {})
    if (!written.ok) return written
    return promiseForProject(writing, project, settings, input.who)
  })
}
