import { numberText } from '#language/figures'
import { say, sayings } from '#language/say'
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
  if (bytes >= 1e9) return say('{bytes} GB', { bytes: numberText(bytes / 1e9, { maximumFractionDigits: 1 }) })
  if (bytes >= 1e6) return say('{bytes} MB', { bytes: numberText(bytes / 1e6, { maximumFractionDigits: 1 }) })
  return say('{max} KB', { max: Math.max(1, Math.round(bytes / 1e3)) })
}

export const backupKindWords: Record<BackupKind, string> = sayings({
  scheduled: 'at its hour',
  asked: 'asked for',
  'before-restore': 'set aside before a restore',
})

export const backupStepWords: Record<BackupStep, string> = sayings({
  copying: 'Copying the database',
  packing: 'Packing',
  checking: 'Checking: restoring it to a scratch place',
  'setting-aside': 'Setting the present collection aside',
  unpacking: 'Laying out photographs and files',
  'putting-in-place': 'Putting the collection in place',
})

export const heldWords: Record<HeldNoun, string> = sayings({
  charts: 'charts',
  threads: 'threads',
  cloth: 'pieces of cloth',
  notions: 'notions',
  places: 'places',
  projects: 'projects',
  movements: 'movements in the journal',
  photos: 'photographs',
  files: 'files',
})

/** What a check found, in a few words; the state itself stands before it. */
export function checkWords(check: BackupCheck | null): string {
  if (check === null) return say('not checked yet')
  if (!check.isGood) return describeFault(check.faults[0] ?? { kind: 'not-a-backup' })
  const { movements, photos, files } = check.holds
  const parts = [counted(movements, 'movement'), counted(photos, 'photo')]
  if (files > 0) parts.push(counted(files, 'file'))
  return parts.join(', ')
}

const stockNouns = () =>
  ({ batch: say('batches of thread'), cloth: say('pieces of cloth'), chart: 'charts', notion: 'notions' }) as const

export function describeFault(fault: BackupFault): string {
  switch (fault.kind) {
    case 'not-a-backup':
      return say('It does not open as a backup: it is another kind of file, or it was cut off.')
    case 'newer':
      return say('A later Chart Larder made it. Update Chart Larder first.')
    case 'part-missing':
      return say('A part of it is missing: {name}.', { name: fault.name })
    case 'part-unknown':
      return say('It holds a part that no backup has: {name}.', { name: fault.name })
    case 'part-altered':
      return say('{name} is not as it was written. The disk may be failing.', { name: fault.name })
    case 'database-damaged':
      return say('Its database does not read whole ({says}).', { says: fault.says })
    case 'other-database':
      return say('Its database is not that of a collection.')
    case 'broken-links':
      return say('{figure} rows name what is not there, the first in {table}.', {
        figure: figure(fault.count),
        table: fault.table,
      })
    case 'counts-differ':
      return say('{table} has {figure} rows where {figure2} were written.', {
        table: fault.table,
        figure: figure(fault.found),
        figure2: figure(fault.said),
      })
    case 'stock-differs':
      return say('{figure} {stockNouns} do not hold what their journal adds up to.', {
        figure: figure(fault.count),
        stockNouns: stockNouns()[fault.noun],
      })
    case 'files-missing':
      return say(
        '{count, plural, one {# file} other {# files}} (photographs, covers, receipts) that the collection names {count, plural, one {is} other {are}} not in it.',
        { count: fault.count },
      )
  }
}

export function describeBackupRefusal(refusal: BackupRefused | BroughtInRefused | RestoreStoppedRefused): string {
  switch (refusal.kind) {
    case 'folder-missing':
      return say('The folder {folder} is not there. If it is on a disk, connect the disk.', { folder: refusal.folder })
    case 'folder-not-ours':
      return say(
        '{folder} is there, but it is not the folder that was chosen: its disk may not be connected. If it is the right one, choose it again under Settings, Backups.',
        { folder: refusal.folder },
      )
    case 'folder-not-writable':
      return say('Nothing can be written to {folder}. Give Chart Larder leave to write there, or choose another folder.', {
        folder: refusal.folder,
      })
    case 'disk-full':
      return refusal.needBytes === null
        ? say('The disk of {folder} ran full. Make room, or choose a folder on another disk.', { folder: refusal.folder })
        : say('There is not enough room in {folder}: {bytes} are needed. Make room, or choose a folder on another disk.', {
            folder: refusal.folder,
            bytes: bytesWords(refusal.needBytes),
          })
    case 'database-damaged':
      return say(
        "The collection’s own database does not read whole ({says}). Keep the backups there are; stop Chart Larder and restore the newest good one: npm run restore -- '<'file>.",
        { says: refusal.says },
      )
    case 'database-busy':
      return say('The database is held by another program. Try again in a minute.')
    case 'no-such-backup':
      return say('That backup is not there any more. The list now shows those there are.')
    case 'bad-backup':
      return say('It cannot be used. {rest}', { rest: refusal.faults[0] ? describeFault(refusal.faults[0]) : '' })
    case 'changed-meanwhile':
      return say('Another program changed the collection meanwhile, so nothing was put in its place. Try again.')
    case 'too-large':
      return say('It is larger than {bytes}. Copy it into the folder of backups instead.', {
        bytes: bytesWords(refusal.mostBytes),
      })
    case 'cut-off':
      return say('It was cut off on its way. Send it again.')
    case 'running':
      return say('Chart Larder is running on this data folder{rest}. Stop it first, or restore from its Settings.', {
        rest: refusal.pid === null ? '' : say(' (process {pid})', { pid: refusal.pid }),
      })
    case 'no-such-file':
      return say('There is no file {file}.', { file: refusal.file })
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
      return say('It was made, but is not good. {rest}', { rest: run.faults[0] ? describeFault(run.faults[0]) : '' })
    case 'failed':
      return say('It broke off. The error’s number in the log is {errorId}.', { errorId: run.errorId })
  }
}
