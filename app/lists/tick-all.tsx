'use client'

import { Button } from '#ui/button'
import { midSentence } from '#words/capital'

/** Ticks every line of the section it stands in, or none. */
export function TickAll({ title }: { title: string }) {
  const set = (button: HTMLButtonElement, isTicked: boolean) => {
    for (const box of button.closest('section')?.querySelectorAll<HTMLInputElement>('input[name=row]') ?? [])
      box.checked = isTicked
  }
  return (
    <span className="no-print">
      <Button kind="quiet" aria-label={`Tick all ${midSentence(title)}`} onClick={(event) => set(event.currentTarget, true)}>
        Tick all
      </Button>{' '}
      <Button kind="quiet" aria-label={`Tick no ${midSentence(title)}`} onClick={(event) => set(event.currentTarget, false)}>
        Tick none
      </Button>
    </span>
  )
}
