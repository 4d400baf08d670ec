'use client'

import { say } from '#language/say'
import { Button } from '#ui/button'

/** Ticks every line of the section it stands in, or none. */
export function TickAll({ title }: { title: string }) {
  const set = (button: HTMLButtonElement, isTicked: boolean) => {
    for (const box of button.closest('section')?.querySelectorAll<HTMLInputElement>('input[name=row]') ?? [])
      box.checked = isTicked
  }
  return (
    <span className="no-print">
      <Button kind="quiet" aria-label={say('Tick all: {title}', { title })} onClick={(event) => set(event.currentTarget, true)}>
        {say('Tick all')}
      </Button>{' '}
      <Button kind="quiet" aria-label={say('Tick none: {title}', { title })} onClick={(event) => set(event.currentTarget, false)}>
        {say('Tick none')}
      </Button>
    </span>
  )
}
