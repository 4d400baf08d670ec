'use client'

import { useCallback, useRef, useState } from 'react'
import { afterShopTick, type ShopLineStatus, type ShopSaid } from '#lib/planning/buying/shop-list'
import type { WaitingTick } from '../../../_ticks/tick-queue'
import { type TickNews, type TickSync, useTickSync } from '../../../_ticks/use-tick-sync'
import type { DeskLine } from './rows'

type Told = ShopSaid & {
  lineId: string
  tickedAt: string | null
  tickedBy: string | null
  isInStock: boolean
  place: string | null
}
/** What is said of a line here; what has no figure is as the list says. */
export type SaidHere = Omit<ShopSaid, 'status'> & {
  status: ShopLineStatus
  place: string | null
  remembersPrice: boolean
}
type ShopTick = WaitingTick & SaidHere
type News = TickNews<Told> & { held?: { lineId: string; why: string }[] }

/** As many as the list says, of no lot, with nothing said of the price. */
export const plainly = (status: ShopLineStatus): SaidHere => ({
  ...{ status, boughtPutUps: null, lot: null, paidMinor: null, insteadThreadId: null, place: null, remembersPrice: false },
})

export type ShopSync = Omit<TickSync<DeskLine, ShopTick>, 'tick'> & {
  /** Lines that stay as they were though they were ticked otherwise here, and why. */
  held: ReadonlyMap<string, string>
  /** @param insteadName  what the other thread is called, so that it can be named before the record does */
  tick(lineId: string, said: SaidHere, by: string | null, insteadName?: string): void
}

const isSame = (line: DeskLine, said: SaidHere) =>
  line.status === said.status &&
  line.boughtPutUps === said.boughtPutUps &&
  line.lot === said.lot &&
  line.paidMinor === said.paidMinor &&
  line.insteadThreadId === said.insteadThreadId &&
  said.place === null

const mayTick = (line: DeskLine, { lineId: _lineId, by: _by, ...said }: Omit<ShopTick, 'tickedAt'>): boolean =>
  !isSame(line, said)

/** A list to shop by in step with everybody else's. */
export function useShopSync(input: { listId: string; version: number; revision: number; lines: readonly DeskLine[] }): ShopSync {
  const [held, setHeld] = useState<ReadonlyMap<string, string>>(new Map())
  const names = useRef(
    new Map(
      input.lines.flatMap(({ insteadThreadId, insteadName }) =>
        insteadThreadId !== null && insteadName !== null ? [[insteadThreadId, insteadName] as const] : [],
      ),
    ),
  )
  const nameOf = (threadId: string | null) => (threadId === null ? null : (names.current.get(threadId) ?? null))
  const { tick, ...sync } = useTickSync<DeskLine, Told, ShopTick>({
    ...{ ...input, kind: 'shop' },
    toldOf: (line, { lineId: _lineId, tickedAt, ...told }) => ({
      ...{ ...line, ...told, tickedAtMs: tickedAt ? Date.parse(tickedAt) : null },
      insteadName: told.insteadThreadId === line.insteadThreadId ? line.insteadName : nameOf(told.insteadThreadId),
    }),
    afterOf: (line, { status, boughtPutUps, lot, paidMinor, insteadThreadId, tickedAt, by }) => {
      const said = { status, boughtPutUps, lot, paidMinor, insteadThreadId, tickedAtMs: Date.parse(tickedAt), by }
      return { ...line, ...afterShopTick(line, said), insteadName: nameOf(insteadThreadId), place: null }
    },
    mayTick,
    onAnswer: (news) => setHeld(new Map((news as News).held?.map(({ lineId, why }) => [lineId, why]))),
  })
  const tickLine = useCallback<ShopSync['tick']>(
    (lineId, said, by, insteadName) => {
      if (insteadName !== undefined && said.insteadThreadId !== null) names.current.set(said.insteadThreadId, insteadName)
      tick([{ ...said, lineId, by }])
    },
    [tick],
  )
  return { ...sync, held, tick: tickLine }
}
