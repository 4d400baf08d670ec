import { LinkButton } from '#ui/button'
import { Notice } from '#ui/notice'

/** Said on Find and in Settings until a backup is good again. */
export const BackupTrouble = ({ trouble }: { trouble: string }) => (
  <Notice
    kind="refusal"
    title="There is no good backup of late"
    actions={<LinkButton href="/settings/backups">To the backups</LinkButton>}
  >
    {trouble}
  </Notice>
)
