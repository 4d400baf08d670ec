'use client'

import { type KeyboardEvent, useId, useRef, useState } from 'react'
import { type FieldStanding, needsLook } from '#lib/chart/reading-fields'
import { standingWords } from '../../../_reading/words'
import { StateMark } from '../state-mark'
import type { Typed } from './corrections'
import { useDesk } from './desk-context'
import s from './review.module.css'

type FieldInputProps = {
  /** "Line 3, strands". */
  label: string
  value: string
  standing: FieldStanding
  /** Arrow keys lead to the same column of the lines above and below. */
  column: string
  /** What was typed, read. */
  read: (text: string) => Typed
  /** Says that it is right as it stands. */
  accept: () => void
  /** The source lines it was read from. */
  from: readonly number[]
  isNumeric?: boolean
  /** What is asked, where the head of a column does not say it: under the field. */
  caption?: string
  suggestionsId?: string
  placeholder?: string
}

/**
 * One field that was read. Left with another text in it, it is corrected; Enter says that it is right, corrected or not, and leads on to
 * the next to be looked at; Escape puts back what was there.
 */
export function FieldInput(props: FieldInputProps) {
  const { label, value, standing, column, read, accept, from, isNumeric, caption, suggestionsId, placeholder } = props
  const { correct, moveOn, setActive } = useDesk()
  const id = useId()
  const [text, setText] = useState(value)
  const [before, setBefore] = useState(value)
  const [wrong, setWrong] = useState<string | null>(null)
  // Entered, a text is on its way; the caret leaving the field is no reason to send it again.
  const sent = useRef<string | null>(null)
  if (before !== value) {
    setBefore(value)
    setText(value)
    setWrong(null)
  }

  /** @returns whether what is typed could be read */
  const keep = (): boolean => {
    if (text.trim() === value.trim() || text === sent.current) {
      setWrong(null)
      return true
    }
    const typed = read(text)
    setWrong(typed.ok ? null : typed.message)
    if (!typed.ok) return false
    sent.current = text
    void correct(typed.corrections).then(() => {
      sent.current = null
    })
    return true
  }
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>) => {
    if (event.nativeEvent.isComposing) return
    if (event.key === 'Escape') {
      setText(value)
      setWrong(null)
    }
    if (event.key !== 'Enter' || event.ctrlKey || event.metaKey) return
    event.preventDefault()
    if (text.trim() === value.trim()) {
      if (needsLook(standing)) accept()
    } else if (!keep()) return
    moveOn(event.currentTarget)
  }

  const isToBeLookedAt = needsLook(standing)
  return (
    <span className={s.field} data-look={isToBeLookedAt || undefined}>
      <input
        className={s.input}
        aria-label={label}
        aria-describedby={`${id}-standing${wrong ? ` ${id}-wrong` : ''}`}
        aria-invalid={wrong ? true : undefined}
        data-field=""
        data-look={isToBeLookedAt ? '' : undefined}
        data-column={column}
        data-numeric={isNumeric || undefined}
        // What is sure is reached by the arrow keys; Tab goes to what is not.
        tabIndex={isToBeLookedAt || wrong ? 0 : -1}
        type="text"
        inputMode={isNumeric ? 'decimal' : undefined}
        autoComplete="off"
        list={suggestionsId}
        placeholder={placeholder}
        value={text}
        onChange={(event) => setText(event.target.value)}
        onFocus={(event) => {
          event.target.select()
          setActive(from)
        }}
        onBlur={keep}
        onKeyDown={onKeyDown}
      />
      <span className={s.under}>
        {caption && <span className={s.caption}>{caption}</span>}
        <StateMark mark={standing} word={standingWords[standing]} id={`${id}-standing`} />
      </span>
      {wrong && (
        <span className={s.wrong} id={`${id}-wrong`} role="alert">
          {wrong}
        </span>
      )}
    </span>
  )
}
