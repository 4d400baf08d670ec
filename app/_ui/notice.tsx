import type { ReactNode, Ref } from 'react'
import { sayings } from '#language/say'
import s from './notice.module.css'

/** `refusal`: it was not done; `caution`: mind this; `done`: it was done. */
export type NoticeKind = 'refusal' | 'caution' | 'done'

type NoticeProps = {
  kind: NoticeKind
  title?: ReactNode
  children?: ReactNode
  /** What can be done about it: a button, an undo. */
  actions?: ReactNode
  id?: string
  /** For moving focus here. */
  ref?: Ref<HTMLDivElement>
}

const roles = { refusal: 'alert', caution: 'note', done: 'status' } as const
const words = sayings({ refusal: 'Not done', caution: 'Caution', done: 'Done' })

export function Notice({ kind, title, children, actions, id, ref }: NoticeProps) {
  return (
    <div className={s.notice} data-kind={kind} role={roles[kind]} id={id} ref={ref} tabIndex={ref ? -1 : undefined}>
      <Mark kind={kind} />
      <div className={s.words}>
        <p className={s.title}>{title ?? words[kind]}</p>
        {children && <div>{children}</div>}
      </div>
      {actions && <div className={s.actions}>{actions}</div>}
    </div>
  )
}

function Mark({ kind }: { kind: NoticeKind }) {
  return (
    <svg className={s.mark} viewBox="0 0 20 20" width="20" height="20" aria-hidden="true">
      {kind === 'done' && <path d="M2 2h16v16H2zM5.5 10.2l3.2 3.3 6-7" />}
      {kind === 'refusal' && <path d="M2 2h16v16H2zM6 6l8 8M14 6l-8 8" />}
      {kind === 'caution' && <path d="M10 2.5 18.5 17.5h-17zM10 8v4.500M10 14.300v1.600" />}
    </svg>
  )
}
