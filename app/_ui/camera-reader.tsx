'use client'

import { useEffect, useRef, useState, useSyncExternalStore } from 'react'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { Button } from './button'
import s from './camera-reader.module.css'
import { type CodeKind, openReader } from './read-codes'

const betweenLooksMs = 150
/** The same code held before the camera is read once in this time. */
const sameAgainMs = 1_500

/** Nothing changes it while a page is open. */
const never = () => () => {}
type CameraState = 'unknown' | 'ready' | 'not-secure' | 'no-camera'

function stateHere(): CameraState {
  if (!globalThis.isSecureContext) return 'not-secure'
  return 'mediaDevices' in navigator ? 'ready' : 'no-camera'
}

type CameraWords = {
  /** On the button that opens it. */
  open: string
  /** Heard of the picture: what to hold before it. */
  hold: string
  /** What to do where the page has no secure connection, without which browsers lend no camera. */
  notSecure: string
  /** What to do where there is none, or it does not open. */
  instead: string
}

type CameraReaderProps = {
  kind: CodeKind
  words: CameraWords
  /** Beside another way to do the same: where there is no camera nothing is said. */
  isBeside?: boolean
  onRead: (text: string) => void
}

/** Reads codes through the camera where the browser lends it; where it does not, says so in a sentence. */
export function CameraReader({ kind, words, isBeside = false, onRead }: CameraReaderProps) {
  const state = useSyncExternalStore<CameraState>(never, stateHere, () => 'unknown')
  const [isOpen, setIsOpen] = useState(false)
  const [trouble, setTrouble] = useState<string | null>(null)
  // Only the browser knows whether there is a camera; the button has its room before.
  if (state === 'unknown' && !isBeside) return <div className={s.room} />
  if (state === 'unknown' || (isBeside && state !== 'ready')) return null
  if (state === 'not-secure')
    return (
      <p className={s.aside}>
        {sayParts('The camera needs a secure connection (https), which this page does not have. {notSecure}', {
          notSecure: words.notSecure,
        })}
      </p>
    )
  if (state === 'no-camera')
    return <p className={s.aside}>{sayParts('This browser lends no camera. {instead}', { instead: words.instead })}</p>
  return (
    <div className={s.camera}>
      <Button
        aria-expanded={isOpen}
        onClick={() => {
          setTrouble(null)
          setIsOpen(!isOpen)
        }}
      >
        {isOpen ? say('Close the camera') : words.open}
      </Button>
      {trouble && (
        <p className={s.trouble} role="alert">
          {trouble}
        </p>
      )}
      {isOpen && (
        <Picture
          kind={kind}
          label={words.hold}
          onRead={onRead}
          onTrouble={(why) => {
            setIsOpen(false)
            setTrouble(
              why === 'camera'
                ? say('The camera did not open. Allow it for this page in the browser. {instead}', { instead: words.instead })
                : say('The reader of codes did not load. {instead}', { instead: words.instead }),
            )
          }}
        />
      )}
    </div>
  )
}

type PictureProps = {
  kind: CodeKind
  label: string
  onRead: (text: string) => void
  onTrouble: (why: 'camera' | 'reader') => void
}

function Picture({ kind, label, onRead, onTrouble }: PictureProps) {
  const video = useRef<HTMLVideoElement>(null)
  const tell = useRef({ onRead, onTrouble })
  tell.current = { onRead, onTrouble }

  useEffect(() => {
    let isOver = false
    let stream: MediaStream | null = null
    let timer: ReturnType<typeof setTimeout> | undefined
    let last = { text: '', at: 0 }

    const stop = () => {
      for (const track of stream?.getTracks() ?? []) track.stop()
    }
    const open = async () => {
      stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: 'environment' } }).catch(() => null)
      if (isOver || !video.current) return stop()
      if (!stream) return tell.current.onTrouble('camera')
      video.current.srcObject = stream
      await video.current.play().catch(() => {})
      const read = await openReader(kind).catch(() => null)
      if (isOver) return
      if (!read) return tell.current.onTrouble('reader')
      const look = async () => {
        if (isOver || !video.current) return
        const text = await read(video.current).catch(() => '')
        if (isOver) return
        const now = Date.now()
        if (text !== '' && !(text === last.text && now - last.at < sameAgainMs)) tell.current.onRead(text)
        if (text !== '') last = { text, at: now }
        timer = setTimeout(look, betweenLooksMs)
      }
      await look()
    }
    open()
    return () => {
      isOver = true
      clearTimeout(timer)
      stop()
    }
  }, [kind])

  return <video ref={video} className={s.picture} muted playsInline aria-label={label} />
}
