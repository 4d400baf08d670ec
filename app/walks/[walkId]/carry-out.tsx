'use client'

import { useRouter } from 'next/navigation'
import { type FormEvent, useEffect, useSyncExternalStore } from 'react'
import { say } from '#language/say'
import type { LeftWhy } from '#lib/project/walk-carry'
import { Button } from '#ui/button'
import { Suggestions, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Notice } from '#ui/notice'
import { Section } from '#ui/section'
import { listed } from '#words/amounts'
import { leftWords } from '#words/walk'
import {
  dropCarryOut,
  isSettled,
  keepCarryOut,
  sendCarryOut,
  type WaitingCarryOut,
  waitingCarryOuts,
} from '../../_ticks/carry-outs'
import { onTicks } from '../../_ticks/tick-queue'
import s from '../../_ticks/ticked-list.module.css'
import { carryOutAction } from '../actions'
import type { DeskBag, DeskLine } from './rows'

type CarryOutProps = {
  walkId: string
  isPull: boolean
  /** What is ticked and not on the record. */
  inHand: readonly DeskLine[]
  waiting: number
  isConnected: boolean
  nameOf: (lineId: string) => string | undefined
  bags: readonly DeskBag[]
  bagSuggestions: readonly string[]
  who: string | null
}

const none: readonly WaitingCarryOut[] = []
const againMs = 5_000

/** What is ticked becomes so on the record: at once, or said here and written down as soon as there is a connection. */
export function CarryOut({ walkId, isPull, inHand, waiting, isConnected, nameOf, bags, bagSuggestions, who }: CarryOutProps) {
  const router = useRouter()
  const carries = useSyncExternalStore(
    onTicks,
    () => waitingCarryOuts(walkId),
    () => none,
  )
  const toSend = carries.filter((carry) => !isSettled(carry))
  const isWaiting = toSend.length > 0

  useEffect(() => {
    if (!isWaiting || !isConnected) return
    let isGone = false
    const send = async () => {
      const sent = await sendCarryOut(walkId)
      if (!isGone && sent.kind !== 'no-connection') router.refresh()
    }
    void send()
    const again = setInterval(() => void send(), againMs)
    return () => {
      isGone = true
      clearInterval(again)
    }
  }, [isWaiting, isConnected, walkId, router])

  const said = new Set(toSend.flatMap(({ lineIds }) => lineIds))
  const open = inHand.filter(({ id }) => !said.has(id))
  const filled = new Set(open.map(({ projectId }) => projectId))
  const named = new Map(toSend.flatMap((carry) => carry.bags.map(({ projectId, label }) => [projectId, label] as const)))
  const going = bags.flatMap((bag) =>
    filled.has(bag.projectId) ? [{ ...bag, label: bag.label ?? named.get(bag.projectId) ?? null }] : [],
  )
  const unnamed = going.filter(({ label }) => label === null)
  const submit = isPull ? say('They are in: write it on the record') : say('They are back: write it on the record')
  const keep = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault()
    const form = new FormData(event.currentTarget)
    const labels = going.flatMap(({ projectId, label }) => {
      const text = label ?? String(form.get(`bag-${projectId}`) ?? '').trim()
      return text === '' || bags.some((bag) => bag.projectId === projectId && bag.label !== null)
        ? []
        : [{ projectId, label: text.slice(0, 60) }]
    })
    keepCarryOut(walkId, {
      // Not by `randomUUID`: a shop's own network is no secure context.
      lineId: [...crypto.getRandomValues(new Uint8Array(16))].map((byte) => byte.toString(16).padStart(2, '0')).join(''),
      ...{ status: 'carry-out', tickedAt: new Date().toISOString(), by: who, lineIds: open.map(({ id }) => id), bags: labels },
    })
  }
  const fields = (
    <>
      {isPull && going.length > unnamed.length && (
        <p>
          {going
            .filter(({ label }) => label !== null)
            .map(({ title, label }) => say('{title} into {label}', { title, label }))
            .join('; ')}
          .
        </p>
      )}
      {isPull &&
        unnamed.map(({ projectId, title }) => (
          <TextField
            key={projectId}
            name={`bag-${projectId}`}
            label={say('Bag of {title}', { title })}
            hint={say('A label that is new becomes a bag')}
            width="half"
            suggestionsId="bag-labels"
            maxLength={60}
            isRequired
          />
        ))}
      {isPull && unnamed.length > 0 && <Suggestions id="bag-labels" suggestions={bagSuggestions} />}
    </>
  )
  return (
    <div className={s.screen}>
      {carries.filter(isSettled).map((carry) => (
        <Notice
          key={carry.lineId}
          kind={carry.refusal === undefined ? 'caution' : 'refusal'}
          title={settledWords(carry, nameOf)}
          actions={<Button onClick={() => dropCarryOut(walkId, carry)}>{say('I have seen it')}</Button>}
        />
      ))}
      {isWaiting && (
        <Section
          title={say('To be written on the record')}
          note={say('{said, plural, one {# line} other {# lines}}, as soon as there is a connection', { said: said.size })}
        >
          <p role="status">
            {waiting > 0
              ? say(
                  'First {waiting, plural, one {# tick is} other {# ticks are}} sent, then it is written down. You need not wait for it.',
                  {
                    waiting,
                  },
                )
              : isConnected
                ? say('It is being written down.')
                : say('It is kept on this device, and written down from whatever page is open then.')}
          </p>
          <Button kind="quiet" onClick={() => toSend.forEach((carry) => void dropCarryOut(walkId, carry))}>
            {say('Do not write it down yet')}
          </Button>
        </Section>
      )}
      {open.length > 0 && (
        <Section
          title={isPull ? (going.length > 1 ? say('These are in the bags') : say('These are in the bag')) : say('These are back')}
          note={say('{inHand} ticked, not yet on the record', { inHand: open.length })}
        >
          {isConnected && !isWaiting && waiting > 0 ? (
            <p>{say('The ticks that wait on this device have to be sent first.')}</p>
          ) : !isConnected || isWaiting ? (
            <form className={s.carry} onSubmit={keep} aria-label={say('Carry out what is ticked')}>
              {fields}
              <p className="quiet">{say('Without a connection it waits here, and is written down as soon as there is one.')}</p>
              <Button type="submit">{submit}</Button>
            </form>
          ) : (
            <Form
              action={carryOutAction}
              hidden={{ walkId, who: who ?? '' }}
              submit={submit}
              pending={say('Writing it down')}
              label={say('Carry out what is ticked')}
            >
              {fields}
            </Form>
          )}
        </Section>
      )}
    </div>
  )
}

const mostNamed = 5

/** What became of it once there was a connection, where that is not simply what was said. */
function settledWords({ refusal, left = [] }: WaitingCarryOut, nameOf: CarryOutProps['nameOf']): string {
  if (refusal !== undefined) return say('It was not written on the record: {refusal}', { refusal })
  const named = left
    .slice(0, mostNamed)
    .map(({ lineId, why }) =>
      say('{rest}, because {left}', { rest: nameOf(lineId) ?? say('a line'), left: leftWords[why as LeftWhy] ?? why }),
    )
  if (left.length > named.length) named.push(say('{left} more', { left: left.length - named.length }))
  return say('Written on the record. Left as it was: {named}.', { named: listed(named) })
}
