'use client'

import { createContext, useContext } from 'react'
import { say } from '#language/say'
import { isChosen, withChosen } from '#lib/listing/selection'
import { chooseFormId } from './choose-form-id'
import { choose, useChosen } from './choosing'
import s from './row-tick.module.css'

/** Where only a window of a list is drawn, the window knows what lies between two of its ticks. */
export const TickContext = createContext<((tick: HTMLInputElement, isRange: boolean) => void) | null>(null)

/** The tick that was pressed last, for the ticks between it and the next. */
let last: HTMLInputElement | null = null

type RowTickProps = { list: string; id: string; name: string }

/** Chooses one row of a list; with shift, all rows between it and the last. Without scripts it goes with the list's form, page by page. */
export function RowTick({ list, id, name }: RowTickProps) {
  const chosen = useChosen(list)
  const press = useContext(TickContext)
  const pressed = (tick: HTMLInputElement, isRange: boolean) => {
    if (press) return press(tick, isRange)
    const ticks = [...(tick.closest('table')?.querySelectorAll<HTMLInputElement>('input[name="t"]') ?? [])]
    const from = last && isRange ? ticks.indexOf(last) : -1
    const to = ticks.indexOf(tick)
    const between = from < 0 ? [tick] : ticks.slice(Math.min(from, to), Math.max(from, to) + 1)
    const isIn = !isChosen(chosen, id)
    last = tick
    choose(list, (selection) =>
      withChosen(
        selection,
        between.map(({ value }) => value),
        isIn,
      ),
    )
  }
  return (
    <input
      type="checkbox"
      className={s.tick}
      name="t"
      value={id}
      form={chooseFormId}
      aria-label={say('Choose {name}', { name })}
      autoComplete="off"
      checked={isChosen(chosen, id)}
      onChange={(event) => pressed(event.currentTarget, (event.nativeEvent as MouseEvent).shiftKey === true)}
    />
  )
}
