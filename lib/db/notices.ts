import 'server-only'
import pg from 'pg'
import { log } from '#lib/log/log'

/** Begun again after so long, each time twice as long, while the database is away. */
const firstPauseMs = 500
const longestPauseMs = 30_000

type Heard = () => void
type Listening = {
  url: string
  client: pg.Client | null
  hearers: Map<string, Set<Heard>>
  /** False where the database has no notices (it speaks PostgreSQL's protocol and is another), or is away. */
  isOn: boolean
  pause: NodeJS.Timeout | null
  pauseMs: number
}

// Everything bundled apart hears by one connection.
const shared = globalThis as unknown as { larderNotices?: Map<string, Listening> }
shared.larderNotices ??= new Map()
const all = shared.larderNotices

/**
 * Hear of it when any process tells of something in this database (NOTIFY). Where that is not to be had, nothing is heard: whoever listens
 * also looks by itself now and then.
 *
 * @returns ends it
 */
export function listen(url: string, channel: string, heard: Heard): () => void {
  const mine: Listening = all.get(url) ?? {
    url,
    client: null,
    hearers: new Map(),
    isOn: false,
    pause: null,
    pauseMs: firstPauseMs,
  }
  const isNew = !all.has(url)
  all.set(url, mine)
  const hearers = mine.hearers.get(channel) ?? new Set()
  mine.hearers.set(channel, hearers.add(heard))
  if (isNew) void connect(mine)
  else if (hearers.size === 1 && mine.isOn) void mine.client?.query(`LISTEN ${channel}`).catch(() => {})
  return () => {
    hearers.delete(heard)
    if ([...mine.hearers.values()].some((set) => set.size > 0)) return
    all.delete(url)
    mine.isOn = false
    if (mine.pause) clearTimeout(mine.pause)
    void mine.client?.end().catch(() => {})
  }
}

/** Whether notices are heard just now. */
export const isListening = (url: string): boolean => all.get(url)?.isOn ?? false

async function connect(mine: Listening): Promise<void> {
  const client = new pg.Client({ connectionString: mine.url, application_name: 'chart-larder-notices', keepAlive: true })
  mine.client = client
  let isOver = false
  const lost = (error?: Error) => {
    if (isOver) return
    isOver = true
    if (mine.isOn)
      log.warn('Notices from the database are not heard for the moment; it is asked now and then instead.', { error })
    mine.isOn = false
    void client.end().catch(() => {})
    if (all.get(mine.url) !== mine) return
    mine.pause = setTimeout(() => void connect(mine), mine.pauseMs * (0.5 + Math.random()))
    mine.pause.unref()
    mine.pauseMs = Math.min(mine.pauseMs * 2, longestPauseMs)
  }
  client.on('error', lost)
  client.on('end', () => lost())
  client.on('notification', ({ channel }) => {
    for (const heard of mine.hearers.get(channel) ?? []) heard()
  })
  try {
    await client.connect()
    for (const channel of mine.hearers.keys()) await client.query(`LISTEN ${channel}`)
    mine.isOn = true
    mine.pauseMs = firstPauseMs
    // What was told while nobody listened was missed.
    for (const hearers of mine.hearers.values()) for (const heard of hearers) heard()
  } catch (error) {
    // No such statement there: it will not come, so it is asked for rarely.
    if ('severity' in (error as object)) mine.pauseMs = longestPauseMs
    lost(error as Error)
  }
}
