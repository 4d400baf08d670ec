import { say } from '#language/say'
import type { BackupCheck } from '#lib/backup/check'
import { CheckMark } from '#ui/check-mark'
import { checkWords } from '#words/backup'
import s from './backups.module.css'

/** What is known of a backup, as a shape and in words; in madder when it is not good. */
export const CheckState = ({ check }: { check: BackupCheck | null }) => (
  <span className={s.state} data-do={(check && !check.isGood) || undefined}>
    <CheckMark state={check === null ? 'unknown' : check.isGood ? 'good' : 'bad'} />
    <span>
      {check === null
        ? say('not checked')
        : check.isGood
          ? say('checked')
          : check.canRestore
            ? say('mind this')
            : say('not good')}
      <small>{check === null ? say('nobody has looked at it yet') : checkWords(check)}</small>
    </span>
  </span>
)
