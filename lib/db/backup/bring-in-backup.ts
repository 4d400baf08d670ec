import 'server-only'
import { randomUUID } from 'node:crypto'
import { createWriteStream } from 'node:fs'
import { rename } from 'node:fs/promises'
import path from 'node:path'
import { Readable, Transform } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import type { ReadableStream as NodeReadableStream } from 'node:stream/web'
import { nameBroughtIn } from '#lib/backup/backup-name'
import { ok, type Result, refused } from '#lib/result'
import { requireWhole } from '../access/whole'
import { closeDraft, openBackupFolder, openDraft, sweepDrafts } from './backup-folder'
import { type BackupRefused, refusalOf } from './backup-refused'
import { openBackup } from './open-backup'

/** Larger than any backup of a collection; a stream without an end must not fill the disk. */
export const mostBroughtInBytes = 50 * 1024 ** 3

export type BroughtInRefused = BackupRefused | { kind: 'too-large'; mostBytes: number } | { kind: 'cut-off' }

class TooLarge extends Error {}

/** Keep a backup that comes from elsewhere, as it comes, if it opens as one. It is not checked yet. */
export async function bringInBackup(stream: ReadableStream<Uint8Array>): Promise<Result<{ name: string }, BroughtInRefused>> {
  requireWhole()
  const opened = await openBackupFolder()
  if (!opened.ok) return opened
  const folder = opened.value
  await sweepDrafts(folder)
  let draft: string | null = null
  let bytes = 0
  const measured = new Transform({
    transform(chunk: Buffer, _, next) {
      bytes += chunk.length
      next(bytes > mostBroughtInBytes ? new TooLarge() : null, chunk)
    },
  })
  try {
    draft = await openDraft(folder)
    const file = path.join(draft, 'brought-in.zip')
    await pipeline(Readable.fromWeb(stream as NodeReadableStream<Uint8Array>), measured, createWriteStream(file, { flags: 'wx' }))
    const backup = await openBackup(file)
    if (!backup.ok) return refused({ kind: 'bad-backup', faults: [backup.error] })
    backup.value.close()
    const { madeAt, kind } = backup.value.manifest
    const name = nameBroughtIn(new Date(madeAt), kind, randomUUID().slice(0, 4))
    await rename(file, path.join(folder, name))
    return ok({ name })
  } catch (error) {
    if (error instanceof TooLarge) return refused({ kind: 'too-large', mostBytes: mostBroughtInBytes })
    const { code, name } = error as { code?: string; name?: string }
    if (code === 'ERR_STREAM_PREMATURE_CLOSE' || code === 'ECONNRESET' || name === 'AbortError')
      return refused({ kind: 'cut-off' })
    const refusal = refusalOf(error, folder)
    if (refusal) return refused(refusal)
    throw error
  } finally {
    if (draft !== null) await closeDraft(draft)
  }
}
