'use client'

import { useRouter } from 'next/navigation'
import { useCallback, useEffect, useRef, useState, useTransition } from 'react'
import { say } from '#language/say'
import s from './find.module.css'

/** How long after the last letter the answer is fetched: shorter, and a word is asked for letter by letter. */
const pauseMs = 180

type FindBoxProps = {
  words: string
  isFocused: boolean
  /** The page that answers, with what else its address says. */
  at?: string
  label?: string
  placeholder?: string
  /** Enter opens the link that is marked as the best answer, once what is typed is answered. */
  opensBest?: boolean
}

/** One box to ask by. Answers come as one types; Enter asks at once and may open the best; without scripts it is sent as a form. */
export function FindBox({
  words,
  isFocused,
  at = '/',
  label = say('Find a chart, thread, cloth, place or project'),
  placeholder = say('rook, 0311, T2.1, 28 linen …'),
  opensBest = false,
}: FindBoxProps) {
  const router = useRouter()
  const [typed, setTyped] = useState(words)
  const [isPending, startTransition] = useTransition()
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined)
  const box = useRef<HTMLInputElement>(null)
  /** What was asked last from here. */
  const asked = useRef(words)
  /** Enter was pressed for these words before their answer was there. */
  const wanted = useRef<string | null>(null)

  const openBest = useCallback(() => {
    wanted.current = null
    document.querySelector<HTMLElement>('main [data-best]')?.click()
  }, [])
  useEffect(() => {
    if (wanted.current === null || isPending) return
    openBest()
  }, [isPending, openBest])
  useEffect(() => {
    if (isFocused) box.current?.focus()
  }, [isFocused])
  useEffect(() => () => clearTimeout(timer.current), [])
  // Led here by a link: what was typed for another page is not asked any more.
  useEffect(() => {
    if (isPending || words === asked.current) return
    asked.current = words
    setTyped(words)
  }, [words, isPending])

  const ask = (text: string) => {
    clearTimeout(timer.current)
    asked.current = text.trim()
    const withWords = `${at}${at.includes('?') ? '&' : '?'}q=${encodeURIComponent(text)}`
    startTransition(() => router.replace(text.trim() === '' ? at : withWords, { scroll: false }))
  }

  return (
    <search>
      <form
        action={at.split('?')[0]}
        className={s.box}
        aria-busy={isPending}
        onSubmit={(event) => {
          event.preventDefault()
          const text = typed.trim()
          if (opensBest && text !== '' && text === words && !isPending) return openBest()
          if (opensBest && text !== '') wanted.current = text
          ask(typed)
        }}
      >
        {[...new URLSearchParams(at.split('?')[1])].map(([name, value]) => (
          <input key={name} type="hidden" name={name} value={value} />
        ))}
        <svg viewBox="0 0 24 24" aria-hidden="true" fill="none" stroke="currentColor" strokeWidth="var(--pen-bold)">
          <circle cx="10" cy="10" r="7" />
          <path d="m15 15 7 7" />
        </svg>
        <label className="vh" htmlFor="find">
          {label}
        </label>
        <input
          ref={box}
          id="find"
          name="q"
          type="search"
          value={typed}
          placeholder={placeholder}
          autoComplete="off"
          enterKeyHint="search"
          onChange={(event) => {
            const { value } = event.target
            setTyped(value)
            wanted.current = null
            clearTimeout(timer.current)
            // Without a connection another page answers, and only once the word is whole: at Enter.
            if (navigator.onLine) timer.current = setTimeout(() => ask(value), pauseMs)
          }}
        />
        {typed !== '' && (
          <button
            type="button"
            onClick={() => {
              setTyped('')
              ask('')
              box.current?.focus()
            }}
          >
            {say('Clear')}
          </button>
        )}
      </form>
    </search>
  )
}
