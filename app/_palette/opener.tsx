'use client'

import { usePathname } from 'next/navigation'
import { type ComponentType, useCallback, useEffect, useRef, useState } from 'react'
import { say } from '#language/say'
import { thingOfPage } from './entries'
import s from './opener.module.css'
import type { PaletteProps } from './palette'
import { keepRecent } from './recent'

type OpenerProps = Omit<PaletteProps, 'onClose'>

/** The title of a window follows its page a moment later. */
const titleMs = 800

/**
 * The mark in the head that opens “Go to or do”, and Ctrl+K or ⌘K from anywhere. The dialog itself is fetched when it is first asked for;
 * what is typed meanwhile is not lost, since the dialog takes the caret as soon as it is there.
 */
export function PaletteOpener(props: OpenerProps) {
  const { isShared } = props
  const [Palette, setPalette] = useState<ComponentType<PaletteProps> | null>(null)
  const [isOpen, setIsOpen] = useState(false)
  /** The keys are heard from now on; not said of a page that does not hear them yet. */
  const [isListening, setIsListening] = useState(false)
  const [hasFailed, setHasFailed] = useState(false)
  const opener = useRef<HTMLButtonElement>(null)
  const pathname = usePathname()

  const open = useCallback(() => {
    setHasFailed(false)
    import('./palette').then(
      ({ Palette: loaded }) => {
        setPalette(() => loaded)
        setIsOpen(true)
      },
      () => setHasFailed(true),
    )
  }, [])
  const close = useCallback(() => setIsOpen(false), [])

  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      const isChord = (event.ctrlKey || event.metaKey) && !event.shiftKey && !event.altKey && event.key.toLowerCase() === 'k'
      if (!isChord || document.querySelector('dialog[open]')) return
      event.preventDefault()
      open()
    }
    document.addEventListener('keydown', onKey)
    setIsListening(true)
    return () => document.removeEventListener('keydown', onKey)
  }, [open])

  useEffect(() => {
    const timer = setTimeout(() => {
      const thing = thingOfPage(pathname, document.title)
      if (thing) keepRecent(thing, isShared)
    }, titleMs)
    return () => clearTimeout(timer)
  }, [pathname, isShared])

  return (
    <>
      <button
        ref={opener}
        type="button"
        className={s.opener}
        aria-haspopup="dialog"
        aria-keyshortcuts={isListening ? 'Control+K Meta+K' : undefined}
        aria-label={say('Go to or do')}
        title={say('Go to or do (Ctrl+K)')}
        onClick={open}
      >
        <svg viewBox="0 0 24 24" aria-hidden="true" fill="none" stroke="currentColor" strokeWidth="var(--pen-bold)">
          <circle cx="10" cy="10" r="7" />
          <path d="m15 15 7 7" />
        </svg>
      </button>
      {hasFailed && (
        <span className={s.failed} role="alert">
          {say('It could not be fetched: no network. Press / for Find.')}
        </span>
      )}
      {isOpen && Palette && <Palette {...props} onClose={close} />}
    </>
  )
}
