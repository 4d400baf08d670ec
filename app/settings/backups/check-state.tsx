import type { BackupCheck } from '#lib/backup/check'
import { checkWords } from '#words/backup'
import s from './backups.module.css'

/** A box: ticked when it was found whole, crossed when it was not, empty while nobody looked. */
function CheckMark({ check }: { check: BackupCheck | null }) {
  return (
    <svg className={s.mark} viewBox="0 0 20 20" width="18" height="18" aria-hidden="true">
      <path d="M2 2h16v16H2z" strokeDasharray={check === null ? '3 2.400' : undefined} />
      {check?.isGood && <path d="M5.5 10.2l3.2 3.3 6-7" />}
      {check && !check.isGood && <path d="M6 6l8 8M14 6l-8 8" />}
    </svg>
  )
}

/** What is known of a backup, as a shape and in words; in madder when it is not good. */
export const CheckState = ({ check }: { check: BackupCheck | null }) => (
  <span className={s.state} data-do={(check && !check.isGood) || undefined}>
    <CheckMark check={check} />
    <span>
      {check === null ? 'not checked' : check.isGood ? 'checked' : check.canRestore ? 'mind this' : 'not good'}
      <small>{check === null ? 'nobody has looked at it yet' : checkWords(check)}</small>
    </span>
  </span>
)
