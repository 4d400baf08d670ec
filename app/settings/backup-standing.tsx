import { isOnSameDisk } from '#lib/db/backup/backup-folder'
import { getBackupSettings } from '#lib/db/backup/backup-settings'
import { LinkButton } from '#ui/button'
import { momentWords } from '#words/date'
import { BackupTrouble } from '../_backups/backup-trouble'
import { readBackupTrouble } from '../_backups/read-trouble'

/** How backups stand, in a sentence, and the way to them. */
export async function BackupStanding() {
  const [{ trouble, lastGoodAt }, settings, isSameDisk] = await Promise.all([
    readBackupTrouble(),
    getBackupSettings(),
    isOnSameDisk(),
  ])
  const when = settings.isScheduled ? `One is made every night at ${settings.hour}.` : 'One is made only when you ask for it.'
  return (
    <>
      {trouble !== null && <BackupTrouble trouble={trouble} />}
      <p>
        {lastGoodAt ? `The last good backup is of ${momentWords(lastGoodAt)}.` : 'There is no good backup yet.'} {when}{' '}
        {isSameDisk && 'They lie on the same disk as the collection: copy one elsewhere now and then.'}
      </p>
      <p>
        <LinkButton href="/settings/backups">Backups</LinkButton>
      </p>
    </>
  )
}
