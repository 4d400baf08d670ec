import type { ReactNode } from 'react'
import { Link } from '#ui/link'
import s from './thread-bar.module.css'
import { type Dye, type Hex, Winding } from './winding'

type ThreadBarProps = {
  /** One colour, the tones of an overdyed one, or the two of a blend; none when the colour is not known. */
  hexes: readonly Hex[]
  dye?: Dye
  size?: 'small' | 'plain' | 'large'
}

const widths = { small: 28, plain: 34, large: 68 }

/** A short bar of thread wound on a card. Its full name stands beside it, always: see ThreadName. */
export function ThreadBar({ hexes, dye = 'solid', size = 'plain' }: ThreadBarProps) {
  const width = widths[size]
  return (
    <svg className={s.bar} viewBox="0 0 34 16" width={width} height={(width * 16) / 34} aria-hidden="true">
      <path d="M.75 4h3.5v8H.75zM29.75 4h3.5v8h-3.5z" fill="var(--paper)" stroke="var(--ink)" strokeWidth="var(--pen-fine)" />
      <Winding x={4} y={1} width={26} height={14} hexes={hexes} dye={dye} />
    </svg>
  )
}

type ThreadNameProps = ThreadBarProps & {
  maker: string
  code: string
  /** The colour's name. */
  name?: ReactNode
  note?: ReactNode
  href?: string
}

/** A thread said in full: bar, maker, **code**, name. */
export function ThreadName({ maker, code, name, note, href, ...bar }: ThreadNameProps) {
  const words = (
    <>
      {maker} <b>{code}</b>
      {name && <> {name}</>}
    </>
  )
  return (
    <span className={s.thread}>
      <ThreadBar {...bar} />
      <span>
        {href ? <Link href={href}>{words}</Link> : words}
        {note && <small>{note}</small>}
      </span>
    </span>
  )
}

/** What a thread left behind in its gap: a tag. */
export function TagMark() {
  return (
    <svg viewBox="0 0 34 16" width="34" height="16" aria-hidden="true">
      <path d="M1 1h25l7 7-7 7H1zM5 6h14M5 10h10" fill="none" stroke="currentColor" strokeWidth="var(--pen-fine)" />
      <circle cx="26" cy="8" r="1.8" fill="none" stroke="currentColor" strokeWidth="var(--pen-fine)" />
    </svg>
  )
}
