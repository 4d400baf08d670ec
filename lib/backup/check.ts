/** Something wrong with a backup. */
export type BackupFault =
  /** It is no ZIP, is torn, or has no manifest that reads. */
  | { kind: 'not-a-backup' }
  /** A later Chart Larder made it. */
  | { kind: 'newer'; made: string }
  | { kind: 'part-missing'; name: string }
  /** It is in the ZIP and not in the manifest, or its name leads out of the backup. */
  | { kind: 'part-unknown'; name: string }
  /** Its bytes are not those that were written. */
  | { kind: 'part-altered'; name: string }
  /** The database itself says so. */
  | { kind: 'database-damaged'; says: string }
  /** It has other tables than a collection has. */
  | { kind: 'other-database' }
  /** Rows that name rows which are not there. */
  | { kind: 'broken-links'; count: number; table: string }
  | { kind: 'counts-differ'; table: string; said: number; found: number }
  /** Things whose amount is not the sum of their movements. */
  | { kind: 'stock-differs'; noun: 'batch' | 'cloth' | 'chart' | 'notion'; count: number }
  /** Photographs and files that rows name and that are not in the backup. */
  | { kind: 'files-missing'; count: number; first: string }

/** What a collection holds, as a person counts: without what was removed, but for the journal, which keeps everything. */
export const heldNouns = ['charts', 'threads', 'cloth', 'notions', 'places', 'projects', 'movements', 'photos', 'files'] as const
export type HeldNoun = (typeof heldNouns)[number]
export type BackupHolds = Record<HeldNoun, number>

export type BackupCheck =
  | { isGood: true; at: string; holds: BackupHolds }
  | { isGood: false; at: string; faults: BackupFault[]; canRestore: boolean }

/**
 * Faults that a collection may have had already when the backup of it was made. A backup with only these is as good as what it was made
 * of, and can be restored; with any other it cannot.
 */
const ofTheCollection = new Set<BackupFault['kind']>(['stock-differs', 'files-missing'])

export const canRestoreWith = (faults: readonly BackupFault[]): boolean => faults.every(({ kind }) => ofTheCollection.has(kind))
