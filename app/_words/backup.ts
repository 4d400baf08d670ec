import { numberText } from '#language/figures'
import type { BackupCheck, BackupFault, HeldNoun } from '#lib/backup/check'
import type { BackupKind } from '#lib/backup/manifest'
import type { BackupRefused } from '#lib/db/backup/backup-refused'
import type { BroughtInRefused } from '#lib/db/backup/bring-in-backup'
import type { LastRun } from '#lib/db/backup/last-run'
import type { RestoreStoppedRefused } from '#lib/db/backup/restore-stopped'
import type { BackupStep } from '#lib/db/backup/write-backup'
import { counted } from './amounts'

const figure = (count: number): string => numberText(count)

/** 1.3 MB, 640 KB: in thousands, as disks are sold. */
export function bytesWords(bytes: number): string {
  if (bytes >= 1e9) return `${numberText(bytes / 1e9, { maximumFractionDigits: 1 })} GB`
  if (bytes >= 1e6) return `${numberText(bytes / 1e6, { maximumFractionDigits: 1 })} MB`
  return `${Math.max(1, Math.round(bytes / 1e3))} KB`
}

export const backupKindWords: Record<BackupKind, string> = {
  scheduled: 'at its hour',
  asked: 'asked for',
  'before-restore': 'set aside before a restore',
}

export const backupStepWords: Record<BackupStep, string> = {
  copying: 'Copying the database',
  packing: 'Packing',
  checking: 'Checking: restoring it to a scratch place',
  'setting-aside': 'Setting the present collection aside',
  unpacking: 'Laying out photographs and files',
  'putting-in-place': 'Putting the collection in place',
}

export const heldWords: Record<HeldNoun, string> = {
  charts: 'charts',
  threads: 'threads',
  cloth: 'pieces of cloth',
  notions: 'notions',
  places: 'places',
  projects: 'projects',
  movements: 'movements in the journal',
  photos: 'photographs',
  files: 'files',
}

/** What a check found, in a few words; the state itself stands before it. */
export function checkWords(check: BackupCheck | null): string {
  if (check === null) return 'not checked yet'
  if (!check.isGood) return describeFault(check.faults[0] ?? { kind: 'not-a-backup' })
  const { movements, photos, files } = check.holds
  const parts = [counted(movements, 'movement'), counted(photos, 'photo')]
  if (files > 0) parts.push(counted(files, 'file'))
  return parts.join(', ')
}

const stockNouns = { batch: 'batches of thread', cloth: 'pieces of cloth', chart: 'charts', notion: 'notions' } as const

export function describeFault(fault: BackupFault): string {
  switch (fault.kind) {
    case 'not-a-backup':
      return 'It does not open as a backup: it is another kind of file, or it was cut off.'
    case 'newer':
      return 'A later Chart Larder made it. Update Chart Larder first.'
    case 'part-missing':
      return `A part of it is missing: ${fault.name}.`
    case 'part-unknown':
      return `It holds a part that no backup has: ${fault.name}.`
    case 'part-altered':
      return `${fault.name} is not as it was written. The disk may be failing.`
    case 'database-damaged':
      return `Its database does not read whole (${fault.says}).`
    case 'other-database':
      return 'Its database is not that of a collection.'
    case 'broken-links':
      return `${figure(fault.count)} rows name what is not there, the first in ${fault.table}.`
    case 'counts-differ':
      return `${fault.table} has ${figure(fault.found)} rows where ${figure(fault.said)} were written.`
    case 'stock-differs':
      return `${figure(fault.count)} ${stockNouns[fault.noun]} do not hold what their journal adds up to.`
    case 'files-missing':
      return `${counted(fault.count, 'file')} (photographs, covers, receipts) that the collection names ${fault.count === 1 ? 'is' : 'are'} not in it.`
  }
}

export function describeBackupRefusal(refusal: BackupRefused | BroughtInRefused | RestoreStoppedRefused): string {
  switch (refusal.kind) {
    case 'folder-missing':
      return `The folder ${refusal.folder} is not there. If it is on a disk, connect the disk.`
    case 'folder-not-ours':
      return `${refusal.folder} is there, but it is not the folder that was chosen: its disk may not be connected. If it is the right one, choose it again under Settings, Backups.`
    case 'folder-not-writable':
      return `Nothing can be written to ${refusal.folder}. Give Chart Larder leave to write there, or choose another folder.`
    case 'disk-full':
      return refusal.needBytes === null
        ? `The disk of ${refusal.folder} ran full. Make room, or choose a folder on another disk.`
        : `There is not enough room in ${refusal.folder}: ${bytesWords(refusal.needBytes)} are needed. Make room, or choose a folder on another disk.`
    case 'database-damaged':
      return `The collection’s own database does not read whole (${refusal.says}). Keep the backups there are; stop Chart Larder and restore the newest good one: npm run restore -- <file>.`
    case 'database-busy':
      return 'The database is held by another program. Try again in a minute.'
    case 'no-such-backup':
      return 'That backup is not there any more. The list now shows those there are.'
    case 'bad-backup':
      return `It cannot be used. ${refusal.faults[0] ? describeFault(refusal.faults[0]) : ''}`
    case 'changed-meanwhile':
      return 'Another program changed the collection meanwhile, so nothing was put in its place. Try again.'
    case 'too-large':
      return `It is larger than ${bytesWords(refusal.mostBytes)}. Copy it into the folder of backups instead.`
    case 'cut-off':
      return 'It was cut off on its way. Send it again.'
    case 'running':
      return `Chart Larder is running on this data folder${refusal.pid === null ? '' : ` (process ${refusal.pid})`}. Stop it first, or restore from its Settings.`
    case 'no-such-file':
      return `There is no file ${refusal.file}.`
  }
}

/** Why the last backup is no good one; null when it was, or was only stopped. */
export function lastRunTrouble(run: LastRun | null): string | null {
  if (run === null) return null
  switch (run.ended) {
    case 'good':
    case 'stopped':
      return null
    case 'refused':
      return describeBackupRefusal(run.refusal)
    case 'bad':
      return `It was made, but is not good. ${run.faults[0] ? describeFault(run.faults[0]) : ''}`
    case 'failed':
      return `It broke off. The error’s number in the log is ${run.errorId}.`
  }
}
