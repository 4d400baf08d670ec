import type { ReactNode } from 'react'
import type { LoanStanding } from '#lib/loan/loan'
import { MarkedWord } from '#ui/marked-word'
import s from './loan-standing.module.css'

/** A tag on a string: hollow while there is time, half full when it is due soon, full with a bar across once overdue, ticked when back. */
function LoanMark({ kind }: { kind: LoanStanding['kind'] }) {
  return (
    <svg className={s.mark} viewBox="0 0 20 16" width="20" height="16" aria-hidden="true">
      <path
        d="M6.5 2.500h12v11h-12l-5-5.500z"
        fill={kind === 'overdue' ? 'currentColor' : 'none'}
        stroke="currentColor"
        strokeWidth="var(--pen-line)"
        strokeDasharray={kind === 'no-day' ? 'var(--dash)' : undefined}
      />
      {kind === 'due-soon' && <path d="M6.5 8h12v5.500h-12L1.5 8z" fill="currentColor" />}
      {kind === 'overdue' && <path d="M12.5 4.600v4.200M12.5 10.400v1.4" stroke="var(--paper)" strokeWidth="var(--pen-bold)" />}
      {kind === 'closed' && <path d="m8.5 8.2 2.3 2.3 4.4-4.8" fill="none" stroke="currentColor" strokeWidth="var(--pen-line)" />}
    </svg>
  )
}

/** How a loan stands, as a shape and in words; in madder when it is overdue. */
export const LoanStandingWord = ({ standing, word, note }: { standing: LoanStanding; word: ReactNode; note?: ReactNode }) => (
  <MarkedWord mark={<LoanMark kind={standing.kind} />} word={word} note={note} needsDoing={standing.kind === 'overdue'} />
)
