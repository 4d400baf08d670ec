'use client'

import { useRouter } from 'next/navigation'
import { type FormEvent, type ReactNode, useRef, useTransition } from 'react'
import { say } from '#language/say'
import s from '../cut.module.css'

const address = '/cloth/cut/new'

type LiveFormProps = { label: string; children: ReactNode }

/** The form of a plan of cuts. Each choice goes into the address at once, a text when it is left; without scripts its buttons send them. */
export function LiveForm({ label, children }: LiveFormProps) {
  const router = useRouter()
  const form = useRef<HTMLFormElement>(null)
  const [isPending, startTransition] = useTransition()

  const show = (submitter?: HTMLElement | null) => {
    if (!form.current) return
    const query = new URLSearchParams()
    for (const [name, value] of new FormData(form.current, submitter))
      if (typeof value === 'string' && value !== '') query.append(name, value)
    startTransition(() => router.replace(`${address}?${query}`, { scroll: false }))
  }
  const send = (event: FormEvent) => {
    const { submitter } = event.nativeEvent as SubmitEvent
    // The button that begins the search is answered by the server.
    if (submitter?.hasAttribute('data-begin')) return
    event.preventDefault()
    show(submitter)
  }
  const isText = (target: EventTarget) =>
    target instanceof HTMLInputElement && (target.type === 'text' || target.type === 'search')

  return (
    <form
      ref={form}
      className={s.form}
      action={address}
      aria-label={label}
      aria-busy={isPending}
      onSubmit={send}
      onChange={(event) => {
        if (!isText(event.target)) show()
      }}
      onBlur={(event) => {
        const { target } = event
        if (!(target instanceof HTMLInputElement) || !isText(target) || target.value === target.defaultValue) return
        // What was typed to find or to add something is for its own button.
        if (target.name !== 'q' && target.name !== 'size') show()
      }}
    >
      {/* Enter in a box presses the first button. */}
      <button type="submit" className="vh" tabIndex={-1} aria-hidden="true">
        {say('Take it over')}
      </button>
      {children}
    </form>
  )
}
