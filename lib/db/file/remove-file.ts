import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { write } from '../write'

export type FileChangeRefusal = { kind: 'changed-meanwhile' }

/** Take a file off its thing. Its bytes stay, so that `restoreFile` brings it back. */
export const removeFile = (input: { id: string; version: number }): Promise<Result<null, FileChangeRefusal>> =>
  setGone(input, true)

/** Bring back a file that was removed. */
export const restoreFile = (input: { id: string; version: number }): Promise<Result<null, FileChangeRefusal>> =>
  setGone(input, false)

function setGone({ id, version }: { id: string; version: number }, isGone: boolean): Promise<Result<null, FileChangeRefusal>> {
  return write<null, FileChangeRefusal>(async ({ tx, at }) => {
    const changed = await tx.keptFile.updateMany({
      where: { id, version, goneAt: isGone ? null : { not: null } },
      data: { goneAt: isGone ? at : null, version: { increment: 1 } },
    })
    return changed.count === 0 ? refused({ kind: 'changed-meanwhile' }) : ok(null)
  })
}
