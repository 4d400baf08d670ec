import { type ReactNode, useId } from 'react'
import s from './section.module.css'

type SectionProps = {
  title: ReactNode
  /** For links that jump here. */
  id?: string
  note?: ReactNode
  actions?: ReactNode
  children: ReactNode
}

/** A part of a page: opens with a strong rule and its heading. */
export function Section({ title, id, note, actions, children }: SectionProps) {
  const headId = useId()
  return (
    <section className={s.section} id={id} aria-labelledby={headId}>
      <div className={s.head}>
        <h2 id={headId}>{title}</h2>
        {note && <span className={s.note}>{note}</span>}
        {actions && <div className={s.actions}>{actions}</div>}
      </div>
      {children}
    </section>
  )
}
