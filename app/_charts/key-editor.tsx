'use client'

import { useContext, useEffect, useId, useRef, useState } from 'react'
import { say, sayings } from '#language/say'
import { Button, ButtonRow } from '#ui/button'
import { Suggestions } from '#ui/field'
import { FormContext } from '../_ui/form-context'
import s from './key-editor.module.css'
import { KeyLineRow } from './key-line-row'
import { type KeyLayout, layoutOf, lineField, orderField, threadField } from './key-texts'

type KeyEditorProps = {
  /** Where the lines stand, and the text of each field. */
  layout: KeyLayout
  texts: Readonly<Record<string, string>>
  /** Offered while typing. */
  makerNames: readonly string[]
  lineNames: readonly string[]
}

/** What the line above says of its thread is taken along into a line added under it. */
const carriedParts = ['maker', 'line', 'strands'] as const

const heads = sayings([
  'Symbol',
  'Maker',
  'Line',
  'Code',
  'Name',
  'Strands',
  'Full crosses',
  'Backstitch',
  'Skeins',
  'Skein length',
])

/** The lines of a key, to be typed one after another. Without scripts the blank lines at its end are there to be filled. */
export function KeyEditor({ layout, texts, makerNames, lineNames }: KeyEditorProps) {
  const form = useContext(FormContext)
  const [lines, setLines] = useState<KeyLayout>(() => {
    const sent = form ? layoutOf(form.values) : []
    return sent.length > 0 ? sent : layout
  })
  const makersId = useId()
  const linesId = useId()
  const [carried, setCarried] = useState<Record<string, string>>({})
  const [said, setSaid] = useState('')
  const [focusOn, setFocusOn] = useState<string | null>(null)
  const box = useRef<HTMLDivElement>(null)
  // Never used again, so that a line added is not taken for one that was removed.
  const nextKey = useRef(1 + Math.max(0, ...lines.flatMap(({ key, threadKeys }) => [key, ...threadKeys]).map(Number)))

  useEffect(() => {
    if (focusOn === null) return
    box.current?.querySelector<HTMLElement>(`[name="${focusOn}"]`)?.focus()
    setFocusOn(null)
  }, [focusOn])

  const fresh = () => String(nextKey.current++)
  const typed = (name: string): string => box.current?.querySelector<HTMLInputElement>(`[name="${name}"]`)?.value ?? ''

  const addBelow = (index: number) => {
    const above = lines[index]
    const key = fresh()
    if (above) {
      const from = above.threadKeys.at(-1) ?? '0'
      const along = carriedParts.map((part) => [threadField(key, '0', part), typed(threadField(above.key, from, part))])
      setCarried({ ...carried, ...Object.fromEntries(along) })
    }
    setLines(lines.toSpliced(index + 1, 0, { key, threadKeys: ['0'] }))
    setFocusOn(lineField(key, 'symbol'))
    setSaid(say('Line {index} added.', { index: index + 2 }))
  }
  const remove = (index: number) => {
    const left = lines.toSpliced(index, 1)
    const [neighbour] = left.slice(Math.min(index, left.length - 1))
    setLines(left)
    if (neighbour) setFocusOn(lineField(neighbour.key, 'symbol'))
    setSaid(say('Line {index} removed.', { index: index + 1 }))
  }
  const move = (index: number, by: -1 | 1) => {
    const line = lines[index]
    if (!line || index + by < 0 || index + by >= lines.length) return
    const active = document.activeElement
    const held = active instanceof HTMLInputElement ? active.name : lineField(line.key, 'symbol')
    setLines(lines.toSpliced(index, 1).toSpliced(index + by, 0, line))
    setFocusOn(held)
    setSaid(say('Line {index} is line {index2} now.', { index: index + 1, index2: index + by + 1 }))
  }
  const addThread = (index: number) => {
    const line = lines[index]
    if (!line) return
    const threadKey = fresh()
    setLines(lines.with(index, { ...line, threadKeys: [...line.threadKeys, threadKey] }))
    setFocusOn(threadField(line.key, threadKey, 'maker'))
    setSaid(
      say('Line {index} is a blend of {threadKeys} threads now.', { index: index + 1, threadKeys: line.threadKeys.length + 1 }),
    )
  }
  const removeThread = (index: number, threadKey: string) => {
    const line = lines[index]
    if (!line) return
    setLines(lines.with(index, { ...line, threadKeys: line.threadKeys.filter((key) => key !== threadKey) }))
    setFocusOn(threadField(line.key, line.threadKeys[0] ?? '0', 'code'))
    setSaid(say('Line {index}: thread taken out of the blend.', { index: index + 1 }))
  }

  const shown = { ...texts, ...carried }
  return (
    <div ref={box} className={s.editor}>
      <Suggestions id={makersId} suggestions={makerNames} />
      <Suggestions id={linesId} suggestions={lineNames} />
      <input type="hidden" name={orderField} value={lines.map(({ key }) => key).join(',')} />
      <div className={s.heads} aria-hidden="true">
        <span />
        {heads.map((head) => (
          <span key={head}>{head}</span>
        ))}
      </div>
      {lines.map((line, index) => (
        <KeyLineRow
          key={line.key}
          line={line}
          number={index + 1}
          isLast={index === lines.length - 1}
          texts={shown}
          makersId={makersId}
          linesId={linesId}
          onAddBelow={() => addBelow(index)}
          onRemove={() => remove(index)}
          onMove={(by) => move(index, by)}
          onAddThread={() => addThread(index)}
          onRemoveThread={(threadKey) => removeThread(index, threadKey)}
        />
      ))}
      <div className={s.foot}>
        <ButtonRow>
          <Button onClick={() => addBelow(lines.length - 1)}>{say('Add a line')}</Button>
        </ButtonRow>
        <p className={s.hint}>
          {say(
            'Enter adds a line below, Alt with an arrow key moves the line. Maker, line and strands left empty are those of the line above.',
          )}
        </p>
      </div>
      <p role="status" className="vh">
        {said}
      </p>
    </div>
  )
}
