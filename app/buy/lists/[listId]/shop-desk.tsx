'use client'

import { memo, useCallback, useRef, useState, useSyncExternalStore } from 'react'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { ThreadBar } from '#trade/thread-bar'
import { Button } from '#ui/button'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { priceWords } from '#words/price'
import { OverruledNotice } from '../../../_ticks/overruled-notice'
import { SendState } from '../../../_ticks/send-state'
import s from '../../../_ticks/ticked-list.module.css'
import { WaitingSum } from '../../../_ticks/waiting-sum'
import { keepName, nameOrNull, onName, readName, whoTicks } from '../../../_ticks/walker-name'
import { BoughtSheet } from './bought-sheet'
import type { DeskLine, DeskRow, DeskStop } from './rows'
import { plainly, useShopSync } from './use-shop-sync'

type ShopDeskProps = {
  listId: string
  ownerId: string
  version: number
  revision: number
  currency: string
  stops: readonly DeskStop[]
  lines: readonly DeskLine[]
}

/** Bought just as the list says, of the lot it names. */
const asListed = ({ matchLot }: DeskRow) => ({ ...plainly('bought'), lot: matchLot })

const saidWord = (status: string): string => {
  if (status === 'open') return say('not ticked')
  if (status === 'not there') return say('not there')
  return status === 'instead' ? say('bought instead') : say('bought')
}

const isBought = ({ status }: DeskLine) => status === 'bought' || status === 'instead'

/** The list in the shop: ticked with one thumb, with or without a connection, by as many people as shop by it. */
export function ShopDesk({ listId, ownerId, version, revision, currency, stops, lines }: ShopDeskProps) {
  const sync = useShopSync({ listId, version, revision, lines })
  const name = useSyncExternalStore(onName, readName, () => '')
  const [asked, setAsked] = useState<DeskRow | null>(null)
  const list = useRef<HTMLDivElement>(null)
  const by = nameOrNull(name)
  const { tick } = sync
  const tickRow = useCallback(
    (row: DeskRow, isTicked: boolean) => tick(row.id, isTicked ? asListed(row) : plainly('open'), whoTicks()),
    [tick],
  )
  const sayNotThere = useCallback((row: DeskRow) => tick(row.id, plainly('not there'), whoTicks()), [tick])

  const rows = stops.flatMap((stop) => stop.rows.map((row) => ({ stop, row })))
  const lineOf = (row: DeskRow) => sync.lines.get(row.id) as DeskLine
  const bought = rows.filter(({ row }) => isBought(lineOf(row))).length
  const notThere = rows.filter(({ row }) => lineOf(row).status === 'not there').length
  const next = rows.find(({ row }) => lineOf(row).status === 'open')
  const paidMinor = [...sync.lines.values()].reduce((sum, line) => sum + (isBought(line) ? (line.paidMinor ?? 0) : 0), 0)
  const held = rows.flatMap(({ row }) => (sync.held.has(row.id) ? [`${row.name}: ${sync.held.get(row.id)}`] : []))

  const tickNext = () => {
    if (!next) return
    tickRow(next.row, true)
    const after = rows[rows.indexOf(next) + 1]?.row.id
    if (after) list.current?.querySelector(`[data-thing="${after}"]`)?.scrollIntoView({ block: 'center' })
  }

  return (
    <div className={s.desk}>
      <label className={s.who}>
        <span>{say('Who is shopping?')}</span>
        <input type="text" value={name} maxLength={120} autoComplete="name" onChange={(event) => keepName(event.target.value)} />
      </label>
      <div className={s.head}>
        <p className={s.progress} role="status">
          {sayParts('<b>{bought} of {rows}</b> bought{rest}{rest2}', {
            b: (words) => <b>{words}</b>,
            bought,
            rows: rows.length,
            rest: notThere > 0 && <span className="do">{sayParts(', {notThere} not there', { notThere })}</span>,
            rest2: paidMinor > 0 && <span>{say(', {price} paid', { price: priceWords(paidMinor, currency) })}</span>,
          })}
        </p>
        <SendState waiting={sync.waiting} isConnected={sync.isConnected} />
        <svg className={s.bar} viewBox="0 0 100 6" preserveAspectRatio="none" aria-hidden="true">
          <path d="M.5.5h99v5H.5z" fill="none" stroke="currentColor" vectorEffect="non-scaling-stroke" />
          <rect x="0" y="0" width={rows.length === 0 ? 0 : (100 * bought) / rows.length} height="6" fill="currentColor" />
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
          title={say('{lost} of your ticks were of lines that were taken off the list meanwhile.', { lost: sync.lost })}
        >
          {say('Look whether you have bought something that is not wanted any more.')}
        </Notice>
      )}
      <OverruledNotice
        overruled={sync.overruled}
        nameOf={(lineId) => rows.find(({ row }) => row.id === lineId)?.row.name}
        saidOf={saidWord}
        onRead={sync.readOverruled}
      />
      <WaitingSum list={{ kind: 'shop', id: listId }} wordOf={saidWord} />
      {held.length > 0 && (
        <Notice kind="refusal" title={say('Not changed')}>
          {held.join('; ')}.
        </Notice>
      )}
      <div ref={list} className={s.stops}>
        {stops.map((stop) => (
          <section key={stop.key} className={s.stop} aria-label={stop.title}>
            <h2 className={s.where}>
              <b>{stop.title}</b>
            </h2>
            <ul className={s.rows}>
              {stop.rows.map((row) => (
                <Row
                  key={row.id}
                  row={row}
                  line={lineOf(row)}
                  currency={currency}
                  isNext={row === next?.row}
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
                <b>{next.row.name}</b>
                <span>{sayParts('{rows} left', { rows: rows.filter(({ row }) => lineOf(row).status === 'open').length })}</span>
              </>
            ) : (
              <b>{notThere > 0 ? say('All bought but {notThere} not there', { notThere }) : say('All bought')}</b>
            )}
          </p>
          {next && (
            <div className={s.acts}>
              <Button onClick={() => sayNotThere(next.row)}>{say('Not there')}</Button>
              <Button kind="first" onClick={tickNext}>
                {say('Bought, next')}
              </Button>
            </div>
          )}
        </div>
      )}
      <BoughtSheet
        key={asked?.id}
        listId={listId}
        ownerId={ownerId}
        currency={currency}
        row={asked}
        line={asked && lineOf(asked)}
        onClose={() => setAsked(null)}
        onSaid={(said, insteadName) => asked && sync.tick(asked.id, said, by, insteadName)}
      />
    </div>
  )
}

type RowProps = {
  row: DeskRow
  line: DeskLine
  currency: string
  isNext: boolean
  onTick: (row: DeskRow, isTicked: boolean) => void
  onNotThere: (row: DeskRow) => void
  onAsk: (row: DeskRow) => void
}

/** Drawn again only when its line is another: a tick changes two of a list's rows. */
const Row = memo(function Row({ row, line, currency, isNext, onTick, onNotThere, onAsk }: RowProps) {
  const state = isBought(line) ? 'done' : line.status === 'not there' ? 'not there' : 'open'
  return (
    <li className={s.row} data-thing={row.id} data-state={state} data-next={isNext || undefined}>
      <label className={s.take}>
        {row.thread ? <ThreadBar hexes={row.thread.hexes} dye={row.thread.dye} /> : <WordsMark />}
        <span className={s.words}>
          {row.thread ? (
            <>
              {row.thread.maker} <b>{row.thread.code}</b> {row.thread.name}
            </>
          ) : (
            row.name
          )}
          {row.notes.length > 0 && <small>{row.notes.join(' · ')}</small>}
          {row.thread && state !== 'done' && (
            <small>{row.home ? say('goes to {home}', { home: row.home }) : say('no home yet')}</small>
          )}
          <small className={s.said}>{saidWords(line, currency, row.thread?.lotsMatter ?? false)}</small>
        </span>
        <b className={s.amount}>
          {row.amount}
          {row.price && <small className={s.price}>{row.price}</small>}
        </b>
        <input
          type="checkbox"
          className={s.tick}
          checked={state === 'done'}
          aria-label={say('{name}, {amount}: bought', { name: row.name, amount: row.amount })}
          onChange={(event) => onTick(row, event.target.checked)}
        />
      </label>
      <div className={s.more}>
        {state === 'open' && (
          <Button kind="quiet" onClick={() => onNotThere(row)} aria-label={say('{name}: not there', { name: row.name })}>
            {say('Not there')}
          </Button>
        )}
        <Button
          kind="quiet"
          onClick={() => onAsk(row)}
          aria-label={say('Otherwise, {name}: how many, lot, price, or another', { name: row.name })}
        >
          {state === 'done' ? say('Say more') : say('Otherwise')}
        </Button>
        {row.thread && <Link href={`/threads/${row.thread.threadId}`}>{say('Its page')}</Link>}
      </div>
    </li>
  )
})

/** "3 bought by Hanne Drewitt, lot 18, EUR 4.20, lies in T2.1-14". */
function saidWords(line: DeskLine, currency: string, lotsMatter: boolean) {
  const by = line.tickedBy ? say(' by {tickedBy}', { tickedBy: line.tickedBy }) : ''
  if (line.status === 'open') return null
  if (line.status === 'not there')
    return (
      <span className="do">
        {say('Not there{rest}', { rest: line.tickedBy ? say(', says {tickedBy}', { tickedBy: line.tickedBy }) : '' })}
      </span>
    )
  return [
    `${line.boughtPutUps === null ? say('Bought') : say('{boughtPutUps} bought', { boughtPutUps: line.boughtPutUps })}${by}`,
    line.status === 'instead' && say('instead: {insteadName}', { insteadName: line.insteadName ?? say('another thread') }),
    line.lot !== null ? say('lot {lot}', { lot: line.lot }) : lotsMatter && say('no lot noted yet'),
    line.paidMinor !== null && priceWords(line.paidMinor, currency),
    line.isInStock && (line.place ? say('in stock in {place}', { place: line.place }) : say('in stock, in no place yet')),
  ]
    .filter(Boolean)
    .join(', ')
}

const WordsMark = () => (
  <svg viewBox="0 0 34 16" width="34" height="16" aria-hidden="true">
    <path d="M4 4h26M4 8h26M4 12h16" fill="none" stroke="currentColor" strokeWidth="var(--pen-fine)" />
  </svg>
)
