import 'server-only'
import type { Result } from '#lib/result'
import { write } from '../write'
import { readLog, settleLog } from './settle-log'
import { claimEntry, type WorkEntryEdit, type WorkEntryRefused } from './work-entry'

/** Put an entry that was taken out back into the log. */
export function restoreWork(input: WorkEntryEdit): Promise<Result<null, WorkEntryRefused>> {
  return write<null, WorkEntryRefused>(async (writing) => {
    const { tx } = writing
    const claimed = await claimEntry(tx, input, true)
    if (!claimed.ok) return claimed
    const { project } = claimed.value
    const before = await readLog(tx, project.id)
    await tx.workEntry.update({ where: { id: input.entryId }, data: { goneAt: null } })
    return settleLog(writing, project, before)
  })
}
