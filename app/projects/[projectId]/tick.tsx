'use client'

import { useSyncExternalStore } from 'react'
import s from './project.module.css'

type TickProps = {
  /** What the tick is of: kept on this device under it. */
  name: string
  /** Heard: "Larkholm 0311 taken". */
  label: string
}

const changed = 'larder-tick'

function subscribe(listener: () => void): () => void {
  window.addEventListener(changed, listener)
  window.addEventListener('storage', listener)
  return () => {
    window.removeEventListener(changed, listener)
    window.removeEventListener('storage', listener)
  }
}

/** Storage may be closed to a page; the tick is then only for as long as the page is open. */
const open = new Map<string, boolean>()

function read(name: string): boolean {
  try {
    return window.localStorage.getItem(name) !== null
  } catch {
    return open.get(name) ?? false
  }
}

function keep(name: string, isTicked: boolean): void {
  try {
    if (isTicked) window.localStorage.setItem(name, '1')
    else window.localStorage.removeItem(name)
  } catch {
    open.set(name, isTicked)
  }
  window.dispatchEvent(new Event(changed))
}

/** A box to tick while walking past the drawers. It writes nothing down: "Kit it" does, for all of the list. */
export function Tick({ name, label }: TickProps) {
  const isTicked = useSyncExternalStore(
    subscribe,
    () => read(name),
    () => false,
  )
  return (
    <label className={s.tick}>
      <input type="checkbox" checked={isTicked} onChange={(event) => keep(name, event.target.checked)} aria-label={label} />
    </label>
  )
}
