import 'server-only'
import type { Result } from '#lib/result'
import type { PreparedPhoto } from '../photo/prepare-photo'
import { withPhoto } from '../photo/with-photo'
import { write } from '../write'
import { type ProjectEdit, type ProjectEditRefused, readProject, writeProject } from './project-row'

/** Show a project by this photo from now on. One it was shown by before stays in the data folder. */
export const setPhoto = (input: ProjectEdit & { photo: PreparedPhoto }): Promise<Result<null, ProjectEditRefused>> =>
  withPhoto(input.photo, (photoFile) =>
    write<null, ProjectEditRefused>(async (writing) => {
      const read = await readProject(writing.tx, input)
      return read.ok ? writeProject(writing, read.value, { photoFile }) : read
    }),
  )
