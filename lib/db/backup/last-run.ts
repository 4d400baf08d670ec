import 'server-only'
import path from 'node:path'
import type { BackupFault } from '#lib/backup/check'
import { log } from '#lib/log/log'
import { dataFolder } from '../data-folder'
import type { BackupRefused } from './backup-refused'
import { readJson, writeJson } from './backup-settings'

/** How the last backup went, so that a failed one is said wherever people look, also after the next start. */
export type LastRun = { at: string } & (
  | { ended: 'good' | 'stopped' }
  | { ended: 'refused'; refusal: BackupRefused }
  | { ended: 'bad'; faults: BackupFault[] }
  | { ended: 'failed'; errorId: string }
)

const file = () => path.join(dataFolder(), 'backup-last.json')

// Kept in memory where the disk took no file; else the file says it, which every process on this folder reads.
const shared = globalThis as unknown as { larderLastBackup?: { folder: string; run: LastRun } }

export async function getLastRun(): Promise<LastRun | null> {
  const known = shared.larderLastBackup
  if (known?.folder === dataFolder()) return known.run
  return (await readJson(file()).catch(() => null)) as LastRun | null
}

export async function keepLastRun(run: LastRun): Promise<void> {
  try {
    await writeJson(file(), run)
    delete shared.larderLastBackup
  } catch (error) {
    shared.larderLastBackup = { folder: dataFolder(), run }
    log.error('how the backup went could not be kept', { error })
  }
}
