import type { ReactNode } from 'react'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { PlaceLabel } from '#trade/place-label'
import s from './threads.module.css'

type Tag = { id: string; label: string }

const shown = 2

/** Where stock of a thread lives, and dashed under it where what is out is now. */
export function PlaceCell({ homes, away }: { homes: readonly Tag[]; away: readonly Tag[] }): ReactNode {
  if (homes.length === 0 && away.length === 0) return null
  const rest = homes.length + away.length - Math.min(homes.length, shown) - Math.min(away.length, shown)
  return (
    <span className={s.places}>
      {homes.slice(0, shown).map((place) => (
        <PlaceLabel key={place.id} label={place.label} href={`/places/${place.id}`} />
      ))}
      {away.slice(0, shown).map((place) => (
        <PlaceLabel key={place.id} label={place.label} href={`/places/${place.id}`} isAway note={say('out')} />
      ))}
      {rest > 0 && <span className="faint">{sayParts('and {rest} more', { rest })}</span>}
    </span>
  )
}
