import 'server-only'
import { rmSync } from 'node:fs'
import { mkdir, writeFile } from 'node:fs/promises'
import { Cron } from 'croner'
import { isOverdue, patternOf } from '#lib/backup/schedule'
import { log } from '#lib/log/log'
import { database } from '../client'
import { dataFolder } from '../data-folder'
import { backupEnded, findRunningBackup, startDueBackup } from './backup-jobs'
import { getBackupSettings } from './backup-settings'
import { listBackups } from './list-backups'
import { runningFile } from './running'

type Clock = { cron: Cron | null; first: NodeJS.Timeout | null; setBy: string }
const shared = globalThis as unknown as { larderBackupClock?: Clock }

/** Another process on the same data folder may change the settings; looked for so often. */
const settingsEveryMs = 60_000
const hourMs = 60 * 60_000
/** Left to the start itself before the first look. */
const firstLookAfterMs = 60_000

/** Called once when the program has started. */
export async function startBackupClock(): Promise<void> {
  await mkdir(dataFolder(), { recursive: true })
  await writeFile(runningFile(), String(process.pid)).catch(() => {})
  process.once('exit', () => rmSync(runningFile(), { force: true }))
  await setBackupClock()
  const clock = shared.larderBackupClock
  if (!clock) return
  clock.first = setTimeout(() => void backUpWhenOverdue(), firstLookAfterMs)
  clock.first.unref()
  setInterval(() => void setBackupClock().catch(() => {}), settingsEveryMs).unref()
}

/** Set it by the settings as they are now. */
export async function setBackupClock(): Promise<void> {
  shared.larderBackupClock ??= { cron: null, first: null, setBy: '' }
  const clock = shared.larderBackupClock
  const { isScheduled, hour } = await getBackupSettings()
  const setBy = `${isScheduled} ${hour}`
  if (clock.setBy === setBy) return
  clock.setBy = setBy
  clock.cron?.stop()
  clock.cron = isScheduled
    ? new Cron(patternOf(hour), { unref: true, protect: true, catch: true }, (cron) =>
        backUpOnTime(cron.currentRun() ?? new Date()),
      )
    : null
}

/** When the next is due; null where none is. */
export const nextBackupAt = (): Date | null => shared.larderBackupClock?.cron?.nextRun() ?? null

/** Make up for an hour that passed while the program was not running. */
export async function backUpWhenOverdue(): Promise<void> {
  try {
    const { isScheduled } = await getBackupSettings()
    const now = Date.now()
    // One from days to come was made while the clock was wrong: it does not stand for today's.
    const last = (await listBackups()).find(({ isBroughtIn, madeAt }) => !isBroughtIn && madeAt.getTime() <= now + hourMs)
    if (isScheduled && isOverdue(last?.madeAt.getTime() ?? null, now)) await backUpOnTime()
  } catch (error) {
    log.error('the backup at the start failed', { error })
  }
}

/**
 * Make the backup that is due; one that is made, checked or restored just then is waited for. An empty collection has nothing to keep, and
 * must not push out what a full one left.
 *
 * @param at  when it was due
 */
export async function backUpOnTime(at = new Date()): Promise<void> {
  if ((await database().prisma.owner.count()) === 0) return
  for (let running = await findRunningBackup(); running !== null; running = await findRunningBackup())
    await backupEnded(running.id)
  // Every process has a clock, and they strike together: the hour is made for once.
  const started = await startDueBackup(at.toISOString().slice(0, 'YYYY-MM-DDTHH'.length))
  if (started) await backupEnded(started.jobId)
}
