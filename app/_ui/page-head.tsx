import { Fragment, type ReactNode } from 'react'
import { say } from '#language/say'
import { Link } from './link'
import s from './page-head.module.css'

export type Crumb = { label: ReactNode; href?: string }

type PageHeadProps = {
  title: ReactNode
  /** The title is the name of a piece of work: serif. */
  isWork?: boolean
  /** Where this page stands, from the top down; the last without a link is the page itself. */
  crumbs?: readonly Crumb[]
  /** Beside the title: a count, an order. Said aloud when a choice changes it. */
  note?: ReactNode
  byline?: ReactNode
  actions?: ReactNode
  /** Under the byline, in larger type: the page's own answer. */
  children?: ReactNode
}

export function PageHead({ title, isWork = false, crumbs, note, byline, actions, children }: PageHeadProps) {
  return (
    <div className={s.head}>
      {crumbs && crumbs.length > 0 && (
        <nav className={s.crumbs} aria-label={say('You are in')}>
          {crumbs.map((crumb, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: crumbs are a path; the place in it is their identity
            <Fragment key={index}>
              {index > 0 && <span aria-hidden="true">›</span>}
              {crumb.href ? <Link href={crumb.href}>{crumb.label}</Link> : <span>{crumb.label}</span>}
            </Fragment>
          ))}
        </nav>
      )}
      <div className={s.row}>
        <div className={s.words}>
          <div className={s.line}>
            <h1 className={isWork ? `title ${s.work}` : undefined}>{title}</h1>
            {note && (
              <span className={s.note} aria-live="polite">
                {note}
              </span>
            )}
          </div>
          {byline && <div className={s.byline}>{byline}</div>}
          {children && <div className={s.answer}>{children}</div>}
        </div>
        {actions && <div className={s.actions}>{actions}</div>}
      </div>
    </div>
  )
}
