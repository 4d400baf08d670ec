import type { ReactNode } from 'react'
import s from './bulk.module.css'

type ChangeChoiceProps = { what: string; label: string; isFirst?: boolean; children?: ReactNode }

/** One change with its own fields beside it. The one whose round is filled counts; the others are passed over. */
export const ChangeChoice = ({ what, label, isFirst, children }: ChangeChoiceProps) => (
  <div className={s.change}>
    <label>
      <input type="radio" name="what" value={what} defaultChecked={isFirst} /> {label}
    </label>
    {children}
  </div>
)
