import 'server-only'
import path from 'node:path'
import type { BackupFault } from '#lib/backup/check'
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

// Kept in memory too: a disk that is full takes no file.
const shared = globalThis as unknown as { larderLastBackup?: { folder: string; run: LastRun } }

export async function getLastRun(): Promise<LastRun | null> {
  const known = shared.larderLastBackup
  if (known?.folder === dataFolder()) return known.run
  return (await readJson(file()).catch(() => null)) as LastRun | null
}

export async function keepLastRun(run: LastRun): Promise<void> {
  shared.larderLastBackup = { folder: dataFolder(), run }
  await writeJson(file(), run).catch((error) => console.error('how the backup went could not be kept', error))
}
