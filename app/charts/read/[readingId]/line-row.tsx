'use client'

import { useId, useRef, useState } from 'react'
import { say, sayings } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { NamedThread, ReadAmount, ReadKeyLine } from '#lib/chart/key-text/reading'
import type { LinePlace } from '#lib/chart/key-text/teach'
import { amountField, type LineField, needsLook, standingOf, threadStanding } from '#lib/chart/reading-fields'
import { textKey } from '#lib/quantity/text-key'
import type { Stitch } from '#lib/thread/stitches'
import { ThreadBar } from '#trade/thread-bar'
import { midSentence } from '#words/capital'
import { stitchWords } from '../../../_charts/key-texts'
import type { SourceShown, ThreadShown } from '../../../_reading/review-shown'
import { standingWords } from '../../../_reading/words'
import { StateMark } from '../state-mark'
import { acceptField, amountText, typedPutUps, typedStitches, typedStrands, typedSymbol } from './corrections'
import { useDesk } from './desk-context'
import { FieldInput } from './field-input'
import { LineEditor } from './line-editor'
import s from './review.module.css'

type LineRowProps = {
  line: ReadKeyLine
  place: LinePlace
  source: SourceShown
  /** The ids of the makers' and lines' names offered while typing. */
  makersId: string
  linesId: string
}

/** One key line as it was read: each field to be said right or corrected; opened, its threads and stitches in full. */
export function LineRow({ line, place, source, makersId, linesId }: LineRowProps) {
  const { correct, followed } = useDesk()
  const [isOpen, setIsOpen] = useState(false)
  const opener = useRef<HTMLButtonElement>(null)
  const editorId = useId()
  const number = place.line + 1
  const column = (name: string) => `${place.design}.${place.list}.${name}`
  const accept = (field: LineField) => () => void correct(acceptField(line, place, field))
  const isFollowed = followed.has(`${place.design}.${place.list}.${place.line}`)
  const [, ...others] = line.threads
  return (
    <fieldset className={s.line} data-followed={isFollowed || undefined}>
      <legend className="vh">{sayParts('Line {number}', { number })}</legend>
      <p className={s.sourceText}>
        {line.from.map((at) => source.lines[at]?.text).join(' ') || say('not in the text')}
        {isFollowed && <b> {say('changed with another line')}</b>}
      </p>
      <div className={s.row}>
        <span className={s.number} aria-hidden="true">
          {number}
        </span>
        <div className={s.cell} data-part="symbol">
          <FieldInput
            label={say('Line {number}, symbol', { number })}
            value={line.symbol?.value ?? ''}
            standing={standingOf(line.symbol)}
            column={column('symbol')}
            read={(text) => typedSymbol(place, text)}
            accept={accept({ kind: 'symbol' })}
            from={line.from}
            caption={say('symbol')}
          />
        </div>
        <ThreadCells line={line} place={place} thread={0} open={setIsOpen} opener={opener} />
        <div className={s.cell} data-part="stitches">
          <Amounts line={line} place={place} kinds={['stitches']} column={column('stitches')} />
        </div>
        <div className={s.cell} data-part="skeins">
          <Amounts line={line} place={place} kinds={['put-ups', 'length']} column={column('skeins')} />
        </div>
        <button
          type="button"
          className={s.more}
          aria-expanded={isOpen}
          aria-controls={editorId}
          aria-label={say('Line {number}: {isOpen, select, yes {less} other {more}}', { number, isOpen })}
          tabIndex={-1}
          onClick={() => setIsOpen(!isOpen)}
        >
          {isOpen ? say('Less') : say('More')}
        </button>
      </div>
      {others.map((_, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a thread of a blend is known by its place in it
        <div className={s.row} key={index}>
          <span className={s.with}>{say('with')}</span>
          <ThreadCells line={line} place={place} thread={index + 1} open={setIsOpen} />
        </div>
      ))}
      {line.rest && <p className={s.rest}>{sayParts('Also on the line: {rest}', { rest: line.rest })}</p>}
      <div id={editorId}>
        {isOpen && (
          <LineEditor
            line={line}
            place={place}
            makersId={makersId}
            linesId={linesId}
            close={() => {
              setIsOpen(false)
              opener.current?.focus()
            }}
          />
        )}
      </div>
    </fieldset>
  )
}

type ThreadCellsProps = {
  line: ReadKeyLine
  place: LinePlace
  thread: number
  open: (isOpen: boolean) => void
  opener?: React.Ref<HTMLButtonElement>
}

/** A thread of the line and its strands. */
function ThreadCells({ line, place, thread, open, opener }: ThreadCellsProps) {
  const { correct, moveOn, setActive } = useDesk()
  const id = useId()
  const read = line.threads[thread]
  const number = place.line + 1
  const which = line.threads.length > 1 ? say(', thread {thread} of the blend', { thread: thread + 1 }) : ''
  if (!read)
    return (
      <>
        <div className={s.cell} data-part="thread">
          <span className={s.field}>
            <button
              type="button"
              ref={opener}
              className={s.thread}
              data-field=""
              data-look=""
              data-column={`${place.design}.${place.list}.thread`}
              aria-label={say('Line {number}, thread: none read', { number })}
              onFocus={() => setActive(line.from)}
              onClick={() => open(true)}
            >
              {say('no thread')}
            </button>
            <span className={s.under}>
              <StateMark mark="lacking" word={standingWords.lacking} />
            </span>
          </span>
        </div>
        <span className={s.cell} data-part="strands" />
      </>
    )
  const standing = threadStanding(read)
  const isToBeLookedAt = needsLook(standing)
  const mustOpen = standing === 'choose' || standing === 'lacking'
  return (
    <>
      <div className={s.cell} data-part="thread">
        <span className={s.field} data-look={isToBeLookedAt || undefined}>
          <button
            type="button"
            ref={opener}
            className={s.thread}
            data-field=""
            data-look={isToBeLookedAt ? '' : undefined}
            data-column={`${place.design}.${place.list}.thread`}
            tabIndex={isToBeLookedAt ? 0 : -1}
            aria-describedby={`${id}-standing`}
            onFocus={() => setActive(line.from)}
            onClick={() => open(true)}
            onKeyDown={(event) => {
              if (event.key !== 'Enter' || mustOpen) return
              event.preventDefault()
              if (isToBeLookedAt) void correct(acceptField(line, place, { kind: 'thread', thread }))
              moveOn(event.currentTarget)
            }}
          >
            <span className="vh">{sayParts('Line {number}, thread{which}:', { number, which })} </span>
            <ThreadSaid read={read} />
          </button>
          <span className={s.under}>
            <StateMark
              mark={standing}
              word={
                read.match.kind === 'several'
                  ? say('choose one of {threadIds}', { threadIds: read.match.threadIds.length })
                  : standingWords[standing]
              }
              id={`${id}-standing`}
            />
          </span>
        </span>
      </div>
      <div className={s.cell} data-part="strands">
        <FieldInput
          label={say('Line {number}, strands{which}', { number, which })}
          value={read.named.strands ? String(read.named.strands.value) : ''}
          standing={standingOf(read.named.strands)}
          column={`${place.design}.${place.list}.strands`}
          read={(text) => typedStrands(place, thread, text)}
          accept={() => void correct(acceptField(line, place, { kind: 'strands', thread }))}
          from={line.from}
          caption={say('strands')}
          isNumeric
        />
      </div>
    </>
  )
}

/** The thread as it is on record, and as the text has it where that is otherwise. */
function ThreadSaid({ read: { named, match } }: { read: ReadKeyLine['threads'][number] }) {
  const { shown } = useDesk()
  const asRead = [named.maker, named.threadLine, named.code, named.name].flatMap((part) => part?.value ?? []).join(' ')
  const known = match.kind === 'known' ? shown.threads[match.threadId] : undefined
  if (!known) return <span>{asRead || say('not named')}</span>
  return (
    <>
      <ThreadBar hexes={known.hexes} dye={known.dye} size="small" />
      <span>
        {known.maker} {known.line} <b>{known.code}</b> {known.name}
        {isReadOtherwise(named, known) && asRead !== '' && <small>{sayParts('read: {asRead}', { asRead })}</small>}
      </span>
    </>
  )
}

/** Whether the text has another code or name than the record. */
const isReadOtherwise = ({ code, name }: NamedThread, known: ThreadShown): boolean =>
  (code !== null && code.value !== known.code) || (name !== null && textKey(name.value) !== textKey(known.name ?? known.code))

type AmountsProps = { line: ReadKeyLine; place: LinePlace; kinds: readonly ReadAmount['kind'][]; column: string }

const shortStitch: Partial<Record<Stitch, string>> = sayings({
  full: 'full',
  knotOneWrap: 'knots',
  knotTwoWrap: 'knots, 2 wraps',
  bead: 'beads',
})

/** The amounts of some kinds, and a blank for one more where there is none. */
function Amounts({ line, place, kinds, column }: AmountsProps) {
  const { correct, units } = useDesk()
  const number = place.line + 1
  const isStitches = kinds.includes('stitches')
  const held = line.amounts.flatMap((amount, at) => (kinds.includes(amount.kind) ? [{ amount, at }] : []))
  const read = (at: number) => (text: string) =>
    isStitches ? typedStitches(line, place, at, text) : typedPutUps(line, place, at, text, units.thread)
  if (held.length === 0) {
    const worked = isStitches ? line.stitches : null
    return (
      <FieldInput
        label={say('Line {number}, {isStitches, select, yes {stitches} other {skeins}}', { number, isStitches })}
        value=""
        standing={worked ? standingOf(worked) : 'empty'}
        column={column}
        read={read(line.amounts.length)}
        accept={() => void correct(acceptField(line, place, { kind: 'stitches' }))}
        from={line.from}
        caption={worked ? worked.value.map(captionOf).join(', ') : isStitches ? say('stitches') : say('skeins')}
        isNumeric
      />
    )
  }
  return held.map(({ amount, at }) => (
    <FieldInput
      key={at}
      label={say('Line {number}, {rest}', {
        number,
        rest:
          amount.kind === 'stitches'
            ? midSentence(stitchWords[amount.stitch])
            : amount.kind === 'length'
              ? say('length')
              : say('skeins'),
      })}
      value={amountText(amount, units.thread)}
      standing={standingOf(amountField(amount))}
      column={column}
      read={read(at)}
      accept={() => void correct(acceptField(line, place, { kind: 'amount', amount: at }))}
      from={line.from}
      caption={
        amount.kind === 'stitches'
          ? captionOf(amount.stitch)
          : amount.kind === 'length'
            ? say('length')
            : (amount.putUpWord ?? say('skeins'))
      }
      isNumeric
    />
  ))
}

const captionOf = (stitch: Stitch): string => shortStitch[stitch] ?? midSentence(stitchWords[stitch])
