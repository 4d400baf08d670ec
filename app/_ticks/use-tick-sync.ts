'use client'

import { useRouter } from 'next/navigation'
import { useCallback, useEffect, useMemo, useRef, useState, useSyncExternalStore } from 'react'
import type { Overruled } from './overruled'
import {
  addTicks,
  exchangeTicks,
  onTicks,
  overruledTicks,
  readOverruled,
  removeTicks,
  type TickedList,
  type WaitingTick,
  waitingTicks,
} from './tick-queue'

/** How often one asks what others ticked. */
const askAgainMs = 2_500
/** Without a connection: tried again after this long, then twice as long each time. */
const mostWaitMs = 30_000

type ToldOf = { lineId: string; tickedAt: string | null }

/** What the list answers to ticks, and to being asked what is new. */
export type TickNews<Told> = { revision: number; version: number; lines: Told[]; unknownLineIds?: string[] }

const nothing: readonly WaitingTick[] = []
const none: readonly Overruled[] = []

export type TickSync<Line, Tick extends WaitingTick> = {
  /** By id, as the record and this device together have them. */
  lines: ReadonlyMap<string, Line>
  waiting: number
  isConnected: boolean
  /** Why the ticks that wait are not taken any more; they stay here until they are let go. */
  refusal: string | null
  /** Ticks that were of lines no longer on the list. */
  lost: number
  /** Ticks sent from here that somebody else's later ones stand over, until they were read. */
  overruled: readonly Overruled[]
  readOverruled(): void
  tick(ticks: readonly Omit<Tick, 'tickedAt'>[]): void
  letGo(): void
}

/**
 * Keep a list in step with everybody else's: ticks wait on this device until they are sent, and what others ticked is asked for every few
 * seconds. Without a connection it goes on ticking, and tries again at ever longer waits.
 *
 * @param input.toldOf    a line as the news have it, where they are later than the page
 * @param input.afterOf   a line after a tick that waits here
 * @param input.mayTick   whether a tick would change anything; others are passed over. One function for all of a list's life, and `tick` is
 *                        one too, so that rows that a tick does not change need not be drawn again.
 * @param input.onAnswer  hears each answer to ticks that were sent
 */
export function useTickSync<
  Line extends { id: string; tickedAtMs: number | null },
  Told extends ToldOf,
  Tick extends WaitingTick,
>(input: {
  kind: TickedList['kind']
  listId: string
  version: number
  revision: number
  lines: readonly Line[]
  toldOf: (line: Line, told: Told) => Line
  afterOf: (line: Line, tick: Tick) => Line
  mayTick: (line: Line, tick: Omit<Tick, 'tickedAt'>) => boolean
  onAnswer?: (news: TickNews<Told>) => void
}): TickSync<Line, Tick> {
  const { kind, listId, version, revision, lines: recorded, toldOf, afterOf, mayTick, onAnswer } = input
  const list = useMemo((): TickedList => ({ kind, id: listId }), [kind, listId])
  const router = useRouter()
  const waiting = useSyncExternalStore(
    onTicks,
    () => waitingTicks(list),
    () => nothing,
  )
  const overruled = useSyncExternalStore(
    onTicks,
    () => overruledTicks(list),
    () => none,
  )
  const [news, setNews] = useState<ReadonlyMap<string, Told>>(new Map())
  const [isConnected, setConnected] = useState(true)
  const [refusal, setRefusal] = useState<string | null>(null)
  const [lost, setLost] = useState(0)
  const [, drawAgain] = useState(0)
  const seen = useRef({ revision, version })
  const kick = useRef<() => void>(() => {})
  const hears = useRef(onAnswer)
  const drawn = useRef<ReadonlyMap<string, Line>>(new Map())

  useEffect(() => {
    seen.current = { revision: Math.max(seen.current.revision, revision), version: Math.max(seen.current.version, version) }
  }, [revision, version])

  useEffect(() => {
    hears.current = onAnswer
  }, [onAnswer])

  const take = useCallback(
    (body: TickNews<Told>, isOfTicks: boolean) => {
      seen.current.revision = Math.max(seen.current.revision, body.revision)
      if (body.lines.length > 0)
        setNews((before) => new Map([...before, ...body.lines.map((line) => [line.lineId, line] as const)]))
      const gone = body.unknownLineIds?.length ?? 0
      if (gone > 0) setLost((count) => count + gone)
      if (isOfTicks) hears.current?.(body)
      if (body.version > seen.current.version) {
        seen.current.version = body.version
        router.refresh()
      }
    },
    [router],
  )

  useEffect(() => {
    let isGone = false
    let isAsking = false
    let failures = 0
    let timer: ReturnType<typeof setTimeout>
    const again = (ms: number) => {
      clearTimeout(timer)
      if (!isGone) timer = setTimeout(ask, ms)
    }
    const ask = async () => {
      if (isAsking || isGone) return
      isAsking = true
      const sent = await exchangeTicks(list, seen.current.revision)
      isAsking = false
      if (isGone) return
      if (sent.kind === 'no-connection') {
        failures += 1
        setConnected(false)
        again(Math.min(mostWaitMs, askAgainMs * 2 ** (failures - 1)))
        return
      }
      failures = 0
      setConnected(true)
      if (sent.kind === 'refused') {
        setRefusal(sent.detail)
        router.refresh()
        again(mostWaitMs)
        return
      }
      setRefusal(null)
      take(sent.body as TickNews<Told>, sent.ticks.length > 0)
      again(waitingTicks(list).length > 0 ? 0 : askAgainMs)
    }
    kick.current = () => {
      if (failures === 0) again(0)
    }
    const now = () => {
      failures = 0
      again(0)
    }
    window.addEventListener('online', now)
    document.addEventListener('visibilitychange', now)
    again(waitingTicks(list).length > 0 ? 0 : askAgainMs)
    return () => {
      isGone = true
      clearTimeout(timer)
      window.removeEventListener('online', now)
      document.removeEventListener('visibilitychange', now)
    }
  }, [list, router, take])

  const lines = new Map<string, Line>()
  for (const line of recorded) {
    const told = news.get(line.id)
    const toldAtMs = told?.tickedAt ? Date.parse(told.tickedAt) : null
    // The page was drawn later than the news where it knows of a later tick.
    const isNewer = told && (toldAtMs ?? -1) >= (line.tickedAtMs ?? -1)
    lines.set(line.id, isNewer ? toldOf(line, told) : line)
  }
  for (const tick of waiting) {
    const line = lines.get(tick.lineId)
    if (line) lines.set(tick.lineId, afterOf(line, tick as Tick))
  }

  useEffect(() => {
    drawn.current = lines
  })

  const tick = useCallback(
    (said: readonly Omit<Tick, 'tickedAt'>[]) => {
      const ticks = said.flatMap((tick): WaitingTick[] => {
        const line = drawn.current.get(tick.lineId)
        if (!line || !mayTick(line, tick)) return []
        // Whoever ticks has seen what stands, so theirs is later, whatever their clock says.
        const at = Math.max(Date.now(), (line.tickedAtMs ?? 0) + 1)
        return [{ ...(tick as unknown as WaitingTick), tickedAt: new Date(at).toISOString() }]
      })
      if (ticks.length === 0) return
      addTicks(list, ticks)
      // A page just opened does not listen to the queue yet; its first tick is drawn all the same.
      drawAgain((times) => times + 1)
      kick.current()
    },
    [list, mayTick],
  )

  return {
    lines,
    ...{ waiting: waiting.length, isConnected, refusal, lost, overruled, tick },
    readOverruled: () => readOverruled(list),
    letGo: () => {
      removeTicks(list, waitingTicks(list))
      setRefusal(null)
    },
  }
}
