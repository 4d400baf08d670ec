'use client'

import { useRouter } from 'next/navigation'
import { useCallback, useEffect, useId, useRef, useState } from 'react'
import { dayText } from '#language/figures'
import { say, sayings } from '#language/say'
import { sayParts } from '#language/say-parts'
import { PlaceLabel } from '#trade/place-label'
import { Button, ButtonRow } from '#ui/button'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import s from '../../_ticks/ticked-list.module.css'
import type { DeskRow } from './rows'

type Moved = { at: string; what: string; who: string | null; from: string | null; to: string | null } | null
type PlaceRef = { placeId: string; label: string } | null

type Where = {
  lastMoved: Moved
  formerHomes: { place: { placeId: string; label: string }; until: string }[]
  others: {
    batchId: string
    name: string
    lot: string | null
    isStandIn: boolean
    place: PlaceRef
    home: PlaceRef
    held: string
    freeStrandTenths: number
    free: string
    promisedTo: { projectId: string; title: string }[]
    lastMoved: Moved
  }[]
}

type NotThereProps = {
  walkId: string
  /** What is asked about; null while nothing is. */
  row: DeskRow | null
  by: string | null
  isPull: boolean
  onClose: () => void
  onFound: (row: DeskRow) => void
}

const failed = () => say('No connection. It stays marked as not there; ask again when the connection is back.')

/** It was not where the list says: where it may be, what to take instead, or that it is missing. */
export function NotThere({ walkId, row, by, isPull, onClose, onFound }: NotThereProps) {
  const router = useRouter()
  const dialog = useRef<HTMLDialogElement>(null)
  const headId = useId()
  const [where, setWhere] = useState<Where | null>(null)
  const [trouble, setTrouble] = useState<string | null>(null)
  const [isBusy, setBusy] = useState(false)
  const [forLine, setForLine] = useState('all')
  const address = `/api/v1/walks/${encodeURIComponent(walkId)}`
  const firstLine = row?.lineIds[0]

  const ask = useCallback(async () => {
    if (firstLine === undefined) return
    setTrouble(null)
    try {
      const response = await fetch(`${address}/where?lineId=${encodeURIComponent(firstLine)}`, { cache: 'no-store' })
      const body = await response.json()
      if (response.ok) setWhere(body as Where)
      else setTrouble(typeof body?.detail === 'string' ? body.detail : failed())
    } catch {
      setTrouble(failed())
    }
  }, [address, firstLine])

  useEffect(() => {
    if (!row) return
    dialog.current?.showModal()
    void ask()
  }, [row, ask])

  if (!row) return null
  const lineIds = forLine === 'all' ? row.lineIds : [forLine]
  const post = async (what: 'instead' | 'missing', body: object) => {
    if (isBusy) return
    setBusy(true)
    setTrouble(null)
    try {
      const response = await fetch(`${address}/${what}`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ lineIds, ...(by && { by }), ...body }),
      })
      if (response.ok) {
        router.refresh()
        dialog.current?.close()
      } else {
        const refusal = await response.json()
        setTrouble(typeof refusal?.detail === 'string' ? refusal.detail : failed())
      }
    } catch {
      setTrouble(failed())
    }
    setBusy(false)
  }

  return (
    <dialog ref={dialog} className={s.sheet} aria-labelledby={headId} onClose={onClose}>
      <h2 id={headId}>{sayParts('{name}: not there', { name: row.name })}</h2>
      {trouble && <Notice kind="refusal" title={trouble} actions={<Button onClick={ask}>{say('Ask again')}</Button>} />}
      {!where && !trouble && <p role="status">{say('Looking it up')}</p>}
      {row.bags.length > 1 && (
        <fieldset className={s.for}>
          <legend>{say('For')}</legend>
          <label>
            <input type="radio" name="for" checked={forLine === 'all'} onChange={() => setForLine('all')} />{' '}
            {say('all of its bags')}
          </label>
          {row.bags.map(({ lineId, label }) => (
            <label key={lineId}>
              <input type="radio" name="for" checked={forLine === lineId} onChange={() => setForLine(lineId)} /> {label}
            </label>
          ))}
        </fieldset>
      )}
      {where && (
        <>
          {where.lastMoved && <p>{movedWords(where.lastMoved)}.</p>}
          {where.formerHomes.length > 0 && (
            <>
              <h3>{say('It lived there before')}</h3>
              <ul className={s.homes}>
                {where.formerHomes.map(({ place, until }) => (
                  <li key={place.placeId}>
                    <PlaceLabel label={place.label} note={say('until {until}', { until: dayWords(until) })} />
                  </li>
                ))}
              </ul>
            </>
          )}
          {row.kind === 'thread' && (
            <>
              <h3>{isPull ? say('More of it, and what could be taken instead') : say('More of it')}</h3>
              {where.others.length === 0 && <p>{say('There is no other stock of it, and no stand-in for it is held.')}</p>}
              <ul className={s.others}>
                {where.others.map((other) => (
                  <li key={other.batchId}>
                    <div>
                      {other.place ? (
                        <PlaceLabel label={other.place.label} isAway={other.home?.placeId !== other.place.placeId} />
                      ) : (
                        say('no place')
                      )}{' '}
                      <b>{other.name}</b>
                      {other.isStandIn && say(', a stand-in')}
                      {other.lot && say(', lot {lot}', { lot: other.lot })}
                      <small>
                        {other.held}; {other.freeStrandTenths > 0 ? say('{free} free', { free: other.free }) : say('none free')}
                        {other.promisedTo.length > 0 &&
                          say('; promised to {promisedTo}', {
                            promisedTo: other.promisedTo.map(({ title }) => title).join(', '),
                          })}
                      </small>
                      {other.lastMoved && <small>{movedWords(other.lastMoved)}</small>}
                    </div>
                    {isPull && other.freeStrandTenths > 0 && (
                      <Button
                        onClick={() => post('instead', { batchId: other.batchId })}
                        aria-disabled={isBusy || undefined}
                        aria-label={say('Take {name} from {label} instead', {
                          name: other.name,
                          label: other.place?.label ?? say('no place'),
                        })}
                      >
                        {say('Take this')}
                      </Button>
                    )}
                  </li>
                ))}
              </ul>
            </>
          )}
        </>
      )}
      <ButtonRow>
        <Button onClick={() => onFound(row)}>{say('It is there after all')}</Button>
        {row.kind === 'thread' && (
          <Button onClick={() => post('missing', {})} aria-disabled={isBusy || undefined}>
            {say('Report it missing')}
          </Button>
        )}
        <Link href={row.href}>{say('Its page')}</Link>
        <Button kind="quiet" onClick={() => dialog.current?.close()}>
          {say('Leave it and walk on')}
        </Button>
      </ButtonRow>
    </dialog>
  )
}

const dayWords = (at: string): string => dayText(new Date(at), { day: 'numeric', month: 'long', year: 'numeric' })

const verbs: Record<string, string> = sayings({
  receive: 'Came in',
  use: 'Used from',
  take: 'Taken out',
  return: 'Put back',
  move: 'Moved',
  split: 'Parted',
  merge: 'Laid together',
  correct: 'Corrected',
  transfer: 'Passed on',
})

function movedWords(moved: NonNullable<Moved>): string {
  const { at, what, who, from, to } = moved
  const way = [from && say('from {from}', { from }), to && to !== from && say('to {to}', { to })].filter(Boolean).join(' ')
  return [verbs[what] ?? say('Moved'), way, say('on {at}', { at: dayWords(at) }), who ? say('by {who}', { who }) : '']
    .filter(Boolean)
    .join(' ')
}
