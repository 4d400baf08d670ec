'use client'

import { useCallback } from 'react'
import { afterTick, type TickedStatus, type WalkLineStatus } from '#lib/project/walk'
import type { WaitingTick } from '../../_ticks/tick-queue'
import { type TickSync, useTickSync } from '../../_ticks/use-tick-sync'
import type { DeskLine } from './rows'

type Told = { lineId: string; status: WalkLineStatus; tickedAt: string | null; tickedBy: string | null; isCarried: boolean }
type WalkTick = WaitingTick & { status: TickedStatus }

export type WalkSync = Omit<TickSync<DeskLine, WalkTick>, 'tick'> & {
  tick(lineIds: readonly string[], status: TickedStatus, by: string | null): void
}

const mayTick = ({ isCarried, status }: DeskLine, tick: { status: TickedStatus }): boolean => !isCarried && status !== tick.status

/** A walk's list in step with everybody else's; what is carried out is ticked no more. */
export function useWalkSync({
  walkId,
  version,
  revision,
  lines,
}: {
  walkId: string
  version: number
  revision: number
  lines: readonly DeskLine[]
}): WalkSync {
  const sync = useTickSync<DeskLine, Told, WalkTick>({
    ...{ kind: 'walk', listId: walkId, version, revision, lines },
    toldOf: (line, { status, tickedAt, tickedBy, isCarried }) => ({
      ...{ ...line, status, tickedBy, tickedAtMs: tickedAt ? Date.parse(tickedAt) : null },
      isCarried: line.isCarried || isCarried,
    }),
    afterOf: (line, { status, tickedAt, by }) =>
      line.isCarried ? line : { ...line, ...afterTick(line, { status, tickedAtMs: Date.parse(tickedAt), by }) },
    mayTick,
  })
  const { tick: tickLines } = sync
  const tick = useCallback<WalkSync['tick']>(
    (lineIds, status, by) => tickLines(lineIds.map((lineId) => ({ lineId, status, by }))),
    [tickLines],
  )
  return { ...sync, tick }
}
