import type { RowFault } from './read-row'
import type { VersionRefused } from './versions'

/** Why an archive is not brought back. In every case nothing was changed. */
export type ArchiveRefused =
  /** It is no ZIP, or one without our manifest. */
  | { kind: 'not-an-archive' }
  /** The ZIP is cut off or broken. */
  | { kind: 'archive-torn' }
  | VersionRefused
  /** A name in it that no archive has, such as one that leads out of its folder, or one that stands twice. */
  | { kind: 'part-unknown'; path: string }
  | { kind: 'part-missing'; path: string }
  /** Its bytes are not those the manifest tells of. */
  | { kind: 'part-altered'; path: string }
  /** Unpacked it would be far more than it can rightly be. */
  | { kind: 'archive-too-large'; path: string | null }
  | { kind: 'no-room'; wantsBytes: number; freeBytes: number }
  | { kind: 'row-not-read'; table: string; line: number; fault: RowFault }
  /** The database refused rows: one names another that is not there, stands twice, or has a figure that cannot be. */
  | { kind: 'rows-do-not-fit'; table: string }
  /** There is something here already: by table, how many rows. */
  | { kind: 'not-empty'; held: { table: string; count: number }[] }
  | { kind: 'stopped' }
