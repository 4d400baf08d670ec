'use client'

import { useRouter } from 'next/navigation'
import { useRef, useTransition } from 'react'
import { say, sayings } from '#language/say'
import { CameraReader } from '#ui/camera-reader'

const words = sayings({
  open: 'Scan with the camera',
  hold: 'What the camera sees: hold a label or the bars of a thread before it',
  notSecure: 'Use the phone’s own camera instead: held over a label it offers the link to open. Or type what the label says.',
  instead: 'Type what the label says.',
})

/**
 * Reads a label or bars and asks the page what they are.
 *
 * @param shown  what the page answers now: while it is still held before the camera it is not asked again
 */
export function ScanCamera({ shown }: { shown: string }) {
  const router = useRouter()
  const [isLooking, startTransition] = useTransition()
  // A label is read several times before the answer is there: asking again each time would put the answer off each time.
  const asking = useRef('')
  const read = (text: string) => {
    const asked = text.slice(0, 400)
    if (asked === shown || (isLooking && asked === asking.current)) return
    asking.current = asked
    startTransition(() => router.replace(`/scan?text=${encodeURIComponent(asked)}`))
  }
  return (
    <>
      <CameraReader kind="bars and squares" words={words} onRead={read} />
      <p role="status">{isLooking && say('Read. Looking it up.')}</p>
    </>
  )
}
