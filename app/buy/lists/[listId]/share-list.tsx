'use client'

import { useEffect, useRef, useState } from 'react'
import { say } from '#language/say'
import { Button, ButtonRow } from '#ui/button'
import s from '../../../_ticks/ticked-list.module.css'

/** The list as plain text: sent by the phone where it can, else copied, else marked so that it can be copied by hand. */
export function ShareList({ title, text }: { title: string; text: string }) {
  const box = useRef<HTMLTextAreaElement>(null)
  const [canShare, setCanShare] = useState(false)
  const [said, setSaid] = useState('')
  useEffect(() => setCanShare(typeof navigator.share === 'function'), [])
  const copy = async () => {
    try {
      // Only on a secure page: a shop's own network has none.
      await navigator.clipboard.writeText(text)
      setSaid(say('Copied.'))
    } catch {
      box.current?.select()
      setSaid(say('It is marked: copy it with your device’s own “Copy”.'))
    }
  }
  return (
    <>
      <textarea ref={box} className={s.listing} readOnly rows={8} value={text} aria-label={say('The list as text')} />
      <ButtonRow>
        {canShare && <Button onClick={() => void navigator.share({ title, text }).catch(() => {})}>{say('Send it')}</Button>}
        <Button onClick={() => void copy()}>{say('Copy it')}</Button>
      </ButtonRow>
      <p role="status">{said}</p>
    </>
  )
}
