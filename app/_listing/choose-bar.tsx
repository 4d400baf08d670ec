'use client'

import { useEffect, useState } from 'react'
import { say, sayings } from '#language/say'
import { sayParts } from '#language/say-parts'
import { allChosen, countChosen, nothingChosen, selectionText } from '#lib/listing/selection'
import { Button } from '#ui/button'
import { counted } from '#words/amounts'
import type { BulkRoom } from './bulk-address'
import { chooseAction } from './choose-action'
import s from './choose-bar.module.css'
import { chooseFormId } from './choose-form-id'
import { choose, useChosen } from './choosing'

/** What the bar is called, by what one row is. */
const chosenWords = sayings({
  design: 'Chosen designs',
  thread: 'Chosen threads',
  piece: 'Chosen pieces',
  notion: 'Chosen notions',
  project: 'Chosen projects',
})

type ChooseBarProps = {
  room: BulkRoom
  /** Under which what is chosen of the list is kept. */
  list: string
  /** The list's choices, as they stand in its address. */
  filter: string
  /** How many the choices find. */
  total: number
  /** "design": what one row is. */
  noun: keyof typeof chosenWords
  /** All of it is scrolled as one at a desk, where keys choose too: app/_listing/window-ledger.tsx. */
  isLong?: boolean
}

/** Says how many of a list are chosen, and leads on to what can be done with them. */
export function ChooseBar({ room, list, filter, total, noun, isLong = false }: ChooseBarProps) {
  const chosen = useChosen(list)
  const [isChoosing, setIsChoosing] = useState(false)
  const count = countChosen(chosen, total)
  const isOn = isChoosing || count > 0
  // On a phone the ticks stand only while somebody chooses: app/_ui/ledger.module.css.
  useEffect(() => {
    document.documentElement.toggleAttribute('data-choosing', isOn)
    return () => document.documentElement.removeAttribute('data-choosing')
  }, [isOn])
  const isAll = chosen.kind === 'all' && count === total
  return (
    <div className={s.hold}>
      <form
        id={chooseFormId}
        action={chooseAction}
        className={s.bar}
        data-on={count > 0 || undefined}
        aria-label={chosenWords[noun]}
      >
        <input type="hidden" name="room" value={room} />
        <input type="hidden" name="filter" value={filter} />
        {count > 0 && <input type="hidden" name="chosen" value={selectionText(chosen)} />}
        <p role="status" className={count > 0 ? undefined : s.quiet}>
          {count > 0 ? say('{counted} chosen', { counted: counted(count, noun) }) : ''}
        </p>
        <div className={s.acts} data-scripted>
          {count > 0 && (
            <Button type="submit" kind="first">
              {say('Do something with {count, plural, one {it} other {them}}', { count })}
            </Button>
          )}
          {!isAll && total > 0 && (
            <Button kind="quiet" onClick={() => choose(list, () => allChosen)}>
              {count > 0 ? say('All {total, number}', { total }) : say('Choose all {total, number}', { total })}
            </Button>
          )}
          {count > 0 && (
            <Button
              kind="quiet"
              onClick={() => {
                choose(list, () => nothingChosen)
                setIsChoosing(false)
              }}
            >
              {say('None of them')}
            </Button>
          )}
          {!isOn && (
            <span className={s.phone}>
              <Button kind="quiet" onClick={() => setIsChoosing(true)}>
                {say('Choose several')}
              </Button>
            </span>
          )}
          {isLong && (
            <span className={s.hint}>
              {sayParts('{kbd} chooses a row, with <kbd2>shift</kbd2> all up to it', {
                kbd: <kbd>x</kbd>,
                kbd2: (words) => <kbd>{words}</kbd>,
              })}
            </span>
          )}
        </div>
        <div className={s.acts} data-plain>
          <Button type="submit" name="scope" value="ticked">
            {say('Do something with those ticked')}
          </Button>
          <Button type="submit" name="scope" value="found">
            {say('Do something with all {total, number}', { total })}
          </Button>
        </div>
      </form>
    </div>
  )
}
