'use client'

import { useState, useTransition } from 'react'
import { say } from '#language/say'
import { mostStars } from '#lib/planning/together/wish-value'
import { counted } from '#words/amounts'
import { setStarsAction } from './actions'
import s from './stars.module.css'

type StarsProps = { projectIds: readonly string[]; stars: number | null; title: string }

/** How much something is wished for, in one press; the same press again takes the stars off. */
export function Stars({ projectIds, stars, title }: StarsProps) {
  const [pressed, setPressed] = useState<{ before: number | null; stars: number | null } | null>(null)
  const [refusal, setRefusal] = useState<string | null>(null)
  const [isPending, startTransition] = useTransition()
  // What was pressed shows at once; once the page knows of it, the page is right.
  const shown = pressed && pressed.before === stars ? pressed.stars : stars
  const press = (count: number) => {
    const next = count === shown ? null : count
    setPressed({ before: stars, stars: next })
    startTransition(async () => {
      const said = await setStarsAction({ projectIds: [...projectIds], stars: next })
      setRefusal(said)
      if (said !== null) setPressed(null)
    })
  }
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset would draw a box and want a legend of its own
    <span role="group" aria-label={say('Stars of {title}', { title })} aria-busy={isPending} className={s.stars}>
      {Array.from({ length: mostStars }, (_, at) => at + 1).map((count) => (
        <button
          key={count}
          type="button"
          className={s.star}
          aria-pressed={count === shown}
          aria-label={counted(count, 'star')}
          data-on={(shown ?? 0) >= count || undefined}
          onClick={() => press(count)}
        >
          <svg viewBox="0 0 20 20" width="20" height="20" aria-hidden="true">
            <path d="m10 1.8 2.5 5.3 5.8.7-4.3 4 1.2 5.7L10 14.6l-5.2 2.9L6 11.8l-4.3-4 5.8-.7z" />
          </svg>
        </button>
      ))}
      <span className={s.word}>{shown === null ? say('no stars') : say('{shown} of {mostStars}', { shown, mostStars })}</span>
      {refusal !== null && (
        <span role="alert" className="do">
          {refusal}
        </span>
      )}
    </span>
  )
}
