import type { ReactNode } from 'react'
import s from './state-mark.module.css'

/** How a field or a whole reading stands, as a shape: never without its word. */
export type ReadingMark = 'sure' | 'look' | 'choose' | 'new' | 'lacking' | 'empty' | 'waiting' | 'refused' | 'ready' | 'saved'

const needsDoing: Record<ReadingMark, boolean> = {
  sure: false,
  look: true,
  choose: true,
  new: false,
  lacking: true,
  empty: false,
  waiting: false,
  refused: true,
  ready: false,
  saved: false,
}

const drawn: Record<ReadingMark, { path: string; isFilled: boolean }> = {
  sure: { path: 'M2 2h8v8H2z', isFilled: true },
  ready: { path: 'M2 2h8v8H2z', isFilled: true },
  saved: { path: 'M1.500 1.500h9v9h-9zM3.500 6.200l2 2 3.300-4', isFilled: false },
  look: { path: 'M6 .8 11.200 6 6 11.200.8 6z', isFilled: false },
  choose: { path: 'M1.500 3h9M1.500 6h9M1.500 9h9', isFilled: false },
  new: { path: 'M6 1v10M1 6h10', isFilled: false },
  lacking: { path: 'M6 1.200 11.200 10.800H.8z', isFilled: false },
  empty: { path: 'M3 6h6', isFilled: false },
  waiting: { path: 'M2 1h8L2 11h8z', isFilled: false },
  refused: { path: 'M2 2l8 8M10 2l-8 8', isFilled: false },
}

type StateMarkProps = { mark: ReadingMark; word: ReactNode; note?: ReactNode; id?: string }

export function StateMark({ mark, word, note, id }: StateMarkProps) {
  const { path, isFilled } = drawn[mark]
  return (
    <span className={s.state} data-do={needsDoing[mark] || undefined} id={id}>
      <svg viewBox="0 0 12 12" width="11" height="11" aria-hidden="true">
        <path d={path} fill={isFilled ? 'currentColor' : 'none'} stroke="currentColor" strokeWidth="var(--pen-line)" />
      </svg>
      <span>
        {word}
        {note && <small>{note}</small>}
      </span>
    </span>
  )
}
