import { say } from '#language/say'
import { daysWithout } from '#lib/backup/schedule'
import { getBackupSettings } from '#lib/db/backup/backup-settings'
import { getLastRun } from '#lib/db/backup/last-run'
import { listBackups } from '#lib/db/backup/list-backups'
import { lastRunTrouble } from '#words/backup'

/** What is wrong with backups, to be said wherever people look; null when all is well. */
export async function readBackupTrouble(): Promise<{ trouble: string | null; lastGoodAt: Date | null }> {
  const [backups, lastRun, settings] = await Promise.all([listBackups(), getLastRun(), getBackupSettings()])
  const lastGoodAt = backups.find(({ check, isBroughtIn }) => check?.isGood && !isBroughtIn)?.madeAt ?? null
  const trouble = lastRunTrouble(lastRun)
  if (trouble !== null) return { trouble, lastGoodAt }
  const days = settings.isScheduled ? daysWithout(lastGoodAt?.getTime() ?? null, Date.now()) : null
  return {
    trouble: days === null ? null : say('The last good one is {days, plural, one {# day} other {# days}} old.', { days }),
    lastGoodAt,
  }
}
