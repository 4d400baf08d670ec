import type { ReactNode } from 'react'
import { sayings } from '#language/say'
import { MarkedWord } from '#ui/marked-word'
import s from './hoop.module.css'

export type HoopStatus = 'wanted' | 'planned' | 'kitted' | 'stitching' | 'resting' | 'stitched' | 'finished' | 'abandoned'

export const hoopWords: Record<HoopStatus, string> = sayings({
  wanted: 'Wanted',
  planned: 'Planned',
  kitted: 'Kitted',
  stitching: 'Stitching',
  resting: 'Resting',
  stitched: 'Stitched',
  finished: 'Finished',
  abandoned: 'Abandoned',
})

type HoopProps = {
  status: HoopStatus
  /** How much is stitched, from 0 to 1; half when not known. */
  fraction?: number
  width?: number
}

const centre = 10
const radius = 6

/** How far a project has come, as a hoop. Put the word beside it: see HoopWord. */
export function Hoop({ status, fraction = 0.5, width = 20 }: HoopProps) {
  const inside = Math.min(1, Math.max(0, fraction))
  // The stitched part rises from the foot of the hoop like water in a glass.
  const level = centre + radius - inside * 2 * radius
  const half = Math.sqrt(Math.max(0, radius ** 2 - (level - centre) ** 2))
  const segment = `M${(centre - half).toFixed(2)} ${level.toFixed(2)}A${radius} ${radius} 0 ${inside > 0.5 ? 1 : 0} 0 ${(centre + half).toFixed(2)} ${level.toFixed(2)}z`
  return (
    <svg viewBox="0 0 20 20" width={width} height={width} aria-hidden="true" className={s.hoop}>
      <circle
        cx={centre}
        cy={centre}
        r="8"
        fill="none"
        stroke="currentColor"
        strokeWidth="var(--pen-line)"
        strokeDasharray={status === 'wanted' ? 'var(--dash)' : undefined}
      />
      {status !== 'finished' && status !== 'wanted' && <path d="M8.5 .2h3v2h-3z" fill="currentColor" />}
      {status === 'kitted' && <path d="M10 5.5v9M5.5 10h9" stroke="currentColor" strokeWidth="var(--pen-line)" />}
      {status === 'stitching' && inside > 0 && <path d={inside >= 1 ? fullDisc : segment} fill="currentColor" />}
      {status === 'resting' && <path d="M7.8 6.3v7.4M12.2 6.3v7.4" stroke="currentColor" strokeWidth="var(--pen-bold)" />}
      {(status === 'stitched' || status === 'finished') && <path d={fullDisc} fill="currentColor" />}
      {status === 'finished' && (
        <path d="m6.8 10.2 2.3 2.3 4.2-4.9" fill="none" stroke="var(--paper)" strokeWidth="var(--pen-bold)" />
      )}
      {status === 'abandoned' && <path d="M4.3 15.7 15.7 4.3" stroke="currentColor" strokeWidth="var(--pen-line)" />}
    </svg>
  )
}

const fullDisc = `M${centre - radius} ${centre}a${radius} ${radius} 0 1 0 ${radius * 2} 0a${radius} ${radius} 0 1 0 ${-radius * 2} 0z`

type HoopWordProps = HoopProps & { word?: ReactNode; note?: ReactNode }

export const HoopWord = ({ word, note, ...hoop }: HoopWordProps) => (
  <MarkedWord className={s.word} mark={<Hoop {...hoop} />} word={word ?? hoopWords[hoop.status]} note={note} />
)
