'use client'

import { usePathname } from 'next/navigation'
import { useEffect, useRef } from 'react'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { Link } from './link'
import s from './nav.module.css'
import { findCurrentMark } from './nav-current'

export type NavItem = {
  href: string
  label: string
  /** Stays in sight where there is room for four; the rest go under More. */
  isKey?: boolean
}

export function Nav({ items }: { items: readonly NavItem[] }) {
  const pathname = usePathname()
  const more = useRef<HTMLDetailsElement>(null)
  const rest = items.filter((item) => !item.isKey)
  const isInRest = rest.some((item) => findCurrentMark(pathname, item.href))

  // biome-ignore lint/correctness/useExhaustiveDependencies: arriving somewhere is what closes the list
  useEffect(() => {
    if (more.current) more.current.open = false
  }, [pathname])

  useEffect(() => {
    const closeOutside = (event: PointerEvent) => {
      if (more.current && event.target instanceof Node && !more.current.contains(event.target)) more.current.open = false
    }
    const closeOnEscape = (event: KeyboardEvent) => {
      if (event.key !== 'Escape' || !more.current?.open) return
      more.current.open = false
      more.current.querySelector('summary')?.focus()
    }
    document.addEventListener('pointerdown', closeOutside)
    document.addEventListener('keydown', closeOnEscape)
    return () => {
      document.removeEventListener('pointerdown', closeOutside)
      document.removeEventListener('keydown', closeOnEscape)
    }
  }, [])

  return (
    <nav className={s.nav} aria-label={say('Main')}>
      <ul>
        {items.map((item) => (
          <li key={item.href} data-key={item.isKey || undefined}>
            <NavLink item={item} pathname={pathname} />
          </li>
        ))}
        {rest.length > 0 && (
          <li className={s.more}>
            <details ref={more}>
              <summary data-current={isInRest || undefined}>
                {sayParts('More{rest}', { rest: isInRest && <span className="vh">{say(', you are here')}</span> })}
              </summary>
              <ul>
                {rest.map((item) => (
                  <li key={item.href}>
                    <NavLink item={item} pathname={pathname} />
                  </li>
                ))}
              </ul>
            </details>
          </li>
        )}
      </ul>
    </nav>
  )
}

function NavLink({ item, pathname }: { item: NavItem; pathname: string }) {
  return (
    <Link href={item.href} aria-current={findCurrentMark(pathname, item.href)}>
      {item.label}
    </Link>
  )
}
