'use client'

import { Button } from '#ui/button'

/** Ticks every line of the section it stands in, or none. */
export function TickAll({ title }: { title: string }) {
  const set = (button: HTMLButtonElement, isTicked: boolean) => {
    for (const box of button.closest('section')?.querySelectorAll<HTMLInputElement>('input[name=row]') ?? [])
      box.checked = isTicked
  }
  return (
    <span className="no-print">
      <Button kind="quiet" aria-label={`Tick all: ${title}`} onClick={(event) => set(event.currentTarget, true)}>
        Tick all
      </Button>{' '}
      <Button kind="quiet" aria-label={`Tick none: ${title}`} onClick={(event) => set(event.currentTarget, false)}>
        Tick none
      </Button>
    </span>
  )
}
