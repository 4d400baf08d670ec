'use client'

import { useRouter } from 'next/navigation'
import { useCallback, useEffect, useRef, useState, useSyncExternalStore } from 'react'
import { afterTick, type TickedStatus, type WalkLineStatus } from '#lib/project/walk'
import { addTicks, exchangeTicks, onTicks, removeTicks, type WaitingTick, waitingTicks } from '../../_walk/tick-queue'
import type { DeskLine } from './rows'

/** How often one asks what others ticked. */
const askAgainMs = 2_500
/** Without a connection: tried again after this long, then twice as long each time. */
const mostWaitMs = 30_000

type News = {
  revision: number
  version: number
  lines: { lineId: string; status: WalkLineStatus; tickedAt: string | null; tickedBy: string | null; isCarried: boolean }[]
  unknownLineIds?: string[]
}

const nothing: readonly WaitingTick[] = []

export type WalkSync = {
  /** By id, as the record and this device together have them. */
  lines: ReadonlyMap<string, DeskLine>
  waiting: number
  isConnected: boolean
  /** Why the ticks that wait are not taken any more; they stay here until they are let go. */
  refusal: string | null
  /** Ticks that were of lines no longer on the list. */
  lost: number
  tick(lineIds: readonly string[], status: TickedStatus, by: string | null): void
  letGo(): void
}

/**
 * Keep a list in step with everybody else's: ticks wait on this device until they are sent, and what others ticked is asked for every few
 * seconds. Without a connection it goes on ticking, and tries again at ever longer waits.
 */
export function useWalkSync({
  walkId,
  version,
  revision,
  lines: recorded,
}: {
  walkId: string
  version: number
  revision: number
  lines: readonly DeskLine[]
}): WalkSync {
  const router = useRouter()
  const waiting = useSyncExternalStore(
    onTicks,
    () => waitingTicks(walkId),
    () => nothing,
  )
  const [news, setNews] = useState<{ of: number; lines: ReadonlyMap<string, News['lines'][number]> }>({
    of: revision,
    lines: new Map(),
  })
  const [isConnected, setConnected] = useState(true)
  const [refusal, setRefusal] = useState<string | null>(null)
  const [lost, setLost] = useState(0)
  const seen = useRef({ revision, version })
  const kick = useRef<() => void>(() => {})

  useEffect(() => {
    seen.current = { revision: Math.max(seen.current.revision, revision), version: Math.max(seen.current.version, version) }
  }, [revision, version])

  const take = useCallback(
    (body: News) => {
      seen.current.revision = Math.max(seen.current.revision, body.revision)
      if (body.lines.length > 0)
        setNews((before) => ({
          of: before.of,
          lines: new Map([...before.lines, ...body.lines.map((line) => [line.lineId, line] as const)]),
        }))
      const gone = body.unknownLineIds?.length ?? 0
      if (gone > 0) setLost((count) => count + gone)
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
      const sent = await exchangeTicks(walkId, seen.current.revision)
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
      take(sent.body as News)
      again(waitingTicks(walkId).length > 0 ? 0 : askAgainMs)
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
    again(waitingTicks(walkId).length > 0 ? 0 : askAgainMs)
    return () => {
      isGone = true
      clearTimeout(timer)
      window.removeEventListener('online', now)
      document.removeEventListener('visibilitychange', now)
    }
  }, [walkId, router, take])

  const lines = new Map<string, DeskLine>()
  for (const line of recorded) {
    const told = news.lines.get(line.id)
    const toldAtMs = told?.tickedAt ? Date.parse(told.tickedAt) : null
    // The page was drawn later than the news where it knows of a later tick.
    const isNewer = told && (toldAtMs ?? -1) >= (line.tickedAtMs ?? -1)
    lines.set(
      line.id,
      isNewer
        ? {
            ...line,
            status: told.status,
            tickedAtMs: toldAtMs,
            tickedBy: told.tickedBy,
            isCarried: line.isCarried || told.isCarried,
          }
        : line,
    )
  }
  for (const { lineId, status, tickedAt, by } of waiting) {
    const line = lines.get(lineId)
    if (line && !line.isCarried)
      lines.set(lineId, { ...line, ...afterTick(line, { status, tickedAtMs: Date.parse(tickedAt), by }) })
  }

  return {
    lines,
    ...{ waiting: waiting.length, isConnected, refusal, lost },
    tick: (lineIds, status, by) => {
      const ticks = lineIds.flatMap((lineId): WaitingTick[] => {
        const line = lines.get(lineId)
        if (!line || line.isCarried || line.status === status) return []
        // Whoever ticks has seen what stands, so theirs is later, whatever their clock says.
        const at = Math.max(Date.now(), (line.tickedAtMs ?? 0) + 1)
        return [{ lineId, status, tickedAt: new Date(at).toISOString(), by }]
      })
      if (ticks.length === 0) return
      addTicks(walkId, ticks)
      kick.current()
    },
    letGo: () => {
      removeTicks(walkId, waitingTicks(walkId))
      setRefusal(null)
    },
  }
}
