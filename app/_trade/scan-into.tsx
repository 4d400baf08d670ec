'use client'

import { useRef, useState } from 'react'
import { say, sayings } from '#language/say'
import { CameraReader } from '#ui/camera-reader'
import { askScanned } from './scan-calls'

const words = sayings({
  open: 'Scan the place',
  hold: 'What the camera sees: hold the label of the place before it',
  notSecure: 'Type the label of the place.',
  instead: 'Type the label of the place.',
})

/** Writes the label of the place that is scanned into a field of the form it stands in. */
export function ScanInto({ name }: { name: string }) {
  const [said, setSaid] = useState('')
  const self = useRef<HTMLDivElement>(null)
  const read = async (text: string) => {
    const found = await askScanned(text)
    const label = found?.things.find(({ noun }) => noun === 'place')?.label ?? found?.meant[0]?.label
    if (!found) return setSaid(say('No connection: type the label of the place.'))
    if (!label) return setSaid(say('That is no place of ours.'))
    const field = self.current?.closest('form')?.elements.namedItem(name)
    if (!(field instanceof HTMLInputElement)) return
    field.value = label
    field.focus()
    setSaid(say('{label} is written in.', { label }))
  }
  return (
    <div ref={self} className="no-print">
      <CameraReader kind="bars and squares" words={words} isBeside onRead={(text) => void read(text)} />
      <p role="status">{said}</p>
    </div>
  )
}
