import type { ReactNode } from 'react'
import { sayParts } from '#language/say-parts'
import { Link } from '#ui/link'
import s from './place-label.module.css'

type PlaceLabelProps = {
  /** What the label on the place says, exact. */
  label: string
  href?: string
  /** The thing is here but does not live here. */
  isAway?: boolean
  /** The label of its home, said under it as "lives in …". */
  livesIn?: string
  /** Under it, in small: two copies, since when. */
  note?: ReactNode
  /** For a heading or a stop on a walk. */
  isLarge?: boolean
}

/** A place written: a card in a label holder, held by two pins. Dashed, it is not the home of what is in it. */
export function PlaceLabel({ label, href, livesIn, isAway = livesIn !== undefined, note, isLarge = false }: PlaceLabelProps) {
  const shape = { className: s.place, 'data-away': isAway || undefined, 'data-large': isLarge || undefined }
  return (
    <span className={s.stand}>
      {href ? (
        <Link {...shape} href={href}>
          {label}
        </Link>
      ) : (
        <span {...shape}>{label}</span>
      )}
      {livesIn !== undefined && <span className={s.note}>{sayParts('lives in {livesIn}', { livesIn })}</span>}
      {note && <span className={s.note}>{note}</span>}
    </span>
  )
}
