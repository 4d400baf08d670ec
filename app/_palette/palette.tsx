'use client'

import { useRouter } from 'next/navigation'
import { type KeyboardEvent, type MouseEvent, useEffect, useId, useMemo, useRef, useState } from 'react'
import { say } from '#language/say'
import { PlaceLabel } from '#trade/place-label'
import { type Asked, askFor, askStanding, type Standing } from './ask'
import { doingsFor } from './doings'
import { type Entry, type EntryGroup, kindWords, offeredFor } from './entries'
import s from './palette.module.css'
import { keepRecent, readRecent } from './recent'

export type PaletteProps = {
  screens: readonly { href: string; label: string }[]
  /** Whose goods are looked at. */
  ownerIds: readonly string[]
  mayChange: boolean
  mayKeep: boolean
  /** Several people sign in here. */
  isShared: boolean
  onClose: () => void
}

/** After the last letter; shorter, and a word is asked for letter by letter. */
const pauseMs = 120
const shownRecent = 3
const mostPlaces = 3

type Found = { words: string; asked: Asked<Entry[]> }

/** “Go to or do”: one field that finds things with their places, screens, and what can be done at once; all of it by keyboard. */
export function Palette({ screens, ownerIds, mayChange, mayKeep, isShared, onClose }: PaletteProps) {
  const router = useRouter()
  const dialog = useRef<HTMLDialogElement>(null)
  const field = useRef<HTMLInputElement>(null)
  const list = useRef<HTMLDivElement>(null)
  const id = useId()
  const [typed, setTyped] = useState('')
  const [found, setFound] = useState<Found | null>(null)
  const [standing, setStanding] = useState<Asked<Standing> | null>(null)
  const [recent, setRecent] = useState<Entry[]>([])
  const [at, setAt] = useState(0)
  const words = typed.trim()

  useEffect(() => {
    dialog.current?.showModal()
    field.current?.focus()
    setRecent(readRecent(isShared).slice(0, shownRecent))
  }, [isShared])

  useEffect(() => {
    const stop = new AbortController()
    askStanding(ownerIds, mayChange, stop.signal).then(setStanding, () => {})
    return () => stop.abort()
  }, [ownerIds, mayChange])

  useEffect(() => {
    if (words === '') return
    const stop = new AbortController()
    const timer = setTimeout(() => {
      askFor(words, { ownerIds, mayChange }, stop.signal).then(
        (asked) => setFound({ words, asked }),
        () => {},
      )
    }, pauseMs)
    return () => {
      clearTimeout(timer)
      stop.abort()
    }
  }, [words, ownerIds, mayChange])

  const stands = standing?.kind === 'answered' ? standing.value : null
  const doings = useMemo(
    () => [...(stands?.atWork ?? []), ...doingsFor(screens, { mayChange, mayKeep }), ...(stands?.byCloth ?? [])],
    [stands, screens, mayChange, mayKeep],
  )
  // While a longer word is asked for, what the shorter one found stays: rows that come and go are hard to aim at.
  const hits = words !== '' && found?.asked.kind === 'answered' ? found.asked.value : []
  const isAnswered = words === '' || found?.words === words
  const groups = words === '' ? openingGroups(recent, stands, doings) : offeredFor(words, hits, doings)
  const entries = groups.flatMap((group) => group.entries)
  const current = Math.min(at, entries.length - 1)

  const go = (entry: Entry) => {
    if (entry.kind !== 'To do' && entry.kind !== 'Screen') keepRecent(entry, isShared)
    dialog.current?.close()
    router.push(entry.href)
  }
  const moveTo = (next: number) => {
    setAt(next)
    list.current?.querySelectorAll('[role=option]')[next]?.scrollIntoView({ block: 'nearest' })
  }
  const onKey = (event: KeyboardEvent) => {
    if (event.nativeEvent.isComposing || entries.length === 0) return
    if (event.key === 'ArrowDown') moveTo((current + 1) % entries.length)
    else if (event.key === 'ArrowUp') moveTo((current - 1 + entries.length) % entries.length)
    else if (event.key === 'PageDown') moveTo(Math.min(current + 8, entries.length - 1))
    else if (event.key === 'PageUp') moveTo(Math.max(current - 8, 0))
    else if (event.key === 'Enter') {
      // Until the answer to what is typed is there, Enter would open what was found for something else.
      const chosen = entries[current]
      if (chosen && (isAnswered || chosen.kind === 'To do' || chosen.kind === 'Screen')) go(chosen)
    } else return
    event.preventDefault()
  }

  let turn = 0
  return (
    <dialog
      ref={dialog}
      className={s.dialog}
      aria-labelledby={`${id}-title`}
      onClose={onClose}
      // A tap beside it closes it, where the browser knows of that.
      closedby="any"
    >
      <div className={s.in}>
        <div className={s.head}>
          <label id={`${id}-title`} htmlFor={`${id}-field`}>
            {say('Go to or do')}
          </label>
          <button type="button" onClick={() => dialog.current?.close()}>
            {say('Close')}
          </button>
        </div>
        <input
          ref={field}
          id={`${id}-field`}
          className={s.field}
          type="text"
          role="combobox"
          aria-expanded={entries.length > 0}
          aria-controls={`${id}-list`}
          aria-activedescendant={entries.length > 0 ? `${id}-${current}` : undefined}
          aria-autocomplete="list"
          aria-describedby={`${id}-said`}
          autoComplete="off"
          autoCapitalize="none"
          spellCheck={false}
          enterKeyHint="go"
          placeholder={say('rook, 0311, T2.1, finish …')}
          value={typed}
          onChange={(event) => {
            setTyped(event.target.value)
            setAt(0)
          }}
          onKeyDown={onKey}
        />
        <p className={s.said} id={`${id}-said`} role="status">
          {saidOf({ words, found, isAnswered, standing, count: entries.length })}
        </p>
        <div ref={list} id={`${id}-list`} className={s.list} role="listbox" aria-label={say('What there is to go to or to do')}>
          {groups.map((group) => (
            // biome-ignore lint/a11y/useSemanticElements: options of a listbox are grouped so
            <div key={group.title} role="group" aria-label={group.title} className={s.group}>
              <p aria-hidden="true" className={s.title}>
                {group.title}
              </p>
              {group.entries.map((entry) => {
                const own = turn++
                return (
                  <Line
                    key={`${entry.href} ${entry.title}`}
                    id={`${id}-${own}`}
                    entry={entry}
                    isCurrent={own === current}
                    onPointed={() => setAt(own)}
                    onGo={(event) => {
                      if (event.ctrlKey || event.metaKey || event.shiftKey) return
                      event.preventDefault()
                      go(entry)
                    }}
                  />
                )
              })}
            </div>
          ))}
        </div>
      </div>
    </dialog>
  )
}

type LineProps = {
  id: string
  entry: Entry
  isCurrent: boolean
  onPointed: () => void
  onGo: (event: MouseEvent) => void
}

function Line({ id, entry: { href, title, kind, note, places = [] }, isCurrent, onPointed, onGo }: LineProps) {
  return (
    <a
      id={id}
      role="option"
      aria-selected={isCurrent}
      tabIndex={-1}
      className={s.line}
      href={href}
      onClick={onGo}
      onPointerMove={onPointed}
    >
      <span className={s.name}>
        {title}
        {note && <small>{note}</small>}
      </span>
      {kind !== 'To do' && <span className={s.kind}>{kindWords[kind] ?? kind}</span>}
      {places.length > 0 && (
        <span className={s.places}>
          <span className="vh">{say('in')} </span>
          {places.slice(0, mostPlaces).map((label) => (
            <PlaceLabel key={label} label={label} />
          ))}
          {places.length > mostPlaces && <small>{say('and {places} more', { places: places.length - mostPlaces })}</small>}
        </span>
      )}
    </a>
  )
}

/** Before anything is typed: where one was lately, what can be stitched, what is under the needle, what else there is to do. */
function openingGroups(recent: readonly Entry[], stands: Standing | null, doings: readonly Entry[]): EntryGroup[] {
  const all: Entry[] =
    stands && stands.stitchableCount > stands.stitchable.length
      ? [
          {
            href: '/charts?stitchableNow=1',
            title: say('All {stitchableCount} that can be stitched now', { stitchableCount: stands.stitchableCount }),
            kind: 'To do',
          },
        ]
      : []
  const groups: EntryGroup[] = [
    { title: say('Lately'), entries: recent },
    { title: say('Stitchable now'), entries: [...(stands?.stitchable ?? []), ...all] },
    { title: say('Stitchable now, by cloth on hand'), entries: stands?.byCloth ?? [] },
    {
      title: say('To do'),
      entries: doings.filter(({ kind }) => kind === 'To do').filter((entry) => !stands?.byCloth.includes(entry)),
    },
    { title: say('Screens'), entries: doings.filter(({ kind }) => kind === 'Screen') },
  ]
  return groups.filter(({ entries }) => entries.length > 0)
}

type Said = {
  words: string
  found: Found | null
  isAnswered: boolean
  standing: Asked<Standing> | null
  count: number
}

function saidOf({ words, found, isAnswered, standing, count }: Said): string {
  const trouble = words === '' ? standing?.kind : found?.asked.kind
  switch (trouble) {
    case 'unreached':
      return say('The record could not be asked: no network. Screens and things to do are offered all the same.')
    case 'signed-out':
      return say('You are signed out. Load the page again to sign in.')
    case 'failed':
      return say('The record could not answer just now. Try again in a moment.')
    case 'answered':
    case undefined:
      if (words === '') return say('Type a title, a code, a label, or what you want to do.')
      if (!isAnswered) return say('Looking …')
      if (count === 0) return say('Nothing found for “{words}”.', { words })
      return count === 1
        ? say('One line. Enter opens it.')
        : say('{count} lines. Enter opens the one marked; the arrows go to others.', { count })
  }
}
