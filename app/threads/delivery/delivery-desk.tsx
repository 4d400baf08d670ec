'use client'

import { type FormEvent, useEffect, useRef, useState } from 'react'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { hasWrongCheckDigit } from '#lib/thread/barcode'
import { ThreadBar } from '#trade/thread-bar'
import type { Hex } from '#trade/winding'
import { Button, LinkButton } from '#ui/button'
import { CameraReader } from '#ui/camera-reader'
import { TextField } from '#ui/field'
import { Notice } from '#ui/notice'
import { Section } from '#ui/section'
import { counted } from '#words/amounts'
import threads from '../threads.module.css'
import s from './delivery.module.css'
import { EntryList } from './entry-list'
import { type Card, entryOf, OpenCard } from './open-card'
import { type DeskThread, takenBack } from './queue'
import { lookUp, sendBarcode } from './server-calls'
import { useQueue } from './use-queue'
import { useUnread } from './use-unread'

type DeliveryDeskProps = { ownerId: string; unit: ThreadLengthUnit }

const insteadOfCamera = () => say('Type the digits, or use a hand scanner.')
const cameraWords = () => ({
  open: say('Read bars by camera'),
  hold: say('What the camera sees: hold the bars before it'),
  notSecure: insteadOfCamera(),
  instead: insteadOfCamera(),
})

/** What the last text came to, when it was not one thread. */
type Question = { kind: 'several'; text: string; threads: DeskThread[] } | { kind: 'none'; text: string }

/**
 * Receiving at the drawers: scan or type, see where it goes, say how many, next. Each entry is kept in this browser first and sent at once;
 * what finds no connection is sent when there is one.
 */
export function DeliveryDesk({ ownerId, unit }: DeliveryDeskProps) {
  const { entries, isLost, put, drop } = useQueue(ownerId)
  const { unread, addUnread, dropUnread } = useUnread()
  const [card, setCard] = useState<Card | null>(null)
  const [question, setQuestion] = useState<Question | null>(null)
  /** Bars nobody has named yet: the next thread chosen is theirs. */
  const [bars, setBars] = useState<string | null>(null)
  const [said, setSaid] = useState('')
  const [isLooking, setIsLooking] = useState(false)
  const field = useRef<HTMLFormElement>(null)
  const cardForm = useRef<HTMLFormElement>(null)
  const lineId = useRef<string | null>(null)

  // What lies open is not put in yet: the browser asks before the page is left.
  const isOpen = card !== null
  useEffect(() => {
    if (!isOpen) return
    const ask = (event: BeforeUnloadEvent) => event.preventDefault()
    window.addEventListener('beforeunload', ask)
    return () => window.removeEventListener('beforeunload', ask)
  }, [isOpen])

  const toField = () => {
    field.current?.reset()
    field.current?.querySelector('input')?.focus()
  }

  const open = async (thread: DeskThread, text: string, count: number) => {
    lineId.current = thread.lineId
    setQuestion(null)
    setCard((before) => ({ thread, text: bars ?? text, count, turn: (before?.turn ?? 0) + 1 }))
    setSaid(
      say('{title}. {rest}.', {
        title: thread.title,
        rest: thread.homes[0] ? say('Goes to {label}', { label: thread.homes[0].label }) : say('No place yet'),
      }),
    )
    if (bars === null) return
    setBars(null)
    const answer = await sendBarcode(bars, thread.threadId)
    if (answer.kind === 'done') setSaid(say('These bars are {title} from now on.', { title: thread.title }))
    else
      setSaid(
        answer.kind === 'refused' ? answer.said : say('No connection: the bars were not remembered, and are asked for again.'),
      )
  }

  /** What lies open goes in, as its fields stand. */
  const putIn = () => {
    if (!card || !cardForm.current) return
    const made = { ownerId, entryId: newEntryId(), at: Date.now() }
    const entry = entryOf(card, new FormData(cardForm.current), made)
    put(entry)
    setCard(null)
    setSaid(say('{counted} of {title} put in.', { counted: counted(entry.wholePutUps, entry.calledWord), title: entry.title }))
  }

  const read = async (text: string, count = 1) => {
    const typed = text.trim()
    if (typed === '') {
      putIn()
      return toField()
    }
    if (card?.text === typed) {
      setCard({ ...card, count: card.count + count })
      setSaid(counted(card.count + count, card.thread.putUpWord))
      return toField()
    }
    putIn()
    toField()
    setIsLooking(true)
    const found = await lookUp(typed, ownerId, lineId.current)
    setIsLooking(false)
    if (!found) {
      addUnread(typed, count)
      return setSaid(say('No connection: {typed} is written down below, to be looked up later.', { typed }))
    }
    dropUnread(typed)
    const [first] = found.threads
    if (first && found.threads.length === 1) return open(first, typed, count)
    if (first) return setQuestion({ kind: 'several', text: typed, threads: found.threads })
    if (found.isBarcode && bars === null) {
      setQuestion(null)
      return setBars(typed)
    }
    setQuestion({ kind: 'none', text: typed })
  }

  const send = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault()
    read(String(new FormData(event.currentTarget).get('text') ?? ''))
  }
  const waiting = entries.filter(({ state }) => state === 'waiting' || state === 'leaving').length
  return (
    <div className={s.desk}>
      <form ref={field} className={s.find} onSubmit={send} aria-label={say('Find the thread')}>
        <TextField
          name="text"
          label={bars === null ? say('Code, name or barcode') : say('Code or name of the thread with these bars')}
          hint={
            card
              ? say('Enter alone puts in what lies open; the same again counts one more.')
              : say('Then Enter. A hand scanner sends it by itself.')
          }
          maxLength={200}
          autoFocus
        />
        <Button type="submit">{isLooking ? say('Looking') : say('Look')}</Button>
      </form>
      <CameraReader kind="bars" words={cameraWords()} onRead={(text) => void read(text)} />
      <p role="status" className={s.said}>
        {said}
      </p>
      {bars !== null && (
        <Notice
          kind="caution"
          title={say('Nobody has said yet which thread has the bars {bars}.', { bars })}
          actions={<Button onClick={() => setBars(null)}>{say('Leave it')}</Button>}
        >
          {hasWrongCheckDigit(bars) && <p>{say('Its last digit does not fit the others: look whether it was read right.')}</p>}
          <p>{say('Type the thread’s code or name: it is remembered, and asked once only.')}</p>
        </Notice>
      )}
      {question?.kind === 'none' && (
        <Notice
          kind="refusal"
          title={say('No thread is called {text}.', { text: question.text })}
          actions={<LinkButton href="/threads/new">{say('Add a thread')}</LinkButton>}
        >
          {say('Codes are exact, zeros and all. Maker or line may stand before the code, or type part of its name.')}
        </Notice>
      )}
      {question?.kind === 'several' && (
        <Section
          title={say('Which one?')}
          note={say('{threads} are called {text}.', { threads: question.threads.length, text: question.text })}
        >
          <ul className={s.choices}>
            {question.threads.map((thread) => (
              <li key={thread.threadId}>
                <Button
                  onClick={() => {
                    void open(thread, question.text, 1)
                    toField()
                  }}
                >
                  <ThreadBar hexes={thread.hex ? [thread.hex as Hex] : []} dye={thread.isSolid ? 'solid' : 'overdyed'} />
                  {thread.title}
                  {thread.homes[0] && ` (${thread.homes[0].label})`}
                </Button>
              </li>
            ))}
          </ul>
        </Section>
      )}
      {card && (
        <OpenCard
          key={card.turn}
          card={card}
          unit={unit}
          form={cardForm}
          onCount={(count) => setCard({ ...card, count })}
          onPutIn={() => {
            putIn()
            toField()
          }}
          onLeave={() => {
            setCard(null)
            setSaid(say('Left as it was.'))
            toField()
          }}
        />
      )}
      {isLost && waiting > 0 && (
        <Notice
          kind="caution"
          title={say('No connection. {waiting, plural, one {# entry} other {# entries}} kept in this browser.', { waiting })}
        >
          {say('Go on: they are sent by themselves when there is one, and none is received twice.')}
        </Notice>
      )}
      {unread.length > 0 && (
        <Section title={say('Written down, not looked up yet')}>
          <ul className={threads.list}>
            {unread.map(({ text, count }) => (
              <li key={text}>
                <span>{sayParts('{count} of {text}', { count: <b>{count}</b>, text })}</span>
                <span>
                  <Button onClick={() => void read(text, count)}>
                    {sayParts('Look up{text}', { text: <span className="vh"> {text}</span> })}
                  </Button>{' '}
                  <Button kind="quiet" onClick={() => dropUnread(text)}>
                    {sayParts('Drop it{text}', { text: <span className="vh"> {text}</span> })}
                  </Button>
                </span>
              </li>
            ))}
          </ul>
        </Section>
      )}
      <EntryList
        entries={entries}
        onTakeBack={(entry) => put(takenBack(entry))}
        onAgain={(entry) => put({ ...entry, state: 'waiting', said: null })}
        onDrop={drop}
      />
    </div>
  )
}

/** A UUID, also where the page came over a connection that is not secure and `randomUUID` is kept back. */
function newEntryId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16))
  bytes[6] = ((bytes[6] as number) & 0x0f) | 0x40
  bytes[8] = ((bytes[8] as number) & 0x3f) | 0x80
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('')
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join('-')
}
