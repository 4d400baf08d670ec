import type { ReactNode } from 'react'
import s from './marked-word.module.css'

type MarkedWordProps = {
  /** A drawing hidden from those who listen: the word says the same. */
  mark: ReactNode
  word: ReactNode
  /** The reason, on a second line. */
  note?: ReactNode
  /** In madder. */
  needsDoing?: boolean
  className?: string
}

/** How something stands: a mark, its word beside it, and perhaps why. */
export const MarkedWord = ({ mark, word, note, needsDoing = false, className }: MarkedWordProps) => (
  <span className={className ? `${s.state} ${className}` : s.state} data-do={needsDoing || undefined}>
    {mark}
    <span>
      {word}
      {note && <small>{note}</small>}
    </span>
  </span>
)
