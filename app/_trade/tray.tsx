import type { ReactNode } from 'react'
import { sayings } from '#language/say'
import { MarkedWord } from '#ui/marked-word'
import s from './tray.module.css'

/** How a thread, or a whole design, stands: worst first. */
export const trayStates = ['none', 'short', 'lots', 'elsewhere', 'unknown', 'swap', 'mixed', 'enough'] as const
export type TrayState = (typeof trayStates)[number]

export const trayWords: Record<TrayState, string> = sayings({
  none: 'None',
  short: 'Short',
  lots: "Lots don't match",
  elsewhere: 'Elsewhere',
  unknown: 'Amount unknown',
  swap: 'Swap held',
  mixed: 'Enough, mixed lots',
  enough: 'Enough',
})

const needsDoing: Record<TrayState, boolean> = {
  none: true,
  short: true,
  lots: true,
  elsewhere: false,
  unknown: false,
  swap: false,
  mixed: false,
  enough: false,
}

/** A compartment seen from the side; what is in it is the state. Put the word beside it: see TrayWord. */
export function Tray({ state, width = 20 }: { state: TrayState; width?: number }) {
  return (
    <svg className={s.tray} viewBox="0 0 20 16" width={width} height={width * 0.8} aria-hidden="true">
      <path
        d={state === 'elsewhere' ? 'M1.5 7v7.5h17V7' : 'M1.5 3v11.5h17V3'}
        fill="none"
        stroke="currentColor"
        strokeWidth="var(--pen-line)"
      />
      <Contents state={state} />
    </svg>
  )
}

function Contents({ state }: { state: TrayState }) {
  switch (state) {
    case 'enough':
      return <path d="M4 3.5h12V12H4z" fill="currentColor" />
    // One full block, parted by a slanting line: enough, of two lots.
    case 'mixed':
      return <path d="M4 3.5h6.6L7.4 12H4zM12.8 3.5H16V12H9.6z" fill="currentColor" />
    // A solid block and a hollow low one: two lots, neither of them enough.
    case 'lots':
      return (
        <>
          <path d="M4 4h5v8H4z" fill="currentColor" />
          <path d="M11.9 8h3.7v3.4h-3.7z" fill="none" stroke="currentColor" strokeWidth="var(--pen-fine)" />
        </>
      )
    case 'swap':
      return <circle cx="10" cy="8" r="4.2" fill="currentColor" />
    case 'unknown':
      return (
        <path
          d="M4.6 4.1h10.8v7.8H4.6z"
          fill="none"
          stroke="currentColor"
          strokeWidth="var(--pen-fine)"
          strokeDasharray="var(--dash)"
        />
      )
    case 'elsewhere':
      return <path d="M8 0h12v4.6H8z" fill="currentColor" />
    case 'short':
      return <path d="M4 8.6h12V12H4z" fill="currentColor" />
    case 'none':
      return null
  }
}

type TrayWordProps = {
  state: TrayState
  /** In place of the usual word: "Short by 1 skein". */
  word?: ReactNode
  /** The reason, on a second line. */
  note?: ReactNode
  width?: number
}

/** A state said in full: tray and word, in madder where something is to be done. */
export const TrayWord = ({ state, word, note, width }: TrayWordProps) => (
  <MarkedWord
    className={s.word}
    mark={<Tray state={state} width={width} />}
    word={word ?? trayWords[state]}
    note={note}
    needsDoing={needsDoing[state]}
  />
)

type TallyProps = {
  label: string
  /** In key order; `name` is what stands under the tray, a code. */
  items: readonly { key: string; state: TrayState; name: string }[]
}

/** Every thread of a design as a row of trays. */
export function Tally({ label, items }: TallyProps) {
  return (
    <ul className={s.tally} aria-label={label}>
      {items.map((item) => (
        <li key={item.key} data-do={needsDoing[item.state] || undefined}>
          <Tray state={item.state} width={35} />
          {item.name}
          <span className="vh">: {trayWords[item.state]}</span>
        </li>
      ))}
    </ul>
  )
}
