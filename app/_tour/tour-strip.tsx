'use client'

import { usePathname, useSearchParams } from 'next/navigation'
import { useEffect, useState } from 'react'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { Button } from '#ui/button'
import { Link } from '#ui/link'
import { errands, type Step } from './errands'
import s from './tour.module.css'
import { findTourCookie, readTour, type TourState, tourCookieLine } from './tour-state'

/** Finished pieces on record, of all that is seen; null where that cannot be told just now. */
async function countFinished(): Promise<number | null> {
  const answer = await fetch('/api/v1/finishes', { cache: 'no-store' }).catch(() => null)
  if (!answer?.ok) return null
  const { years } = (await answer.json()) as { years: { pieces: number }[] }
  return years.reduce((sum, { pieces }) => sum + pieces, 0)
}

/** What a state becomes at this address; the same one where the step waits still. */
async function advance(state: TourState, step: Step, path: string, query: URLSearchParams): Promise<TourState> {
  const next = { ...state, step: state.step + 1 }
  if (step.isDone !== 'finished') return step.isDone({ path, query }) ? next : state
  const finished = await countFinished()
  if (finished === null || finished === state.finishedBefore) return state
  return state.finishedBefore === null || finished < state.finishedBefore ? { ...state, finishedBefore: finished } : next
}

/**
 * Errands to be done on the screens themselves: what is next, in a sentence. It waits until the person is where the step leads, or what it
 * leads to is on record; there is nothing to press for that.
 */
export function TourStrip({ begun }: { begun: TourState }) {
  const [state, setState] = useState<TourState | null>(begun)
  const path = usePathname()
  const search = useSearchParams().toString()
  const errand = state && errands()[state.errand]
  const step = state && errand?.steps[state.step]

  // The page was drawn anew, perhaps since somebody began again: the cookie says how far it is, whoever wrote it last.
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new drawing is what is waited for
  useEffect(() => {
    const kept = readTour(findTourCookie(document.cookie))
    setState(kept?.isLeft ? null : kept)
  }, [begun])
  useEffect(() => {
    if (!state || !step) return
    let isStale = false
    void advance(state, step, path, new URLSearchParams(search)).then((next) => {
      if (isStale || next === state) return
      // biome-ignore lint/suspicious/noDocumentCookie: the page that asked for it reads it on the server
      document.cookie = tourCookieLine(next)
      setState(next)
    })
    return () => {
      isStale = true
    }
  }, [state, step, path, search])

  if (!state || !errand) return null
  const keep = (next: TourState | null) => {
    // biome-ignore lint/suspicious/noDocumentCookie: as above
    document.cookie = tourCookieLine(next)
    setState(next?.isLeft ? null : next)
  }
  const next = errands()[state.errand + 1]
  return (
    <section className={s.strip} aria-label={say('The errand at hand')} data-tour>
      <div className={s.in}>
        <p className={s.title}>
          <b>{errand.title}</b>{' '}
          <span className={s.count}>
            {step
              ? say('Errand {errand} of {errands}, step {step} of {steps}', {
                  errand: state.errand + 1,
                  errands: errands().length,
                  step: state.step + 1,
                  steps: errand.steps.length,
                })
              : say('Errand {errand} of {errands}, done', { errand: state.errand + 1, errands: errands().length })}
          </span>
        </p>
        <p className={s.says} role="status">
          {step ? step.says : errand.done}
        </p>
        <div className={s.ways}>
          {step && <Link href={step.from.href}>{step.from.label}</Link>}
          {!step && next && (
            <Button kind="plain" onClick={() => keep({ errand: state.errand + 1, step: 0, finishedBefore: null, isLeft: false })}>
              {sayParts('Next: {title}', { title: next.title })}
            </Button>
          )}
          {!step && !next && <Link href="/guide">{say('All of it on one page')}</Link>}
          {step || next ? (
            <Button kind="quiet" onClick={() => keep({ ...state, isLeft: true })}>
              {say('Leave it for now')}
            </Button>
          ) : (
            <Button kind="quiet" onClick={() => keep(null)}>
              {say('Close')}
            </Button>
          )}
        </div>
      </div>
    </section>
  )
}
