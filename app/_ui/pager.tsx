import type { ReactNode } from 'react'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { LinkButton } from './button'
import s from './pager.module.css'

type PagerProps = {
  /** From 1. */
  page: number
  pages: number
  hrefForPage: (page: number) => string
  /** What is on show, in words: "1 to 50 of 512". */
  shown: ReactNode
  actions?: ReactNode
}

/** The foot of a list: what is shown, the pages before and after, what can be done with the list. */
export function Pager({ page, pages, hrefForPage, shown, actions }: PagerProps) {
  return (
    <nav className={s.pager} aria-label={say('Pages of this list')}>
      <p>{shown}</p>
      <div className={s.acts}>
        {page > 1 && (
          <LinkButton href={hrefForPage(page - 1)} rel="prev">
            {say('Previous page')}
          </LinkButton>
        )}
        {pages > 1 && <span className={s.where}>{sayParts('Page {page} of {pages}', { page, pages })}</span>}
        {page < pages && (
          <LinkButton href={hrefForPage(page + 1)} rel="next">
            {say('Next page')}
          </LinkButton>
        )}
        {actions}
      </div>
    </nav>
  )
}
