import { say } from '#language/say'
import { LinkButton } from '#ui/button'
import { Notice } from '#ui/notice'

/** Said on Find and in Settings until a backup is good again. */
export const BackupTrouble = ({ trouble }: { trouble: string }) => (
  <Notice
    kind="refusal"
    title={say('There is no good backup of late')}
    actions={<LinkButton href="/settings/backups">{say('To the backups')}</LinkButton>}
  >
    {trouble}
  </Notice>
)
