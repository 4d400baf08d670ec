import type { ReactNode } from 'react'
import { Link } from '#ui/link'
import s from './drawer-front.module.css'
import { type PlaceKind, PlaceMark } from './place-mark'

type DrawerFrontProps = {
  label: string
  /** On the card, under the label: Ecru to 0204. */
  note?: ReactNode
  /** A drawer has a cup pull; everything else its own mark. */
  kind?: PlaceKind
  href?: string
  /** Not the home of what is sought here. */
  isAway?: boolean
  /** The one open on this page. */
  isCurrent?: boolean
  size?: 'small' | 'plain' | 'wide'
}

/** A place drawn: its front, with the label card and a pull. */
export function DrawerFront({ label, note, kind = 'drawer', href, isAway, isCurrent, size = 'plain' }: DrawerFrontProps) {
  const shape = {
    className: s.front,
    'data-size': size,
    'data-away': isAway || undefined,
    'aria-current': isCurrent ? (true as const) : undefined,
  }
  const inside = (
    <>
      <span className={s.card}>
        {label}
        {note && <small>{note}</small>}
      </span>
      <PlaceMark kind={kind} width={size === 'wide' ? 64 : size === 'small' ? 34 : 44} />
    </>
  )
  return href ? (
    <Link {...shape} href={href}>
      {inside}
    </Link>
  ) : (
    <div {...shape}>{inside}</div>
  )
}
