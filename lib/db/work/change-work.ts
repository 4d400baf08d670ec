import 'server-only'
import { type Result, refused } from '#lib/result'
import { write } from '../write'
import { checkSaid, type WorkSaid, type WorkSaidRefused } from './log-work'
import { readLog, settleLog } from './settle-log'
import { claimEntry, type WorkEntryEdit, type WorkEntryRefused } from './work-entry'

export type ChangeWorkRefused = WorkEntryRefused | WorkSaidRefused

/** Say otherwise what was done on a day. One with neither figure stays as what was worked on. `today` is yyyy-mm-dd. */
export function changeWork(input: WorkEntryEdit & WorkSaid & { today: string }): Promise<Result<null, ChangeWorkRefused>> {
  return write<null, ChangeWorkRefused>(async (writing) => {
    const { tx } = writing
    const { entryId, day, stitches, minutes, donePerMille, note, today } = input
    const said = { day, stitches, minutes, donePerMille, note }
    const checked = checkSaid({ ...said, isTick: true, today })
    if (!checked.ok) return checked
    const claimed = await claimEntry(tx, input, false)
    if (!claimed.ok) return claimed
    const { project } = claimed.value
    const without = project.stitchesDone - claimed.value.stitches
    if (without + stitches < 0) return refused({ kind: 'below-nothing', stitchesDone: Math.max(0, without) })
    const before = await readLog(tx, project.id)
    await tx.workEntry.update({ where: { id: entryId }, data: said })
    const isEarlier = project.startedOn !== null && day < project.startedOn
    return settleLog(writing, project, before, isEarlier ? { startedOn: day } : {})
  })
}
