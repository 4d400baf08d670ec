import 'server-only'
import type { TransitionRefused } from '#lib/project/life-cycle'
import { ok, type Result } from '#lib/result'
import { write } from '../write'
import {
  type ClothChoiceRefused,
  type ProjectEdit,
  type ProjectEditRefused,
  planStep,
  readProject,
  writeProject,
} from './project-row'

export type MoveRefused = ProjectEditRefused | TransitionRefused | ClothChoiceRefused

/** Begin or take up the stitching, lay it by, or say that the last stitch is made. `today` is yyyy-mm-dd. */
export function moveProject(
  input: ProjectEdit & { to: 'stitching' | 'resting' | 'stitched'; today: string },
): Promise<Result<null, MoveRefused>> {
  return write<null, MoveRefused>(async (writing) => {
    const read = await readProject(writing.tx, input)
    if (!read.ok) return read
    const moved = await planStep(writing, read.value, input.to, input.today)
    return moved.ok ? writeProject(writing, read.value, moved.value) : moved
  })
}

export type LogRefused = ProjectEditRefused | { kind: 'nothing-logged' }

/** Add what was stitched to what is logged. Two people logging at one moment both count. */
export function logWork(
  input: Omit<ProjectEdit, 'version'> & { hoursTenths: number; stitches: number },
): Promise<Result<{ hoursTenths: number; stitchesDone: number }, LogRefused>> {
  const { hoursTenths, stitches } = input
  for (const figure of [hoursTenths, stitches])
    if (!Number.isSafeInteger(figure) || figure < 0) throw new RangeError(`logWork: ${figure}`)
  return write<{ hoursTenths: number; stitchesDone: number }, LogRefused>(async (writing) => {
    if (hoursTenths === 0 && stitches === 0) return { ok: false, error: { kind: 'nothing-logged' } }
    const read = await readProject(writing.tx, { projectId: input.projectId })
    if (!read.ok) return read
    const logged = {
      hoursTenths: read.value.hoursTenths + hoursTenths,
      stitchesDone: read.value.stitchesDone + stitches,
    }
    const written = await writeProject(writing, read.value, logged)
    return written.ok ? ok(logged) : written
  })
}
