import 'server-only'
import type { ProjectStatus } from '#lib/project/life-cycle'
import { type Result, refused } from '#lib/result'
import { write } from '../write'
import { type ProjectEdit, type ProjectEditRefused, readProject, writeProject } from './project-row'

/** Nothing is framed that is not stitched. */
export type SetFrameRefused = ProjectEditRefused | { kind: 'not-stitched'; status: ProjectStatus }

/**
 * Say what frame a piece went into, by its outer measure, and what it cost beside thread, cloth, chart and what others were paid. What is
 * left out stays as it is; null forgets it.
 */
export function setFrame(
  input: ProjectEdit & {
    frame?: { widthUm: number; heightUm: number } | null | undefined
    otherCostMinor?: number | null | undefined
  },
): Promise<Result<null, SetFrameRefused>> {
  return write<null, SetFrameRefused>(async (writing) => {
    const read = await readProject(writing.tx, input)
    if (!read.ok) return read
    const { status } = read.value
    if (status !== 'stitched' && status !== 'finished') return refused({ kind: 'not-stitched', status })
    const { frame, otherCostMinor } = input
    return writeProject(writing, read.value, {
      ...(frame !== undefined && { frameWidthUm: frame?.widthUm ?? null, frameHeightUm: frame?.heightUm ?? null }),
      ...(otherCostMinor !== undefined && { otherCostMinor }),
    })
  })
}
