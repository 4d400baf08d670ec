import type { BackupFault } from '#lib/backup/check'
import { troubleOf } from '../trouble'

/** Why a backup was not made, or not restored. Whatever it is, no half backup stands and the collection is as it was. */
export type BackupRefused =
  /** The folder that was chosen is not there: a disk that is not connected, perhaps. */
  | { kind: 'folder-missing'; folder: string }
  /** A folder of that name is there, but without the mark that was put into the chosen one: its disk is not connected, perhaps. */
  | { kind: 'folder-not-ours'; folder: string }
  | { kind: 'folder-not-writable'; folder: string }
  /** `needBytes` is null when the disk ran full while it was written. */
  | { kind: 'disk-full'; folder: string; needBytes: number | null }
  /** The collection's own database does not read whole. */
  | { kind: 'database-damaged'; says: string }
  /** Another program holds the database. */
  | { kind: 'database-busy' }
  | { kind: 'no-such-backup' }
  | { kind: 'bad-backup'; faults: BackupFault[] }
  /** Somebody wrote between setting the present collection aside and putting the other in its place. */
  | { kind: 'changed-meanwhile' }

const noAccess = new Set(['EACCES', 'EPERM', 'EROFS', 'SQLITE_READONLY', 'SQLITE_CANTOPEN'])

/** What an error of the disk or of SQLite means for who asked; null for a fault of the program, which is thrown on. */
export function refusalOf(error: unknown, folder: string): BackupRefused | null {
  const { code, message } = error as { code?: unknown; message?: unknown }
  const sign = String(code ?? '')
  const says = String(message ?? '')
  const trouble = troubleOf(error)
  if (trouble === 'full') return { kind: 'disk-full', folder, needBytes: null }
  if (/malformed|not a database|disk image|SQLITE_CORRUPT|SQLITE_NOTADB/i.test(`${sign} ${says}`))
    return { kind: 'database-damaged', says }
  if (trouble === 'busy') return { kind: 'database-busy' }
  if (noAccess.has(sign)) return { kind: 'folder-not-writable', folder }
  if (sign === 'ENOENT' || sign === 'ENOTDIR') return { kind: 'folder-missing', folder }
  return null
}

/** Thrown where a refusal is found deep in the work; caught where the work was begun. */
export class Refused extends Error {
  constructor(readonly refusal: BackupRefused) {
    super(refusal.kind)
  }
}
