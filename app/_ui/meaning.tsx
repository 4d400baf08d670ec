'use client'

import { type ReactNode, useEffect, useId, useLayoutEffect, useRef, useState } from 'react'
import { createPortal } from 'react-dom'
import { Link } from './link'
import s from './meaning.module.css'

type MeaningProps = { href: string; says: string; children: ReactNode }

/** The way from the word to its meaning takes a hand so long. */
const leaveMs = 200
const gapPx = 6

/**
 * A word whose meaning is shown where it stands, when it is pointed at, reached by keyboard or pressed. Pressed once more, or without scripts,
 * it leads to where all words are explained. Escape, or going on, puts the meaning away.
 */
export function Meaning({ href, says, children }: MeaningProps) {
  const [isOpen, setIsOpen] = useState(false)
  const id = useId()
  const word = useRef<HTMLAnchorElement>(null)
  const leaving = useRef<ReturnType<typeof setTimeout>>(undefined)
  /** A finger shows nothing before it presses: its first press does. */
  const isFirstTouch = useRef(false)
  const stay = () => clearTimeout(leaving.current)
  const open = () => {
    stay()
    setIsOpen(true)
  }
  const leave = () => {
    stay()
    leaving.current = setTimeout(() => setIsOpen(false), leaveMs)
  }
  useEffect(() => () => clearTimeout(leaving.current), [])
  return (
    <>
      <Link
        ref={word}
        className={s.word}
        href={href}
        aria-describedby={isOpen ? id : undefined}
        onFocus={open}
        onBlur={() => setIsOpen(false)}
        onPointerEnter={(event) => event.pointerType === 'mouse' && open()}
        onPointerLeave={(event) => event.pointerType === 'mouse' && leave()}
        onPointerDown={(event) => {
          isFirstTouch.current = event.pointerType !== 'mouse' && !isOpen
        }}
        onClick={(event) => {
          if (!isFirstTouch.current) return
          isFirstTouch.current = false
          event.preventDefault()
          open()
        }}
      >
        {children}
      </Link>
      {isOpen &&
        createPortal(
          <Shown id={id} word={word.current} onEnter={stay} onLeave={leave} onAway={() => setIsOpen(false)}>
            {says}
          </Shown>,
          document.body,
        )}
    </>
  )
}

type ShownProps = {
  id: string
  word: HTMLElement | null
  onEnter: () => void
  onLeave: () => void
  onAway: () => void
  children: string
}

/** Above everything else on the page, under its word, or over it where there is no room. */
function Shown({ id, word, onEnter, onLeave, onAway, children }: ShownProps) {
  const box = useRef<HTMLDivElement>(null)
  useLayoutEffect(() => {
    const shown = box.current
    if (!shown || !word) return
    shown.showPopover()
    const at = word.getBoundingClientRect()
    const { width, height } = shown.getBoundingClientRect()
    const isUnder = at.bottom + gapPx + height <= innerHeight
    shown.style.top = `${isUnder ? at.bottom + gapPx : Math.max(gapPx, at.top - gapPx - height)}px`
    shown.style.left = `${Math.max(gapPx, Math.min(at.left, innerWidth - width - gapPx))}px`
  }, [word])
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => event.key === 'Escape' && onAway()
    const onPress = ({ target }: PointerEvent) => {
      if (target instanceof Node && !word?.contains(target) && !box.current?.contains(target)) onAway()
    }
    addEventListener('keydown', onKey)
    addEventListener('pointerdown', onPress)
    addEventListener('scroll', onAway, true)
    return () => {
      removeEventListener('keydown', onKey)
      removeEventListener('pointerdown', onPress)
      removeEventListener('scroll', onAway, true)
    }
  })
  return (
    <div ref={box} id={id} role="tooltip" popover="manual" className={s.shown} onPointerEnter={onEnter} onPointerLeave={onLeave}>
      {children}
    </div>
  )
}
