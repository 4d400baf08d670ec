'use client'

import { useRouter } from 'next/navigation'
import { useCallback, useEffect, useRef, useState, useSyncExternalStore } from 'react'
import { newOnceKey } from '#forms/once-field'
import { say } from '#language/say'
import { Button } from '#ui/button'
import { Notice } from '#ui/notice'
import { dropFound, keepFound, sendFound, type WaitingFound, waitingFound } from '../../_ticks/found-things'
import { onTicks } from '../../_ticks/tick-queue'
import s from './count.module.css'

const againMs = 15_000
const none: readonly WaitingFound[] = []

/** What is found without a connection waits on this device too; with one, the form around it is sent as any other. */
export function FoundHere({ countId }: { countId: string }) {
  const router = useRouter()
  const place = useRef<HTMLDivElement>(null)
  const [refusal, setRefusal] = useState<string | null>(null)
  const waiting = useSyncExternalStore(
    onTicks,
    () => waitingFound(countId),
    () => none,
  )

  const send = useCallback(async () => {
    if (waitingFound(countId).length === 0) return
    const sent = await sendFound(countId)
    setRefusal(sent.kind === 'refused' ? sent.detail : null)
    if (sent.kind === 'sent' && sent.written > 0) router.refresh()
  }, [countId, router])

  useEffect(() => {
    const form = place.current?.closest('form')
    if (!form) return
    const submitted = (event: Event) => {
      // A page that came from the device's own store has no connection either, whatever the browser believes.
      if (navigator.onLine && !document.documentElement.dataset.seenAt) return
      const fields = new FormData(form)
      const text = (name: string) => String(fields.get(name) ?? '').trim()
      const [found, counted, by] = [text('found'), text('counted'), text('by')]
      event.preventDefault()
      event.stopPropagation()
      // The server, which would say what is not filled in yet, is not there.
      const isFigure = /^[1-9]\d{0,5}$/.test(counted)
      const empty = found === '' ? 'found' : !isFigure ? 'counted' : by === '' ? 'by' : null
      if (empty !== null) {
        const input = form.elements.namedItem(empty)
        if (input instanceof HTMLElement) input.focus()
        return
      }
      keepFound(countId, {
        ...{ lineId: newOnceKey(), status: 'found', by, placeId: text('placeId'), found, counted: Number(counted) },
        tickedAt: new Date().toISOString(),
      })
      for (const name of ['found', 'counted']) {
        const input = form.elements.namedItem(name)
        if (input instanceof HTMLInputElement) input.value = ''
      }
    }
    const now = () => void send()
    form.addEventListener('submit', submitted, { capture: true })
    window.addEventListener('online', now)
    const timer = setInterval(now, againMs)
    now()
    return () => {
      clearInterval(timer)
      form.removeEventListener('submit', submitted, { capture: true })
      window.removeEventListener('online', now)
    }
  }, [countId, send])

  return (
    <div ref={place} className={s.here}>
      {waiting.length > 0 && (
        <Notice
          kind={refusal === null ? 'done' : 'refusal'}
          title={
            refusal === null
              ? say('Kept on this device, to be sent with the next connection')
              : say('Not taken: {refusal}', { refusal })
          }
          actions={
            refusal !== null && (
              <Button
                onClick={() => {
                  for (const thing of waitingFound(countId)) dropFound(countId, thing)
                  setRefusal(null)
                }}
              >
                {say('Let it go')}
              </Button>
            )
          }
        >
          {waiting.map(({ found, counted }) => `${found}: ${counted}`).join('; ')}.
        </Notice>
      )}
    </div>
  )
}
