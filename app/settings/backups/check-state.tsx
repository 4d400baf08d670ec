import type { BackupCheck } from '#lib/backup/check'
import { CheckMark } from '#ui/check-mark'
import { checkWords } from '#words/backup'
import s from './backups.module.css'

/** What is known of a backup, as a shape and in words; in madder when it is not good. */
export const CheckState = ({ check }: { check: BackupCheck | null }) => (
  <span className={s.state} data-do={(check && !check.isGood) || undefined}>
    <CheckMark state={check === null ? 'unknown' : check.isGood ? 'good' : 'bad'} />
    <span>
      {check === null ? 'not checked' : check.isGood ? 'checked' : check.canRestore ? 'mind this' : 'not good'}
      <small>{check === null ? 'nobody has looked at it yet' : checkWords(check)}</small>
    </span>
  </span>
)
