import 'server-only'
import { readFile } from 'node:fs/promises'
import path from 'node:path'
import { dataFolder } from '../data-folder'
import { isAlive } from './backup-folder'

/** Says that the program runs on this data folder, and as which process. */
export const runningFile = (): string => path.join(dataFolder(), 'running')

/** The process that has this data folder open; null when there is none. */
export async function findRunning(): Promise<number | null> {
  const pid = Number(await readFile(runningFile(), 'utf8').catch(() => ''))
  return Number.isInteger(pid) && pid > 0 && pid !== process.pid && isAlive(pid) ? pid : null
}
