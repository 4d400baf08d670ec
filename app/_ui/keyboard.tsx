'use client'

import { useRouter } from 'next/navigation'
import { useEffect } from 'react'
import { isSlashOn } from './slash-key'

const isTyping = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement && (target.isContentEditable || target.matches('input, select, textarea'))

/**
 * The slash key goes to the box with the id `find`; on a screen without one, to the home page, which puts the caret in its own. It is off
 * where the device says so.
 */
export function Keyboard() {
  const router = useRouter()
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.key !== '/' || event.ctrlKey || event.metaKey || event.altKey || isTyping(event.target)) return
      if (document.querySelector('dialog[open]') || !isSlashOn(document.cookie)) return
      event.preventDefault()
      const box = document.getElementById('find')
      if (box) {
        box.focus()
        if (box instanceof HTMLInputElement) box.select()
      } else router.push('/?focus=1')
    }
    document.addEventListener('keydown', onKey)
    return () => document.removeEventListener('keydown', onKey)
  }, [router])
  return null
}
