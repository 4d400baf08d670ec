'use client'

import { useEffect, useState, useTransition } from 'react'
import { say } from '#language/say'
import type { Lay } from '#lib/db/place/drop-thing'
import { Button } from '#ui/button'
import { dropAction, undoDropAction } from './actions'
import s from './drag-ground.module.css'

type DragGroundProps = {
  /** Where things were put last: they come up to be dropped on. */
  places: readonly { id: string; label: string }[]
  /** On the page of a place: that place. */
  fromPlaceId?: string
}

type Said = { words: string; isRefusal: boolean; undo: Lay | null }

/**
 * Rows of the page are dragged onto places: its fronts, and a strip of those used last. Only where there is a mouse or the like; what
 * it takes is fetched then. Everybody else moves a thing on its own page, as does who has a mouse and no wish to drag.
 */
export function DragGround({ places, fromPlaceId }: DragGroundProps) {
  const [isDragging, setIsDragging] = useState(false)
  const [said, setSaid] = useState<Said | null>(null)
  const [isPending, startTransition] = useTransition()

  useEffect(() => {
    const root = document.body
    if (!window.matchMedia('(hover: hover) and (pointer: fine)').matches) return
    let end: (() => void) | undefined
    let isGone = false
    import('./watch-drags').then(
      ({ watchDrags }) => {
        if (isGone) return
        end = watchDrags(root, {
          onStart: () => {
            setSaid(null)
            setIsDragging(true)
          },
          onEnd: (dragged, title, toPlaceId) => {
            setIsDragging(false)
            if (toPlaceId === null) return
            startTransition(async () => {
              const answer = await dropAction({ dragged, toPlaceId, fromPlaceId: fromPlaceId ?? null }).catch(() => null)
              if (answer === null)
                return setSaid({ words: say('{title} stays where it was: no network.', { title }), isRefusal: true, undo: null })
              if (answer.kind === 'refused') return setSaid({ words: answer.message, isRefusal: true, undo: null })
              const { meaning, label, before } = answer.dropped
              const hadPlace = before.homePlaceId !== null || before.currentPlaceId !== null
              setSaid({
                words:
                  meaning === 'home'
                    ? say('{title} lives in {label} now.', { title, label })
                    : say('{title} is in {label} now, for a while.', { title, label }),
                isRefusal: false,
                undo: hadPlace ? before : null,
              })
            })
          },
        })
      },
      () => {},
    )
    return () => {
      isGone = true
      end?.()
    }
  }, [fromPlaceId])

  const undo = (lay: Lay) =>
    startTransition(async () => {
      const refusal = await undoDropAction(lay).catch(() => say('It could not be undone: no network.'))
      setSaid({ words: refusal ?? say('It is back as it lay.'), isRefusal: refusal !== null, undo: null })
    })

  return (
    <>
      <p className={s.hint}>
        {say('A row can be dragged onto a place. To move it without dragging, open it: “Move” stands on its page.')}
      </p>
      {isDragging && places.length > 0 && (
        <div className={s.strip}>
          <p>{say('Put it in')}</p>
          <ul aria-label={say('Places used last')}>
            {places.map(({ id, label }) => (
              <li key={id} data-drop-place={id}>
                {label}
              </li>
            ))}
          </ul>
        </div>
      )}
      <div
        className={s.said}
        role={said?.isRefusal ? 'alert' : undefined}
        aria-live="polite"
        data-said={said !== null || undefined}
      >
        {isPending && !said && say('Moving it …')}
        {said && (
          <>
            <span>{said.words}</span>
            {said.undo && (
              <Button kind="plain" onClick={() => said.undo && undo(said.undo)}>
                {say('Undo')}
              </Button>
            )}
            <Button kind="quiet" onClick={() => setSaid(null)}>
              {say('Close')}
            </Button>
          </>
        )}
      </div>
    </>
  )
}
