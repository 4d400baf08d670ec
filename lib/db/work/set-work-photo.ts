import 'server-only'
import { ok, type Result } from '#lib/result'
import type { PreparedPhoto } from '../photo/prepare-photo'
import { withPhoto } from '../photo/with-photo'
import { write } from '../write'
import { claimEntry, type WorkEntryEdit, type WorkEntryRefused } from './work-entry'

/** Show how it looked that day by this photo. One it was shown by before stays in the data folder. */
export const setWorkPhoto = (input: WorkEntryEdit & { photo: PreparedPhoto }): Promise<Result<null, WorkEntryRefused>> =>
  withPhoto(input.photo, (photoFile) =>
    write<null, WorkEntryRefused>(async ({ tx, touch }) => {
      const claimed = await claimEntry(tx, input, false)
      if (!claimed.ok) return claimed
      await tx.workEntry.update({ where: { id: input.entryId }, data: { photoFile } })
      touch('project', claimed.value.project.id)
      return ok(null)
    }),
  )
