import 'server-only'
import type { TransitionRefused } from '#lib/project/life-cycle'
import type { Result } from '#lib/result'
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
