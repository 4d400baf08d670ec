'use client'

import { useEffect, useId, useRef, useState } from 'react'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { NamedThread, ReadKeyLine } from '#lib/chart/key-text/reading'
import type { LinePlace } from '#lib/chart/key-text/teach'
import { standingOf } from '#lib/chart/reading-fields'
import { type Stitch, stitches } from '#lib/thread/stitches'
import { ThreadName } from '#trade/thread-bar'
import { Button, ButtonRow } from '#ui/button'
import { midSentence } from '#words/capital'
import { stitchWords } from '../../../_charts/key-texts'
import { findThreadsAction, type ThreadFound } from '../../../_reading/actions'
import type { ThreadShown } from '../../../_reading/review-shown'
import { fieldCorrection, sentAmount } from './corrections'
import { useDesk } from './desk-context'
import { FieldInput } from './field-input'
import s from './line-editor.module.css'
import review from './review.module.css'

type LineEditorProps = { line: ReadKeyLine; place: LinePlace; makersId: string; linesId: string; close: () => void }

/** All of one line: which thread is meant, how it is called, what it is worked in. */
export function LineEditor({ line, place, makersId, linesId, close }: LineEditorProps) {
  const { correct } = useDesk()
  const number = place.line + 1
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: Escape closes it from whatever in it has the focus
    <div
      className={s.editor}
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return
        event.stopPropagation()
        close()
      }}
    >
      {line.threads.map((_, thread) => (
        <ThreadEditor
          // biome-ignore lint/suspicious/noArrayIndexKey: a thread of a blend is known by its place in it
          key={thread}
          line={line}
          place={place}
          thread={thread}
          makersId={makersId}
          linesId={linesId}
          close={close}
        />
      ))}
      <StitchKinds line={line} place={place} />
      <ButtonRow>
        <Button onClick={close}>{say('Close')}</Button>
        <Button onClick={() => void correct([fieldCorrection(place, { field: 'add thread' })])}>
          {line.threads.length === 0 ? say('Add its thread') : say('Blend: add a thread')}
        </Button>
        <Button onClick={() => void correct([{ kind: 'remove line', place }])}>
          {say('It is no line of the key: take it out')}
        </Button>
      </ButtonRow>
      <p className="vh">{sayParts('Line {number}', { number })}</p>
    </div>
  )
}

const namingParts = () =>
  [
    { part: 'maker', label: say('Maker') },
    { part: 'threadLine', label: say('Line') },
    { part: 'code', label: say('Code') },
    { part: 'name', label: say('Name') },
  ] as const satisfies readonly { part: keyof NamedThread; label: string }[]

type ThreadEditorProps = Omit<LineEditorProps, never> & { thread: number }

function ThreadEditor({ line, place, thread, makersId, linesId, close }: ThreadEditorProps) {
  const { shown, correct } = useDesk()
  const first = useRef<HTMLDivElement>(null)
  const read = line.threads[thread]
  // Opened, the first thing to choose or to fill in has the caret.
  useEffect(() => {
    if (thread === 0) first.current?.querySelector<HTMLElement>('button, input')?.focus()
  }, [thread])
  if (!read) return null
  const { named, match } = read
  const number = place.line + 1
  const choose = (threadId: string | null) => {
    void correct([fieldCorrection(place, { field: 'match', thread, threadId }, threadId !== null)])
    if (threadId !== null && line.threads.length === 1) close()
  }
  const candidates = match.kind === 'several' ? match.threadIds : []
  return (
    <div className={s.threadEditor} ref={first}>
      {line.threads.length > 1 && <h4>{say('Thread {thread} of the blend', { thread: thread + 1 })}</h4>}
      {candidates.length > 0 && (
        <div>
          <p>{say('It may be one of these:')}</p>
          <ul className={s.candidates}>
            {candidates.map((id) => {
              const one = shown.threads[id]
              return one && <Candidate key={id} thread={one} choose={() => choose(id)} />
            })}
          </ul>
        </div>
      )}
      <div className={s.naming}>
        {namingParts().map(({ part, label }) => (
          <div key={part} data-part={part}>
            <span className={review.factLabel}>{label}</span>
            <FieldInput
              label={say('Line {number}, {midSentence}', { number, midSentence: midSentence(label) })}
              value={named[part]?.value ?? ''}
              standing={standingOf(named[part])}
              column={`editor-${part}`}
              read={(text) => ({
                ok: true,
                corrections: [
                  fieldCorrection(place, { field: part, thread, value: text.trim().slice(0, 200) || null }, part !== 'name'),
                ],
              })}
              accept={() => {
                const value = named[part]?.value
                if (value) void correct([fieldCorrection(place, { field: part, thread, value })])
              }}
              from={line.from}
              suggestionsId={part === 'maker' ? makersId : part === 'threadLine' ? linesId : undefined}
            />
          </div>
        ))}
      </div>
      <FindThread
        number={number}
        begin={[named.maker?.value, named.name?.value ?? named.code?.value].filter(Boolean).join(' ')}
        choose={choose}
      />
      <ButtonRow>
        {match.kind !== 'new' && (
          <Button onClick={() => choose(null)}>{say('None of the collection: it is a new thread')}</Button>
        )}
        {line.threads.length > 1 && (
          <Button onClick={() => void correct([fieldCorrection(place, { field: 'remove thread', thread })])}>
            {say('Take it out of the blend')}
          </Button>
        )}
      </ButtonRow>
    </div>
  )
}

function Candidate({ thread, choose }: { thread: ThreadShown; choose: () => void }) {
  return (
    <li>
      <button type="button" className={s.candidate} onClick={choose}>
        <ThreadName
          maker={`${thread.maker} ${thread.line}`}
          code={thread.code}
          name={thread.name}
          hexes={thread.hexes}
          dye={thread.dye}
        />
      </button>
    </li>
  )
}

const pauseMs = 200

/** Looks for a thread of the collection by some words while they are typed. */
function FindThread({ number, begin, choose }: { number: number; begin: string; choose: (threadId: string) => void }) {
  const id = useId()
  const [words, setWords] = useState('')
  const [found, setFound] = useState<ThreadFound[]>([])
  useEffect(() => {
    let isGone = false
    if (words.trim() === '') {
      setFound([])
      return
    }
    const timer = setTimeout(async () => {
      const threads = await findThreadsAction(words).catch(() => [])
      if (!isGone) setFound(threads)
    }, pauseMs)
    return () => {
      isGone = true
      clearTimeout(timer)
    }
  }, [words])
  return (
    <div>
      <label className={review.factLabel} htmlFor={id}>
        {say('Find the thread on record')}
      </label>
      <input
        id={id}
        className={review.input}
        type="search"
        autoComplete="off"
        placeholder={begin}
        value={words}
        aria-label={say('Line {number}, find the thread on record', { number })}
        onChange={(event) => setWords(event.target.value)}
        onKeyDown={(event) => {
          if (event.key !== 'Enter') return
          event.preventDefault()
          const [only] = found
          if (only) choose(only.id)
        }}
      />
      <ul className={s.candidates} aria-label={say('Threads found')}>
        {found.map((one) => (
          <Candidate key={one.id} thread={one} choose={() => choose(one.id)} />
        ))}
      </ul>
      {words.trim() !== '' && found.length === 0 && <p className="quiet">{say('None is found by that.')}</p>}
    </div>
  )
}

/** What each counted amount is worked in; without one, what the line is worked in. */
function StitchKinds({ line, place }: { line: ReadKeyLine; place: LinePlace }) {
  const { correct } = useDesk()
  const number = place.line + 1
  const counted = line.amounts.flatMap((amount, at) => (amount.kind === 'stitches' ? [{ amount, at }] : []))
  const options = stitches.map((stitch) => (
    <option key={stitch} value={stitch}>
      {stitchWords[stitch]}
    </option>
  ))
  if (counted.length === 0)
    return (
      <label className={s.kinds}>
        <span className={review.factLabel}>{say('Worked in')}</span>
        <select
          className={review.input}
          aria-label={say('Line {number}, worked in', { number })}
          value={line.stitches?.value[0] ?? ''}
          onChange={({ target }) => {
            const value = target.value === '' ? null : [target.value as Stitch]
            void correct([fieldCorrection(place, { field: 'stitches', value }, true)])
          }}
        >
          <option value="">{say('not said')}</option>
          {options}
        </select>
      </label>
    )
  return counted.map(({ amount, at }) => (
    <label key={at} className={s.kinds}>
      <span className={review.factLabel}>{say('{count, number} are', { count: amount.count.value })}</span>
      <select
        className={review.input}
        aria-label={say('Line {number}, what {count} are', { number, count: amount.count.value })}
        value={amount.stitch}
        onChange={({ target }) => {
          const value = line.amounts.map(sentAmount)
          value[at] = { kind: 'stitches', stitch: target.value as Stitch, count: amount.count.value }
          void correct([fieldCorrection(place, { field: 'amounts', value })])
        }}
      >
        {options}
      </select>
    </label>
  ))
}
