'use client'

import { useRouter } from 'next/navigation'
import { type FormEvent, type ReactNode, useEffect, useId, useRef, useState, useTransition } from 'react'
import { say } from '#language/say'
import { Button } from './button'
import { Arrow, type Option, Options } from './field'
import s from './form-strip.module.css'

type FormStripProps = {
  /** The page that reads the choices from its address. */
  action: string
  label: string
  /** The choices as one sentence: all that shows on a phone until "Change" is pressed, and on paper. */
  summary: ReactNode
  /** Sent along unseen, such as the order of the list. */
  hidden?: Record<string, string>
  /** The selects, in one ruled row. */
  children: ReactNode
  /** Ticks and figures, in the row under them. */
  second?: ReactNode
  /** Nothing is chosen yet: on a phone too, the choices stand open. */
  startsOpen?: boolean
  /** Link that takes every choice off; left out when there is none to take off. */
  clear?: { href: string; label: string }
}

/** A ruled strip of choices that narrow a list. Each choice goes into the address at once; without scripts a button sends them. */
export function FormStrip({ action, label, summary, hidden, children, second, startsOpen = false, clear }: FormStripProps) {
  const router = useRouter()
  const form = useRef<HTMLFormElement>(null)
  const [isOpen, setIsOpen] = useState(startsOpen)
  const [isPending, startTransition] = useTransition()
  const id = useId()

  const show = () => {
    if (!form.current) return
    const query = new URLSearchParams()
    for (const [name, value] of new FormData(form.current))
      if (typeof value === 'string' && value !== '') query.append(name, value)
    const search = query.toString()
    startTransition(() => router.replace(search ? `${action}?${search}` : action, { scroll: false }))
  }
  useEffect(() => {
    // Asked how large it would be, the browser reckons the hidden choices, so that a press has only to show them.
    const reckon = () => form.current?.lastElementChild?.getBoundingClientRect()
    if (typeof requestIdleCallback === 'undefined') return
    const waiting = requestIdleCallback(reckon)
    return () => cancelIdleCallback(waiting)
  }, [])

  const send = (event: FormEvent) => {
    event.preventDefault()
    show()
  }

  return (
    <div className={s.strip} data-open={isOpen || undefined}>
      <button type="button" className={s.sentence} aria-expanded={isOpen} aria-controls={id} onClick={() => setIsOpen(!isOpen)}>
        <span>{summary}</span>
        <span className={s.change}>{isOpen ? say('Close') : say('Change')}</span>
      </button>
      <form
        id={id}
        ref={form}
        className={s.form}
        action={action}
        aria-label={label}
        aria-busy={isPending}
        onSubmit={send}
        onChange={show}
      >
        {Object.entries(hidden ?? {}).map(([name, value]) => (
          <input key={name} type="hidden" name={name} value={value} />
        ))}
        <p className="vh">{say('Each choice takes effect at once.')}</p>
        <div className={s.row}>{children}</div>
        {(second || clear) && (
          <div className={s.second}>
            {second}
            {clear && (
              <a
                className={s.clear}
                href={clear.href}
                onClick={(event) => {
                  if (event.ctrlKey || event.metaKey || event.shiftKey) return
                  event.preventDefault()
                  startTransition(() => router.replace(clear.href, { scroll: false }))
                }}
              >
                {clear.label}
              </a>
            )}
          </div>
        )}
        {/* Out of sight where scripts run, but Enter in a box still needs a button to press. */}
        <div className={s.send}>
          <Button type="submit">{say('Show')}</Button>
        </div>
      </form>
    </div>
  )
}

/** Keeps what the person sets, and follows the address when that changes by other means, such as going back. */
function useFollowing<Value>(value: Value) {
  const [state, setState] = useState({ given: value, current: value })
  if (state.given !== value) setState({ given: value, current: value })
  return [state.current, (current: Value) => setState({ given: value, current })] as const
}

type StripSelectProps = {
  name: string
  label: ReactNode
  value: string
  options: readonly Option[]
  /** The choice that narrows nothing: "any of 74". */
  any?: string
}

export function StripSelect({ name, label, value, options, any }: StripSelectProps) {
  const [current, setCurrent] = useFollowing(value)
  const id = useId()
  return (
    <div className={s.cell} data-set={current !== '' || undefined}>
      <label htmlFor={id}>{label}</label>
      <select id={id} name={name} value={current} onChange={(event) => setCurrent(event.target.value)}>
        {any !== undefined && <option value="">{any}</option>}
        <Options options={options} />
      </select>
      <Arrow />
    </div>
  )
}

type StripTextProps = { name: string; label: ReactNode; value: string; placeholder?: string }

/** Takes effect on Enter or when left. */
export function StripText({ name, label, value, placeholder }: StripTextProps) {
  const [current, setCurrent] = useFollowing(value)
  const id = useId()
  return (
    // A text box reports every letter as a change; the form hears of it only once it is left.
    <div className={s.cell} data-set={current !== '' || undefined} onChange={(event) => event.stopPropagation()}>
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        name={name}
        type="search"
        autoComplete="off"
        value={current}
        placeholder={placeholder}
        onChange={(event) => setCurrent(event.target.value)}
        onBlur={(event) => {
          if (event.target.value !== value) event.target.form?.requestSubmit()
        }}
      />
    </div>
  )
}

type StripDayProps = { name: string; label: string; value: string }

/** A day as 2026-11-30. While a year is typed it is one of the first thousand, which nobody means. */
export function StripDay({ name, label, value }: StripDayProps) {
  const [current, setCurrent] = useFollowing(value)
  const id = useId()
  return (
    <div className={s.cell} data-set={current !== '' || undefined}>
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        name={name}
        type="date"
        value={current}
        onChange={(event) => {
          setCurrent(event.target.value)
          if (event.target.value.startsWith('0')) event.stopPropagation()
        }}
      />
    </div>
  )
}

type StripCheckProps = { name: string; label: string; isChecked: boolean; value?: string }

export function StripCheck({ name, label, isChecked, value = '1' }: StripCheckProps) {
  const [current, setCurrent] = useFollowing(isChecked)
  return (
    <label className={s.check}>
      <input type="checkbox" name={name} value={value} checked={current} onChange={(event) => setCurrent(event.target.checked)} />
      <span>{label}</span>
    </label>
  )
}

type StripStepProps = {
  name: string
  label: string
  unit: string
  value: number | null
  min?: number
  max?: number
  none?: string
}

/** A small whole number with a step down and up; stepping below `min` takes the choice off. */
export function StripStep({ name, label, unit, value, min = 1, max = 99, none = say('any') }: StripStepProps) {
  const [current, setCurrent] = useFollowing(value)
  const figure = useRef<HTMLInputElement>(null)
  const id = useId()
  const stepTo = (next: number | null) => {
    setCurrent(next)
    if (!figure.current) return
    figure.current.value = next === null ? '' : String(next)
    figure.current.form?.requestSubmit()
  }
  return (
    <div className={s.stepper}>
      <label htmlFor={id}>{label}</label>
      <span className={s.step}>
        <button
          type="button"
          aria-label={say('{label}: fewer', { label })}
          disabled={current === null}
          onClick={() => stepTo(current === null || current <= min ? null : current - 1)}
        >
          −
        </button>
        <input
          id={id}
          ref={figure}
          name={name}
          type="text"
          inputMode="numeric"
          autoComplete="off"
          placeholder={none}
          value={current ?? ''}
          onChange={(event) => {
            const typed = event.target.value.replace(/\D/g, '')
            event.target.value = typed
            setCurrent(typed === '' ? null : Math.min(max, Number(typed)))
          }}
        />
        <button
          type="button"
          aria-label={say('{label}: more', { label })}
          disabled={current !== null && current >= max}
          onClick={() => stepTo(current === null ? min : current + 1)}
        >
          +
        </button>
      </span>
      <span>{unit}</span>
    </div>
  )
}
