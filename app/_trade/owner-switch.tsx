'use client'

import { useId, useRef } from 'react'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import s from './owner-switch.module.css'

type OwnerSwitchProps = {
  owners: readonly { id: string; name: string }[]
  /** Ids of those whose stock is on show; more than one means everyone's. */
  chosen: readonly string[]
  /** Gets `owner`: an id, or `everyone`. */
  action: (form: FormData) => Promise<void>
}

/** Whose stock is on show. With one owner there is nothing to switch, so it only says whose it is. */
export function OwnerSwitch({ owners, chosen, action }: OwnerSwitchProps) {
  const form = useRef<HTMLFormElement>(null)
  const id = useId()
  if (owners.length === 0) return null
  if (owners.length === 1) return <p className={s.one}>{sayParts('Stock of {name}', { name: <b>{owners[0]?.name}</b> })}</p>
  const current = chosen.length === 1 ? chosen[0] : 'everyone'
  return (
    <form ref={form} className={s.form} action={action}>
      <label htmlFor={id}>{say('Stock of')}</label>
      <select
        // Drawn anew when the choice changes elsewhere: React leaves a select as it was.
        key={current}
        id={id}
        name="owner"
        defaultValue={current}
        aria-describedby={`${id}-hint`}
        onChange={() => form.current?.requestSubmit()}
      >
        <option value="everyone">{say('everyone')}</option>
        {owners.map((owner) => (
          <option key={owner.id} value={owner.id}>
            {owner.name}
          </option>
        ))}
      </select>
      <svg className={s.arrow} viewBox="0 0 11 7" width="10" height="7" aria-hidden="true">
        <path d="m1 1 4.5 4.5L10 1" fill="none" stroke="currentColor" strokeWidth="var(--pen-line)" />
      </svg>
      <span className="vh" id={`${id}-hint`}>
        {say('The page shows that stock as soon as it is chosen.')}
      </span>
      <noscript>
        <button className={s.send} type="submit">
          {say('Show')}
        </button>
      </noscript>
    </form>
  )
}
