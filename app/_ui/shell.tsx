import type { ReactNode } from 'react'
import { say } from '#language/say'
import { Keyboard } from './keyboard'
import { Link } from './link'
import { Nav, type NavItem } from './nav'
import s from './shell.module.css'

type ShellProps = {
  /** The name at the head; it leads home. */
  mark: string
  items: readonly NavItem[]
  /** Stands at the end of the head. */
  aside?: ReactNode
  /** A mark in the head, always in sight. */
  opener?: ReactNode
  /** A strip that stays in sight at the top. */
  strip?: ReactNode
  /** A line between the head and the page: whose screen it is. */
  above?: ReactNode
  /** A line right under the head: how the page came here. */
  line?: ReactNode
  children: ReactNode
}

/** The frame around every screen: skip link, head with navigation, the page itself. */
export function Shell({ mark, items, aside, opener, strip, above, line, children }: ShellProps) {
  return (
    <>
      <a className={s.skip} href="#main">
        {say('To the content')}
      </a>
      <header className={s.head}>
        <div className={s.in}>
          <Link className={s.mark} href="/">
            {mark}
          </Link>
          {items.length > 0 && <Nav items={items} />}
          {(aside || opener) && (
            <div className={s.aside}>
              {opener}
              {aside}
            </div>
          )}
        </div>
      </header>
      {strip}
      {line}
      {above && <div className={s.above}>{above}</div>}
      <main id="main" className={s.page} tabIndex={-1}>
        {children}
      </main>
      <Keyboard />
    </>
  )
}
