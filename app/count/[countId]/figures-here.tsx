'use client'

import { useRouter } from 'next/navigation'
import { useCallback, useEffect, useRef, useState, useSyncExternalStore } from 'react'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { Button } from '#ui/button'
import { Notice } from '#ui/notice'
import { counted as countedWords } from '#words/amounts'
import { dropFigures, insist, keepFigure, sendFigures, type WaitingFigure, waitingFigures } from '../../_ticks/count-figures'
import { onTicks } from '../../_ticks/tick-queue'
import s from './count.module.css'

/** A line of the sheet as it is named to a person, and what stands on the record for it. */
export type NamedLine = { id: string; name: string; place: string; counted: number | null }

/** Sent this long after the last figure: whoever counts a drawer writes several. */
const restMs = 8_000
const againMs = 5_000
const mostAgainMs = 40_000
const mostPutUps = 1_000_000
const none: readonly WaitingFigure[] = []

/**
 * Keeps what is counted on this device from the moment it is written, and sends it when there is a connection: in a cellar between steel
 * cabinets there is none. What somebody else counted meanwhile is shown beside one's own, to choose. Without scripts the sheet is a form.
 */
export function FiguresHere({ countId, lines }: { countId: string; lines: readonly NamedLine[] }) {
  const router = useRouter()
  const place = useRef<HTMLDivElement>(null)
  const [isConnected, setConnected] = useState(true)
  const [refusal, setRefusal] = useState<string | null>(null)
  const figures = useSyncExternalStore(
    onTicks,
    () => waitingFigures(countId),
    () => none,
  )
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined)
  const failures = useRef(0)
  const connected = useRef(true)

  const boxOf = useCallback((lineId: string, kind: 'counted' | 'saw') => {
    const box = place.current?.closest('form')?.elements.namedItem(`${kind}-${lineId}`)
    return box instanceof HTMLInputElement ? box : null
  }, [])

  const send = useCallback(async () => {
    clearTimeout(timer.current)
    const sent = await sendFigures(countId)
    const isThere = sent.kind !== 'no-connection'
    connected.current = isThere
    setConnected(isThere)
    setRefusal(sent.kind === 'refused' ? sent.detail : null)
    if (!isThere) {
      failures.current += 1
      timer.current = setTimeout(() => void send(), Math.min(mostAgainMs, againMs * 2 ** (failures.current - 1)))
      return
    }
    failures.current = 0
    if (sent.kind !== 'sent') return
    const figureOf = new Map(sent.done.map((figure) => [figure.lineId, figure]))
    for (const { lineId, countedAt } of sent.answer.entered) {
      const [saw, figure] = [boxOf(lineId, 'saw'), figureOf.get(lineId)]
      if (saw && figure) saw.value = `${countedAt} ${figure.counted}`
    }
    if (waitingFigures(countId).some(({ conflict }) => !conflict)) timer.current = setTimeout(() => void send(), 0)
  }, [boxOf, countId])

  useEffect(() => {
    const form = place.current?.closest('form')
    if (!form) return
    // What was written before the page was opened again.
    for (const { lineId, counted } of waitingFigures(countId)) {
      const box = boxOf(lineId, 'counted')
      if (box) box.value = String(counted)
    }
    const by = () => form.querySelector<HTMLInputElement>('input[name="by"]')?.value.trim() || null
    const written = ({ target }: Event) => {
      if (!(target instanceof HTMLInputElement) || !target.name.startsWith('counted-')) return
      const lineId = target.name.slice('counted-'.length)
      const [sawAt = '', sawFigure = ''] = (boxOf(lineId, 'saw')?.value ?? '').split(' ')
      const text = target.value.trim()
      const before = waitingFigures(countId).filter((figure) => figure.lineId === lineId)
      const isFigure = /^\d+$/.test(text) && Number(text) <= mostPutUps
      // Emptied, or as it was: nothing to send. What is no number the form itself will say.
      if (!isFigure || text === sawFigure) return dropFigures(countId, before)
      keepFigure(countId, {
        ...{ lineId, status: 'counted', by: by(), counted: Number(text), saw: sawAt || null },
        tickedAt: new Date().toISOString(),
      })
      clearTimeout(timer.current)
      timer.current = setTimeout(() => void send(), connected.current ? restMs : againMs)
    }
    const submitted = (event: Event) => {
      // Whoever gave their name last signs what waits without one.
      for (const figure of waitingFigures(countId)) if (!figure.by && by()) keepFigure(countId, { ...figure, by: by() })
      if (connected.current && navigator.onLine) return
      event.preventDefault()
      event.stopPropagation()
      void send()
    }
    const now = () => void send()
    form.addEventListener('input', written)
    form.addEventListener('submit', submitted, { capture: true })
    window.addEventListener('online', now)
    const away = () => {
      connected.current = false
      setConnected(false)
    }
    window.addEventListener('offline', away)
    if (!navigator.onLine) away()
    if (waitingFigures(countId).length > 0) now()
    return () => {
      clearTimeout(timer.current)
      form.removeEventListener('input', written)
      form.removeEventListener('submit', submitted, { capture: true })
      window.removeEventListener('online', now)
      window.removeEventListener('offline', away)
    }
  }, [boxOf, countId, send])

  // Saved by the form meanwhile: it waits no more.
  useEffect(() => {
    const onRecord = new Map(lines.map(({ id, counted }) => [id, counted]))
    const saved = waitingFigures(countId).filter(({ lineId, counted }) => onRecord.get(lineId) === counted)
    if (saved.length > 0) dropFigures(countId, saved)
  }, [countId, lines])

  const named = new Map(lines.map((line) => [line.id, line]))
  const conflicts = figures.filter(({ conflict }) => conflict)
  const waiting = figures.length - conflicts.length
  return (
    <div ref={place} className={s.here}>
      <p role="status" className={s.waiting} data-waiting={waiting > 0 || !isConnected || undefined}>
        {waiting > 0 &&
          (isConnected
            ? say('{counted} kept on this device, not sent yet', { counted: countedWords(waiting, 'figure') })
            : say('{counted} waiting to be sent; no connection, kept on this device', {
                counted: countedWords(waiting, 'figure'),
              }))}
        {waiting === 0 && !isConnected && say('No connection: what you write is kept on this device')}
      </p>
      {refusal !== null && waiting > 0 && (
        <Notice
          kind="refusal"
          title={say('The figures that wait here are not taken: {refusal}', { refusal })}
          actions={
            <Button
              onClick={() => {
                dropFigures(
                  countId,
                  waitingFigures(countId).filter(({ conflict }) => !conflict),
                )
                setRefusal(null)
              }}
            >
              {say('Let these figures go')}
            </Button>
          }
        >
          {figures
            .map(({ lineId, counted }) => `${named.get(lineId)?.name ?? say('A line that is gone')}: ${counted}`)
            .join('; ')}
          .
        </Notice>
      )}
      {conflicts.map((figure) => (
        <Conflict
          key={figure.lineId}
          figure={figure}
          line={named.get(figure.lineId)}
          onMine={() => {
            keepFigure(countId, insist(figure, new Date().toISOString()))
            void send().then(() => router.refresh())
          }}
          onTheirs={() => {
            dropFigures(countId, [figure])
            const box = boxOf(figure.lineId, 'counted')
            const saw = boxOf(figure.lineId, 'saw')
            if (figure.conflict?.kind === 'counted' && box && saw) {
              box.value = String(figure.conflict.counted)
              saw.value = figure.conflict.at ? `${figure.conflict.at} ${figure.conflict.counted}` : ''
            }
            router.refresh()
          }}
        />
      ))}
    </div>
  )
}

type ConflictProps = { figure: WaitingFigure; line: NamedLine | undefined; onMine: () => void; onTheirs: () => void }

function Conflict({ figure, line, onMine, onTheirs }: ConflictProps) {
  const { conflict, counted } = figure
  const name = line ? say('{name} in {place}', { name: line.name, place: line.place }) : say('A line of the sheet')
  if (conflict?.kind === 'gone')
    return (
      <Notice
        kind="caution"
        title={say('{name} was taken off the sheet meanwhile. You counted {counted}.', { name, counted })}
        actions={<Button onClick={onTheirs}>{say('I have seen it')}</Button>}
      >
        {say('If it stands there, write it down below as found.')}
      </Notice>
    )
  if (conflict?.kind !== 'counted') return null
  return (
    <Notice
      kind="caution"
      title={say('{name}: you counted {counted}, {by} counted {counted2} meanwhile.', {
        name,
        counted,
        by: conflict.by ?? say('somebody else'),
        counted2: conflict.counted,
      })}
      actions={
        <>
          <Button onClick={onMine}>{sayParts('Mine stands: {counted}', { counted })}</Button>
          <Button onClick={onTheirs}>{sayParts('Theirs stands: {counted}', { counted: conflict.counted })}</Button>
        </>
      }
    >
      {say('Neither is lost. Look together, or count once more.')}
    </Notice>
  )
}
