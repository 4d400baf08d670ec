'use client'

import { useState } from 'react'
import s from '../cut.module.css'

type PieceTickProps = { id: string; label: string; isChosen: boolean }

/** Whether a piece is cut from. Keeps what the person sets, and follows what is suggested when that changes. */
export function PieceTick({ id, label, isChosen }: PieceTickProps) {
  const [state, setState] = useState({ given: isChosen, current: isChosen })
  if (state.given !== isChosen) setState({ given: isChosen, current: isChosen })
  return (
    <label className={s.tick}>
      <input
        type="checkbox"
        name="piece"
        value={id}
        checked={state.current}
        onChange={(event) => setState({ given: isChosen, current: event.target.checked })}
      />
      <span className="vh">{label}</span>
    </label>
  )
}
