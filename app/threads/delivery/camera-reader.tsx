'use client'

import { useEffect, useRef, useState, useSyncExternalStore } from 'react'
import { Button } from '#ui/button'
import s from './delivery.module.css'

type Detector = { detect: (source: HTMLVideoElement) => Promise<{ rawValue: string }[]> }
type DetectorMaker = new (options?: { formats?: string[] }) => Detector

const makerOf = (): DetectorMaker | undefined => (globalThis as { BarcodeDetector?: DetectorMaker }).BarcodeDetector

/** Bars on goods, and those a shop prints itself. */
const formats = ['ean_13', 'ean_8', 'upc_a', 'upc_e', 'code_128', 'code_39']
const betweenLooksMs = 150
/** The same bars held before the camera are read once in this time. */
const sameAgainMs = 1_500

/** Nothing changes it while a page is open. */
const never = () => () => {}
type CameraState = 'unknown' | 'ready' | 'not-secure' | 'not-known'

function stateHere(): CameraState {
  if (!globalThis.isSecureContext) return 'not-secure'
  return makerOf() && 'mediaDevices' in navigator ? 'ready' : 'not-known'
}

const whyNot: Record<Exclude<CameraState, 'ready'>, string> = {
  unknown: '',
  'not-secure':
    'Reading bars by camera needs a secure connection (https), which this page does not have. Type the digits, or use a hand scanner.',
  'not-known': 'This browser cannot read bars by camera. Type the digits, or use a hand scanner.',
}

/** Reads bars through the camera where the browser can; where it cannot, says so in a sentence. */
export function CameraReader({ onRead }: { onRead: (text: string) => void }) {
  const state = useSyncExternalStore<CameraState>(never, stateHere, () => 'unknown')
  const [isOpen, setIsOpen] = useState(false)
  const [trouble, setTrouble] = useState<string | null>(null)
  if (state !== 'ready') return whyNot[state] ? <p className={s.aside}>{whyNot[state]}</p> : null
  return (
    <div className={s.camera}>
      <Button
        aria-expanded={isOpen}
        onClick={() => {
          setTrouble(null)
          setIsOpen(!isOpen)
        }}
      >
        {isOpen ? 'Close the camera' : 'Read bars by camera'}
      </Button>
      {trouble && (
        <p className={s.trouble} role="alert">
          {trouble}
        </p>
      )}
      {isOpen && (
        <Picture
          onRead={onRead}
          onTrouble={() => {
            setIsOpen(false)
            setTrouble('The camera did not open. Allow it for this page in the browser, or type the digits.')
          }}
        />
      )}
    </div>
  )
}

function Picture({ onRead, onTrouble }: { onRead: (text: string) => void; onTrouble: () => void }) {
  const video = useRef<HTMLVideoElement>(null)
  const tell = useRef({ onRead, onTrouble })
  tell.current = { onRead, onTrouble }

  useEffect(() => {
    let isOver = false
    let stream: MediaStream | null = null
    let timer: ReturnType<typeof setTimeout> | undefined
    let last = { text: '', at: 0 }
    const Maker = makerOf()
    const detector = Maker && new Maker({ formats })

    const look = async () => {
      if (isOver || !video.current || !detector) return
      const found = await detector.detect(video.current).catch(() => [])
      const text = found[0]?.rawValue ?? ''
      const now = Date.now()
      if (text !== '' && !(text === last.text && now - last.at < sameAgainMs)) tell.current.onRead(text)
      if (text !== '') last = { text, at: now }
      timer = setTimeout(look, betweenLooksMs)
    }
    const open = async () => {
      try {
        stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: 'environment' } })
        if (isOver || !video.current) return stop()
        video.current.srcObject = stream
        await video.current.play()
        await look()
      } catch {
        if (!isOver) tell.current.onTrouble()
      }
    }
    const stop = () => {
      for (const track of stream?.getTracks() ?? []) track.stop()
    }
    open()
    return () => {
      isOver = true
      clearTimeout(timer)
      stop()
    }
  }, [])

  return <video ref={video} className={s.picture} muted playsInline aria-label="What the camera sees: hold the bars before it" />
}
