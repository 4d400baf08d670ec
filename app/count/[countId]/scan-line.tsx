'use client'

import { useState } from 'react'
import { say, sayings } from '#language/say'
import { CameraReader } from '#ui/camera-reader'
import { askScanned } from '../../_trade/scan-calls'
import s from './count.module.css'

const words = sayings({
  open: 'Scan to a line',
  hold: 'What the camera sees: hold the bars of a thread or the label of a place before it',
  notSecure: 'Look for the line by eye.',
  instead: 'Look for the line by eye.',
})

/** Leads to the line of the sheet whose thread or place is scanned: the first there that is not counted, ready for the figure. */
export function ScanLine() {
  const [said, setSaid] = useState('')
  const read = async (text: string) => {
    const found = await askScanned(text)
    if (!found) return setSaid(say('No connection: look for the line by eye.'))
    const thing = found.things[0]
    const ids = new Set([...found.things.map(({ id }) => id), ...found.meant.map(({ placeId }) => placeId)])
    const rows = [...document.querySelectorAll<HTMLElement>('[data-thread], [data-place]')].filter(
      ({ dataset }) => ids.has(dataset.thread ?? '') || ids.has(dataset.place ?? ''),
    )
    const boxes = rows.flatMap((row) => [...row.querySelectorAll<HTMLInputElement>('input:not([type=hidden])')])
    const box = boxes.find(({ value }) => value === '') ?? boxes[0]
    if (!box) return setSaid(thing ? say('{title} is not on this sheet.', { title: thing.title }) : say('That is none of ours.'))
    box.scrollIntoView({ block: 'center' })
    box.focus()
    setSaid(thing?.title ?? '')
  }
  return (
    <div className={`no-print ${s.scan}`}>
      <CameraReader kind="bars and squares" words={words} isBeside onRead={(text) => void read(text)} />
      <p role="status">{said}</p>
    </div>
  )
}
