'use client'

import { type FormEvent, type Ref, useId } from 'react'
import { formatDate } from '#language/day'
import { formatThreadLength } from '#language/lengths'
import { say } from '#language/say'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { putUpWords } from '#lib/stock/batch'
import { PlaceLabel } from '#trade/place-label'
import { ThreadBar } from '#trade/thread-bar'
import type { Hex } from '#trade/winding'
import { Button, ButtonRow } from '#ui/button'
import { FieldRow, type Option, SelectField, TextField } from '#ui/field'
import { counted, plural } from '#words/amounts'
import s from './delivery.module.css'
import type { DeskThread, Entry } from './queue'

/** The thread that lies open, the text it was found by, and how many of it are in the hand. */
export type Card = { thread: DeskThread; text: string; count: number; turn: number }

type OpenCardProps = {
  card: Card
  unit: ThreadLengthUnit
  form: Ref<HTMLFormElement>
  onCount: (count: number) => void
  onPutIn: () => void
  onLeave: () => void
}

/** One thread and its home, large; how many; lot, kind of put-up, order. */
export function OpenCard({ card, unit, form, onCount, onPutIn, onLeave }: OpenCardProps) {
  const { thread, count } = card
  const [home] = thread.homes
  const headId = useId()
  const send = (event: FormEvent) => {
    event.preventDefault()
    onPutIn()
  }
  return (
    <form ref={form} className={s.card} onSubmit={send} aria-labelledby={headId} noValidate>
      <h2 id={headId} className={s.title}>
        <ThreadBar hexes={thread.hex ? [thread.hex as Hex] : []} dye={thread.isSolid ? 'solid' : 'overdyed'} size="large" />
        <span>
          {thread.title}
          <small>
            {thread.heldPutUps > 0
              ? say('{counted} held before', { counted: counted(thread.heldPutUps, thread.putUpWord) })
              : say('none held before')}
          </small>
        </span>
      </h2>
      <div className={s.home}>
        {home ? (
          <>
            <PlaceLabel label={home.label} isLarge />
            <span className={s.path}>{home.pathText}</span>
          </>
        ) : (
          <p>{say('It has no place yet: say below where it goes.')}</p>
        )}
      </div>
      <div className={s.count}>
        <Button aria-label={say('One fewer')} onClick={() => onCount(Math.max(1, count - 1))} disabled={count === 1}>
          −1
        </Button>
        <output className={s.figure} aria-live="polite">
          {counted(count, thread.putUpWord)}
        </output>
        <Button aria-label={say('One more')} onClick={() => onCount(count + 1)}>
          +1
        </Button>
      </div>
      <FieldRow>
        <TextField
          name="lot"
          label={say('Lot')}
          hint={thread.lotsMatter ? say('Lots matter here: read it off the band.') : say('If the band has one.')}
          suggestions={thread.lots}
          maxLength={100}
        />
        <SelectField name="putUp" label={say('Put-up')} options={putUpOptions(thread, unit)} />
      </FieldRow>
      <FieldRow>
        <TextField
          name="home"
          label={say('Goes to')}
          hint={home ? say('Another place, if it is to live there.') : say('The label of its drawer, box or ring.')}
          defaultValue={home?.label ?? ''}
          suggestions={thread.homes.map(({ label }) => label)}
          maxLength={100}
        />
        {thread.orders.length > 0 && (
          <SelectField
            name="order"
            label={say('Came by')}
            options={thread.orders.map(({ orderId, putUps, receivedPutUps, orderedOn, supplier }) => ({
              value: orderId,
              label: say('order of {orderedOn}{rest}: {receivedPutUps} of {putUps} come', {
                orderedOn: formatDate(orderedOn),
                rest: supplier ? `, ${supplier}` : '',
                receivedPutUps,
                putUps,
              }),
            }))}
            defaultValue={thread.orders[0]?.orderId}
            none={say('no order')}
          />
        )}
      </FieldRow>
      <ButtonRow>
        <Button kind="first" type="submit">
          {say('Put in {counted}', { counted: counted(count, thread.putUpWord) })}
        </Button>
        <Button kind="quiet" onClick={onLeave}>
          {say('Leave it')}
        </Button>
      </ButtonRow>
    </form>
  )
}

/** The kinds it has come in, then the other words there are for one, of the line's own length. */
function putUpOptions(thread: DeskThread, unit: ThreadLengthUnit): Option[] {
  const nameOf = (word: string | null, strandTenths: number) =>
    say('{plural} of {strand}', {
      plural: plural(word ?? thread.putUpWord),
      strand: formatThreadLength(strandTenths / thread.strands, unit),
    })
  const known = thread.putUps.map(({ word, strandTenths }) => ({
    value: JSON.stringify([word, strandTenths]),
    label: nameOf(word, strandTenths),
  }))
  const own = thread.putUps[0]?.strandTenths
  if (own === undefined) return known
  const others = putUpWords
    .filter((word) => word !== thread.putUpWord && !thread.putUps.some((putUp) => putUp.word === word))
    .map((word) => ({ value: JSON.stringify([word, own]), label: nameOf(word, own) }))
  return [...known, ...others]
}

/** What a card and its fields say, as an entry that is yet to be sent. */
export function entryOf(card: Card, fields: FormData, made: { ownerId: string; entryId: string; at: number }): Entry {
  const { thread, count } = card
  const text = (name: string) => String(fields.get(name) ?? '').trim()
  const homeLabel = text('home')
  const [word, strandTenths] = JSON.parse(text('putUp') || '[null,null]') as [string | null, number | null]
  const isLinesOwn = word === null && strandTenths === thread.putUps[0]?.strandTenths
  return {
    ...made,
    threadId: thread.threadId,
    title: thread.title,
    homePlaceId: thread.homes.find(({ label }) => label === homeLabel)?.placeId ?? null,
    homeLabel,
    wholePutUps: count,
    lot: text('lot') || null,
    putUpWord: word,
    calledWord: word ?? thread.putUpWord,
    putUpStrandTenths: isLinesOwn ? null : strandTenths,
    orderId: text('order') || null,
    state: 'waiting',
    tries: 0,
    said: null,
  }
}
