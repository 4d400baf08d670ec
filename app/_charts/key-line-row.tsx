'use client'

import { type KeyboardEvent, useContext, useId, useState } from 'react'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { Button, ButtonRow } from '#ui/button'
import { NumberField, TextField } from '#ui/field'
import { FormContext } from '../_ui/form-context'
import s from './key-editor.module.css'
import { commonStitches, type KeyLayout, lineField, otherStitches, stitchWords, threadField } from './key-texts'

type KeyLineRowProps = {
  line: KeyLayout[number]
  number: number
  isLast: boolean
  texts: Readonly<Record<string, string>>
  /** The ids of the makers' and lines' names offered while typing. */
  makersId: string
  linesId: string
  onAddBelow: () => void
  onRemove: () => void
  onMove: (by: -1 | 1) => void
  onAddThread: () => void
  onRemoveThread: (threadKey: string) => void
}

/** One line of a key: its thread or blend and what is in sight of its amounts; the rest unfolds. */
export function KeyLineRow(props: KeyLineRowProps) {
  const { line, number, isLast, texts, onAddBelow, onRemove, onMove, onAddThread, onRemoveThread } = props
  const form = useContext(FormContext)
  const foldedFields = [...otherStitches, 'note' as const].map((part) => lineField(line.key, part))
  const [isOpen, setIsOpen] = useState(foldedFields.some((name) => texts[name]))
  const hasErrorInside = foldedFields.some((name) => form?.errors[name])
  const isUnfolded = isOpen || hasErrorInside
  const moreId = useId()
  const [first = '0', ...others] = line.threadKeys

  const onKeyDown = (event: KeyboardEvent) => {
    if (!(event.target instanceof HTMLInputElement) || event.nativeEvent.isComposing) return
    if (event.key === 'Enter' && !event.ctrlKey && !event.metaKey) {
      event.preventDefault()
      onAddBelow()
    }
    if (event.altKey && (event.key === 'ArrowUp' || event.key === 'ArrowDown')) {
      event.preventDefault()
      onMove(event.key === 'ArrowUp' ? -1 : 1)
    }
  }

  return (
    <fieldset className={s.line} onKeyDown={onKeyDown}>
      <legend className="vh">{sayParts('Line {number}', { number })}</legend>
      <input type="hidden" name={lineField(line.key, 'threads')} value={line.threadKeys.join(',')} />
      <div className={s.row}>
        <span className={s.number} aria-hidden="true">
          {number}
        </span>
        <div className={s.cell} data-part="symbol">
          <TextField
            name={lineField(line.key, 'symbol')}
            label={say('Symbol')}
            defaultValue={texts[lineField(line.key, 'symbol')]}
            maxLength={20}
          />
        </div>
        <ThreadFields {...props} threadKey={first} isFirstOfAll={number === 1}>
          {commonStitches.map((stitch) => (
            <div className={s.cell} data-part={stitch} key={stitch}>
              <NumberField
                name={lineField(line.key, stitch)}
                label={stitchWords[stitch]}
                defaultValue={texts[lineField(line.key, stitch)]}
                width="full"
                isWhole
              />
            </div>
          ))}
        </ThreadFields>
        <button
          type="button"
          className={s.more}
          aria-expanded={isUnfolded}
          aria-controls={moreId}
          aria-label={say('Line {number}: {isUnfolded, select, yes {less} other {more}}', { number, isUnfolded })}
          onClick={() => setIsOpen(!isOpen)}
        >
          {isUnfolded ? say('Less') : say('More')}
        </button>
      </div>
      {others.map((threadKey, index) => (
        <fieldset className={s.row} key={threadKey}>
          <legend className="vh">{sayParts('Line {number}, thread {index} of the blend', { number, index: index + 2 })}</legend>
          <span className={s.with}>{say('with')}</span>
          <ThreadFields {...props} threadKey={threadKey} isFirstOfAll={false} />
          <button
            type="button"
            className={s.more}
            aria-label={say('Take out thread {index} of line {number}', { index: index + 2, number })}
            onClick={() => onRemoveThread(threadKey)}
          >
            {say('Take out')}
          </button>
        </fieldset>
      ))}
      <div className={s.unfolded} id={moreId} data-unfolded={isUnfolded}>
        <div className={s.amounts}>
          {otherStitches.map((stitch) => (
            <NumberField
              key={stitch}
              name={lineField(line.key, stitch)}
              label={stitchWords[stitch]}
              defaultValue={texts[lineField(line.key, stitch)]}
              width="full"
              isWhole
            />
          ))}
        </div>
        <TextField
          name={lineField(line.key, 'note')}
          label={say('Note')}
          defaultValue={texts[lineField(line.key, 'note')]}
          maxLength={500}
        />
        <ButtonRow>
          <Button onClick={onAddThread} aria-label={say('Blend: add a thread to line {number}', { number })}>
            {say('Blend: add a thread')}
          </Button>
          <Button onClick={() => onMove(-1)} disabled={number === 1} aria-label={say('Line {number}: move up', { number })}>
            {say('Move up')}
          </Button>
          <Button onClick={() => onMove(1)} disabled={isLast} aria-label={say('Line {number}: move down', { number })}>
            {say('Move down')}
          </Button>
          <Button onClick={onAddBelow} aria-label={say('Line {number}: add a line below', { number })}>
            {say('Add a line below')}
          </Button>
          <Button onClick={onRemove} aria-label={say('Line {number}: remove', { number })}>
            {say('Remove the line')}
          </Button>
        </ButtonRow>
      </div>
    </fieldset>
  )
}

type ThreadFieldsProps = Pick<KeyLineRowProps, 'line' | 'texts' | 'makersId' | 'linesId'> & {
  threadKey: string
  isFirstOfAll: boolean
  /** Between the thread and what is stated of it: the counts of the whole line. */
  children?: React.ReactNode
}

function ThreadFields({ line, threadKey, texts, makersId, linesId, isFirstOfAll, children }: ThreadFieldsProps) {
  const field = (part: Parameters<typeof threadField>[2]) => {
    const name = threadField(line.key, threadKey, part)
    return { name, defaultValue: texts[name] }
  }
  const above = isFirstOfAll ? undefined : say('as above')
  return (
    <>
      <div className={s.cell} data-part="maker">
        <TextField {...field('maker')} label={say('Maker')} placeholder={above} suggestionsId={makersId} maxLength={200} />
      </div>
      <div className={s.cell} data-part="line">
        <TextField {...field('line')} label={say('Line')} placeholder={above} suggestionsId={linesId} maxLength={200} />
      </div>
      <div className={s.cell} data-part="code">
        <TextField {...field('code')} label={say('Code')} maxLength={200} />
      </div>
      <div className={s.cell} data-part="name">
        <TextField {...field('name')} label={say('Name')} maxLength={200} />
      </div>
      <div className={s.cell} data-part="strands">
        <NumberField {...field('strands')} label={say('Strands')} width="full" isWhole />
      </div>
      {children}
      <div className={s.cell} data-part="skeins">
        <NumberField {...field('skeins')} label={say('Skeins')} width="full" />
      </div>
      <div className={s.cell} data-part="putUp">
        <TextField {...field('putUp')} label={say('Skein length')} placeholder="8 m" />
      </div>
    </>
  )
}
