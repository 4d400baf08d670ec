import { say } from '#language/say'
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
  const when = settings.isScheduled
    ? say('One is made every night at {hour}.', { hour: settings.hour })
    : say('One is made only when you ask for it.')
  return (
    <>
      {trouble !== null && <BackupTrouble trouble={trouble} />}
      <p>
        {lastGoodAt
          ? say('The last good backup is of {moment}.', { moment: momentWords(lastGoodAt) })
          : say('There is no good backup yet.')}{' '}
        {when} {isSameDisk && say('They lie on the same disk as the collection: copy one elsewhere now and then.')}
      </p>
      <p>
        <LinkButton href="/settings/backups">{say('Backups')}</LinkButton>
      </p>
    </>
  )
}
