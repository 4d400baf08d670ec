import type { ReactNode } from 'react'
import { ButtonRow } from './button'
import s from './empty.module.css'

type EmptyProps = {
  title?: ReactNode
  /** A sentence saying what would stand here and how it gets here. */
  children: ReactNode
  actions?: ReactNode
}

export function Empty({ title, children, actions }: EmptyProps) {
  return (
    <div className={s.empty}>
      {title && <p className={s.title}>{title}</p>}
      <div className={s.words}>{children}</div>
      {actions && <ButtonRow>{actions}</ButtonRow>}
    </div>
  )
}
