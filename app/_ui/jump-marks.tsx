import type { ReactNode } from 'react'
import { say } from '#language/say'
import s from './jump-marks.module.css'

export type JumpMark = { href: `#${string}`; label: string; note?: ReactNode }

/** The parts of a long page, to jump to; shown on a phone, where the page is longest. */
export function JumpMarks({ items }: { items: readonly JumpMark[] }) {
  return (
    <nav className={s.marks} aria-label={say('On this page')}>
      <ul>
        {items.map((item) => (
          <li key={item.href}>
            <a href={item.href}>
              <span>{item.label}</span>
              {item.note && <small>{item.note}</small>}
            </a>
          </li>
        ))}
      </ul>
    </nav>
  )
}
