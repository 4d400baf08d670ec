'use client'

import { type FormEvent, useEffect, useId, useRef, useState } from 'react'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { formatPrice, parsePrice } from '#lib/quantity/money'
import { parseWholeNumber } from '#lib/quantity/number'
import { Button, ButtonRow } from '#ui/button'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { CheckField, FieldRow, NumberField, TextField } from '#ui/field'
import { Notice } from '#ui/notice'
import { findThreadsOnDevice } from '../../../_offline/threads-on-device'
import s from '../../../_ticks/ticked-list.module.css'
import { removeLineAction } from '../actions'
import type { DeskLine, DeskRow } from './rows'
import { plainly, type SaidHere } from './use-shop-sync'

type BoughtSheetProps = {
  listId: string
  ownerId: string
  currency: string
  /** What is asked about; null while nothing is. */
  row: DeskRow | null
  line: DeskLine | null
  onClose: () => void
  onSaid: (said: SaidHere, insteadName?: string) => void
}

/** So many are offered of those this device knows. */
const mostFound = 12

type Other = { threadId: string; name: string }

const lost = () => say('No connection. Tick it as not there now, and say what you took when the connection is back.')

/** How many were bought, of which lot and for how much; another thread instead; or off the list with it. */
export function BoughtSheet({ listId, ownerId, currency, row, line, onClose, onSaid }: BoughtSheetProps) {
  const dialog = useRef<HTMLDialogElement>(null)
  const headId = useId()
  const [trouble, setTrouble] = useState<string | null>(null)
  const [found, setFound] = useState<readonly Other[]>([])
  const [instead, setInstead] = useState<Other | null>(null)
  const [sought, setSought] = useState('')

  useEffect(() => {
    if (row) dialog.current?.showModal()
  }, [row])

  if (!row) return null
  const tickAs = (said: SaidHere) => {
    dialog.current?.close()
    onSaid(said, instead?.name)
  }
  const save = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault()
    const form = new FormData(event.currentTarget)
    const text = (name: string) => String(form.get(name) ?? '').trim()
    const putUps = text('putUps') === '' ? row.putUps : parseWholeNumber(text('putUps'))
    const paid = text('paid') === '' ? null : (parsePrice(text('paid'))?.minor ?? undefined)
    if (putUps === null || putUps < 1 || putUps > 10_000) return setTrouble(say('How many is a whole number from 1 to 10,000.'))
    if (paid === undefined) return setTrouble(say('What was paid is such as 4.20, or empty.'))
    tickAs({
      ...{ status: instead ? 'instead' : 'bought', boughtPutUps: putUps === row.putUps ? null : putUps, paidMinor: paid },
      ...{ lot: text('lot') || null, place: text('place') || null, insteadThreadId: instead?.threadId ?? null },
      ...{ remembersPrice: form.has('remember') && paid !== null && !instead },
    })
  }
  const look = async () => {
    setTrouble(null)
    try {
      const query = new URLSearchParams({ text: sought, owner: ownerId })
      const response = await fetch(`/api/v1/deliveries/look-up?${query}`, { cache: 'no-store' })
      const body = await response.json()
      if (!response.ok) return setTrouble(typeof body?.detail === 'string' ? body.detail : lost())
      const threads: Other[] = body.threads.map(
        ({ thread }: { thread: { threadId: string; maker: string; line: string; code: string; name: string | null } }) => ({
          threadId: thread.threadId,
          name: [thread.maker, thread.line, thread.code, thread.name].filter(Boolean).join(' '),
        }),
      )
      setFound(threads)
      if (threads.length === 0) setTrouble(say('No thread is called {sought}.', { sought }))
    } catch {
      const known = await findThreadsOnDevice(sought, mostFound)
      if (known === null) return setTrouble(lost())
      setFound(known)
      if (known.length === 0) setTrouble(say('No connection, and no thread this device knows is called {sought}.', { sought }))
    }
  }
  return (
    <dialog ref={dialog} className={s.sheet} aria-labelledby={headId} onClose={onClose}>
      <h2 id={headId}>{row.name}</h2>
      <form onSubmit={save} aria-label={say('What was bought of {name}', { name: row.name })}>
        <p>{sayParts('The list says {amount}.', { amount: row.amount })}</p>
        {instead && (
          <Notice
            kind="done"
            title={say('Instead: {name}.', { name: instead.name })}
            actions={
              <Button kind="quiet" onClick={() => setInstead(null)}>
                {say('Not that one')}
              </Button>
            }
          />
        )}
        <FieldRow>
          <NumberField name="putUps" label={say('How many')} isWhole defaultValue={line?.boughtPutUps ?? row.putUps} />
          <NumberField
            name="paid"
            label={say('Paid for all of it')}
            unit={currency}
            defaultValue={line?.paidMinor == null ? '' : formatPrice(line.paidMinor, null)}
          />
        </FieldRow>
        {row.thread && (
          <>
            <FieldRow>
              <TextField name="lot" label={say('Lot')} defaultValue={line?.lot ?? row.matchLot ?? ''} maxLength={100} />
              <TextField
                name="place"
                label={say('Goes to')}
                hint={
                  row.home
                    ? say('Left empty: {home}.', { home: row.home })
                    : say('Left empty: no place yet. A new label becomes a place.')
                }
                maxLength={100}
              />
            </FieldRow>
            <CheckField name="remember" label={say('Remember the price')} hint={say('As how this line is sold there.')} />
          </>
        )}
        {trouble && <Notice kind="refusal" title={trouble} />}
        <ButtonRow>
          <Button type="submit" kind="first">
            {instead ? say('This was bought instead') : say('Bought')}
          </Button>
          <Button onClick={() => tickAs(plainly('not there'))}>{say('Not there')}</Button>
          {line && line.status !== 'open' && <Button onClick={() => tickAs(plainly('open'))}>{say('Not bought yet')}</Button>}
          <Button kind="quiet" onClick={() => dialog.current?.close()}>
            {say('Leave it')}
          </Button>
        </ButtonRow>
      </form>
      {row.thread && (
        <>
          <h3>{say('Another thread instead')}</h3>
          <form
            onSubmit={(event) => {
              event.preventDefault()
              void look()
            }}
            aria-label={say('Another thread instead')}
          >
            <label className={s.who}>
              <span>{say('Which?')}</span>
              <input type="search" value={sought} maxLength={200} onChange={(event) => setSought(event.target.value)} />
              <Button type="submit">{say('Find')}</Button>
            </label>
          </form>
          {found.length > 0 && (
            <ul className={s.others} aria-label={say('Found')}>
              {found.map((other) => (
                <li key={other.threadId}>
                  <span>{other.name}</span>
                  <Button
                    onClick={() => {
                      setInstead(other)
                      setFound([])
                    }}
                  >
                    {sayParts('Take this{name}', { name: <span className="vh">: {other.name}</span> })}
                  </Button>
                </li>
              ))}
            </ul>
          )}
        </>
      )}
      {line && (line.status === 'open' || line.status === 'not there') && (
        <ConfirmDialog
          opener={say('Take it off the list')}
          openerKind="quiet"
          title={say('Take {name} off the list?', { name: row.name })}
          confirm={say('Take it off')}
          action={removeLineAction}
          hidden={{ listId, lineId: row.id }}
        >
          <p>{say('It is then counted as still to be bought wherever it is needed.')}</p>
        </ConfirmDialog>
      )}
    </dialog>
  )
}
