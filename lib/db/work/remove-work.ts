import 'server-only'
import type { Result } from '#lib/result'
import { write } from '../write'
import { readLog, settleLog } from './settle-log'
import { claimEntry, type WorkEntryEdit, type WorkEntryRefused } from './work-entry'

/** Take an entry out of the log, and what it said off the totals. It is kept, and `restoreWork` puts it back. */
export function removeWork(input: WorkEntryEdit): Promise<Result<null, WorkEntryRefused>> {
  return write<null, WorkEntryRefused>(async (writing) => {
    const { tx, at } = writing
    const claimed = await claimEntry(tx, input, false)
    if (!claimed.ok) return claimed
    const { project } = claimed.value
    const before = await readLog(tx, project.id)
    await tx.workEntry.update({ where: { id: input.entryId }, data: { goneAt: at } })
    return settleLog(writing, project, before)
  })
}
