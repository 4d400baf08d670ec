'use client'

import { memo, useCallback, useDeferredValue, useRef, useState, useSyncExternalStore } from 'react'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { isInHand, type WalkKind } from '#lib/project/walk'
import { PlaceLabel } from '#trade/place-label'
import { ThreadBar } from '#trade/thread-bar'
import { Button } from '#ui/button'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { midSentence } from '#words/capital'
import { OverruledNotice } from '../../_ticks/overruled-notice'
import { SendState } from '../../_ticks/send-state'
import s from '../../_ticks/ticked-list.module.css'
import { WaitingSum } from '../../_ticks/waiting-sum'
import { keepName, nameOrNull, onName, readName, whoTicks } from '../../_ticks/walker-name'
import { CarryOut } from './carry-out'
import { NotThere } from './not-there'
import type { DeskBag, DeskLine, DeskRow, DeskStop } from './rows'
import { useWalkSync } from './use-walk-sync'

type WalkDeskProps = {
  walkId: string
  kind: WalkKind
  version: number
  revision: number
  /** On the whole list, carried ones too. */
  things: number
  stops: readonly DeskStop[]
  lines: readonly DeskLine[]
  bags: readonly DeskBag[]
  bagSuggestions: readonly string[]
}

type RowState = 'open' | 'done' | 'not there' | 'some'

/** The list itself: ticked with one thumb, with or without a connection, by as many people as walk. */
export function WalkDesk({
  walkId,
  kind,
  version,
  revision,
  things,
  stops,
  lines: recorded,
  bags,
  bagSuggestions,
}: WalkDeskProps) {
  const sync = useWalkSync({ walkId, version, revision, lines: recorded })
  const name = useSyncExternalStore(onName, readName, () => '')
  const [asked, setAsked] = useState<DeskRow | null>(null)
  const list = useRef<HTMLDivElement>(null)
  const by = nameOrNull(name)
  const isPull = kind === 'pull'
  const words = isPull
    ? { done: say('Pulled'), next: say('Pulled, next'), all: say('All pulled'), verb: say('pulled') }
    : { done: say('Put back'), next: say('Put back, next'), all: say('All put back'), verb: say('put back') }

  const rows = stops.flatMap((stop) => stop.rows.map((row) => ({ stop, row })))
  const states = new Map(rows.map(({ row }) => [row.thingId, stateOf(row, sync.lines)]))
  const carriedThings = new Set(recorded.flatMap((line) => (line.isCarried ? [line.id] : [])))
  const done = rows.filter(({ row }) => states.get(row.thingId) === 'done').length
  const next = rows.find(({ row }) => states.get(row.thingId) === 'open' || states.get(row.thingId) === 'some')
  const notThere = rows.filter(({ row }) => states.get(row.thingId) === 'not there').length
  const inHand = [...sync.lines.values()].filter(
    (line) => !line.isCarried && isInHand(line.status) && !carriedThings.has(line.id),
  )
  // Under the list, and no answer to the press: drawn once the tick itself is.
  const goingOnRecord = useDeferredValue(inHand)
  const { tick } = sync
  const tickRow = useCallback(
    (row: DeskRow, isTicked: boolean) => tick(row.lineIds, isTicked ? 'done' : 'open', whoTicks()),
    [tick],
  )
  const sayNotThere = useCallback(
    (row: DeskRow) => {
      tick(row.lineIds, 'not there', whoTicks())
      setAsked(row)
    },
    [tick],
  )

  const saidWord = (status: string) =>
    status === 'open' ? say('not ticked') : status === 'not there' ? say('not there') : words.verb

  const tickNext = () => {
    if (!next) return
    tickRow(next.row, true)
    const after = rows[rows.indexOf(next) + 1]?.row.thingId
    if (after) list.current?.querySelector(`[data-thing="${after}"]`)?.scrollIntoView({ block: 'center' })
  }

  return (
    <div className={s.desk}>
      <label className={s.who}>
        <span>{isPull ? say('Who is pulling?') : say('Who is putting back?')}</span>
        <input type="text" value={name} maxLength={120} autoComplete="name" onChange={(event) => keepName(event.target.value)} />
      </label>
      <div className={s.head}>
        <p className={s.progress} role="status">
          <b>{sayParts('{done} of {things}', { done: done + things - rows.length, things })}</b> {words.verb}
          {notThere > 0 && <span className="do">{sayParts(', {notThere} not there', { notThere })}</span>}
        </p>
        <SendState waiting={sync.waiting} isConnected={sync.isConnected} />
        <svg className={s.bar} viewBox="0 0 100 6" preserveAspectRatio="none" aria-hidden="true">
          <path d="M.5.5h99v5H.5z" fill="none" stroke="currentColor" vectorEffect="non-scaling-stroke" />
          <rect
            x="0"
            y="0"
            width={things === 0 ? 0 : (100 * (done + things - rows.length)) / things}
            height="6"
            fill="currentColor"
          />
        </svg>
      </div>
      {sync.refusal !== null && sync.waiting > 0 && (
        <Notice
          kind="refusal"
          title={say('The ticks that wait here are not taken: {refusal}', { refusal: sync.refusal })}
          actions={<Button onClick={sync.letGo}>{say('Let these ticks go')}</Button>}
        />
      )}
      {sync.lost > 0 && (
        <Notice
          kind="caution"
          title={say('{lost} of your ticks were of lines that are no longer on the list.', { lost: sync.lost })}
        >
          {say('It was brought up to date meanwhile: look whether you have something in hand that is not wanted any more.')}
        </Notice>
      )}
      <OverruledNotice
        overruled={sync.overruled}
        nameOf={(lineId) => rows.find(({ row }) => row.lineIds.includes(lineId))?.row.name}
        saidOf={saidWord}
        onRead={sync.readOverruled}
      />
      <WaitingSum list={{ kind: 'walk', id: walkId }} wordOf={saidWord} />
      {rows.length === 0 && <p>{say('Nothing is left on this list.')}</p>}
      <div ref={list} className={s.stops}>
        {stops.map((stop) => (
          <section key={stop.key} className={s.stop} aria-label={stop.label ?? say('No place')}>
            <h2 className={s.where}>
              {stop.label ? <PlaceLabel label={stop.label} href={stop.href ?? undefined} isLarge /> : say('No place on record')}
              {stop.name && <span>{stop.name}</span>}
            </h2>
            <ul className={s.rows}>
              {stop.rows.map((row) => (
                <Row
                  key={row.thingId}
                  row={row}
                  state={states.get(row.thingId) ?? 'open'}
                  tickedBy={tickedBy(row, sync.lines)}
                  isNext={row === next?.row}
                  doneWord={words.done}
                  hasManyBags={bags.length > 1}
                  onTick={tickRow}
                  onNotThere={sayNotThere}
                  onAsk={setAsked}
                />
              ))}
            </ul>
          </section>
        ))}
      </div>
      {rows.length > 0 && (
        <div className={s.dock}>
          <p className={s.next}>
            {next ? (
              <>
                <span>{say('Next')}</span>
                <PlaceLabel label={next.stop.label ?? say('no place')} />
                <b>{next.row.name}</b>
                <span>{say('{rows} left', { rows: rows.length - done })}</span>
              </>
            ) : (
              <b>{notThere > 0 ? say('{all} but {notThere} not there', { all: words.all, notThere }) : words.all}</b>
            )}
          </p>
          {next && (
            <div className={s.acts}>
              <Button onClick={() => sayNotThere(next.row)}>{say('Not there')}</Button>
              <Button kind="first" onClick={tickNext}>
                {words.next}
              </Button>
            </div>
          )}
        </div>
      )}
      <NotThere
        key={asked?.thingId}
        walkId={walkId}
        row={asked}
        by={by}
        isPull={isPull}
        onClose={() => setAsked(null)}
        onFound={(row) => {
          sync.tick(row.lineIds, 'open', by)
          setAsked(null)
        }}
      />
      <CarryOut
        walkId={walkId}
        isPull={isPull}
        inHand={goingOnRecord}
        waiting={sync.waiting}
        isConnected={sync.isConnected}
        nameOf={(lineId) => rows.find(({ row }) => row.lineIds.includes(lineId))?.row.name}
        bags={bags}
        bagSuggestions={bagSuggestions}
        who={by}
      />
    </div>
  )
}

const tickedBy = (row: DeskRow, lines: ReadonlyMap<string, DeskLine>): string | null =>
  row.lineIds.flatMap((id) => lines.get(id) ?? []).find(({ tickedAtMs }) => tickedAtMs !== null)?.tickedBy ?? null

function stateOf(row: DeskRow, lines: ReadonlyMap<string, DeskLine>): RowState {
  const own = row.lineIds.flatMap((id) => lines.get(id) ?? [])
  const done = own.filter(({ status, isCarried }) => isCarried || isInHand(status)).length
  if (done === own.length) return 'done'
  if (own.some(({ status }) => status === 'not there')) return 'not there'
  return done > 0 ? 'some' : 'open'
}

type RowProps = {
  row: DeskRow
  state: RowState
  tickedBy: string | null
  isNext: boolean
  doneWord: string
  hasManyBags: boolean
  onTick: (row: DeskRow, isTicked: boolean) => void
  onNotThere: (row: DeskRow) => void
  onAsk: (row: DeskRow) => void
}

/** Drawn again only when it is ticked, or its turn comes: a list may be hundreds of rows long, and a tick changes two. */
const Row = memo(function Row({ row, state, tickedBy, isNext, doneWord, hasManyBags, onTick, onNotThere, onAsk }: RowProps) {
  return (
    <li className={s.row} data-thing={row.thingId} data-state={state} data-next={isNext || undefined}>
      <label className={s.take}>
        <Mark row={row} />
        <span className={s.words}>
          {row.thread ? (
            <>
              {row.thread.maker} <b>{row.thread.code}</b> {row.thread.name}
            </>
          ) : (
            <span className={row.kind === 'chart' ? 'title' : undefined}>{row.name}</span>
          )}
          {row.note && <small>{row.note}</small>}
          {hasManyBags &&
            row.bags.map(({ lineId, label, amount }) => (
              <small key={lineId}>
                {row.bags.length > 1 ? say('{amount} for ', { amount }) : say('for ')}
                {label}
              </small>
            ))}
          <small className={s.said}>
            {state === 'done' && `${doneWord}${tickedBy ? say(' by {tickedBy}', { tickedBy }) : ''}`}
            {state === 'some' && say('Some of it ticked')}
            {state === 'not there' && (
              <span className="do">
                {say('Not there{rest}', { rest: tickedBy ? say(', says {tickedBy}', { tickedBy }) : '' })}
              </span>
            )}
          </small>
        </span>
        <b className={s.amount}>{row.amount}</b>
        <input
          type="checkbox"
          className={s.tick}
          checked={state === 'done'}
          aria-label={`${row.name}, ${row.amount}: ${midSentence(doneWord)}`}
          onChange={(event) => onTick(row, event.target.checked)}
        />
      </label>
      {state !== 'done' && (
        <div className={s.more}>
          {state === 'not there' ? (
            <Button kind="quiet" onClick={() => onAsk(row)} aria-label={say('{name}: where may it be?', { name: row.name })}>
              {say('Where may it be?')}
            </Button>
          ) : (
            <Button kind="quiet" onClick={() => onNotThere(row)} aria-label={say('{name}: not there', { name: row.name })}>
              {say('Not there')}
            </Button>
          )}
          <Link href={row.href}>{say('Its page')}</Link>
        </div>
      )}
    </li>
  )
})

function Mark({ row }: { row: DeskRow }) {
  if (row.thread) return <ThreadBar hexes={row.thread.hexes} dye={row.thread.dye} />
  const paths = {
    cloth: 'M1 1h32v14H1zM1 5h32M1 10h32M9 1v14M17 1v14M25 1v14',
    chart: 'M9 1h16v14H9zM12 5h10M12 8h10M12 11h6',
    notion: 'M2 9.6 26 7.200c4-.4 6 .4 6 1.800s-2 2.2-6 1.800zM26 9h4',
    thread: '',
  }
  return (
    <svg viewBox="0 0 34 16" width="34" height="16" aria-hidden="true">
      <path d={paths[row.kind]} fill="none" stroke="currentColor" strokeWidth="var(--pen-fine)" />
    </svg>
  )
}
