import type { TickedStatus } from '#lib/project/walk'

/** A tick that waits on this device until it is sent. `tickedAt` is an ISO moment by this device's clock. */
export type WaitingTick = { lineId: string; status: TickedStatus; tickedAt: string; by: string | null }

const prefix = 'larder-walk '
const changed = 'larder-ticks'
/** Storage may be closed to a page; the ticks then wait only as long as the page is open. */
const memory = new Map<string, string>()
const parsed = new Map<string, { text: string; ticks: readonly WaitingTick[] }>()
const none: readonly WaitingTick[] = []

function readText(key: string): string {
  try {
    return window.localStorage.getItem(key) ?? memory.get(key) ?? ''
  } catch {
    return memory.get(key) ?? ''
  }
}

function writeText(key: string, text: string): void {
  memory.delete(key)
  try {
    if (text === '') window.localStorage.removeItem(key)
    else window.localStorage.setItem(key, text)
  } catch {
    memory.set(key, text)
  }
  window.dispatchEvent(new Event(changed))
}

const isTick = (value: unknown): value is WaitingTick =>
  typeof value === 'object' && value !== null && 'lineId' in value && 'status' in value && 'tickedAt' in value

/** What waits for a walk, the oldest first; the same list as long as nothing changes. */
export function waitingTicks(walkId: string): readonly WaitingTick[] {
  const text = readText(prefix + walkId)
  if (text === '') return none
  const known = parsed.get(walkId)
  if (known?.text === text) return known.ticks
  let ticks: readonly WaitingTick[] = none
  try {
    const read: unknown = JSON.parse(text)
    if (Array.isArray(read)) ticks = read.filter(isTick)
  } catch {
    // Something else wrote there; it is no tick of ours.
  }
  parsed.set(walkId, { text, ticks })
  return ticks
}

/** Let ticks wait. A later tick of a line takes the place of an earlier one that waits. */
export function addTicks(walkId: string, ticks: readonly WaitingTick[]): void {
  const lines = new Set(ticks.map(({ lineId }) => lineId))
  const others = waitingTicks(walkId).filter(({ lineId }) => !lines.has(lineId))
  writeText(prefix + walkId, JSON.stringify([...others, ...ticks]))
}

/** Take off what arrived; a line ticked again while they were on their way keeps waiting. */
export function removeTicks(walkId: string, sent: readonly WaitingTick[]): void {
  const gone = new Set(sent.map(({ lineId, tickedAt }) => `${lineId} ${tickedAt}`))
  const left = waitingTicks(walkId).filter(({ lineId, tickedAt }) => !gone.has(`${lineId} ${tickedAt}`))
  writeText(prefix + walkId, left.length === 0 ? '' : JSON.stringify(left))
}

/** Walks with ticks that wait on this device. */
export function walksWaiting(): string[] {
  const keys: string[] = []
  try {
    for (let at = 0; at < window.localStorage.length; at++) keys.push(window.localStorage.key(at) ?? '')
  } catch {
    keys.push(...memory.keys())
  }
  return keys.flatMap((key) => (key.startsWith(prefix) ? [key.slice(prefix.length)] : []))
}

/** Hear of ticks that come and go, of other pages of this device too. */
export function onTicks(listener: () => void): () => void {
  window.addEventListener(changed, listener)
  window.addEventListener('storage', listener)
  return () => {
    window.removeEventListener(changed, listener)
    window.removeEventListener('storage', listener)
  }
}

/** Ticks sent at once; more wait for the next turn. */
const sentAtOnce = 1_000
const patienceMs = 10_000

export type Sent =
  | { kind: 'answered'; body: unknown; ticks: readonly WaitingTick[] }
  | { kind: 'refused'; detail: string }
  | { kind: 'no-connection' }

/**
 * Send what waits for a walk and ask what is new since a revision; with nothing waiting, only ask. What arrived is taken off the list.
 * Nothing here needs a secure context: a shop's own network has none.
 */
export async function exchangeTicks(walkId: string, since: number): Promise<Sent> {
  const ticks = waitingTicks(walkId).slice(0, sentAtOnce)
  const address = `/api/v1/walks/${encodeURIComponent(walkId)}/ticks`
  const stop = new AbortController()
  const timer = setTimeout(() => stop.abort(), patienceMs)
  try {
    const response =
      ticks.length === 0
        ? await fetch(`${address}?since=${since}`, { signal: stop.signal, cache: 'no-store' })
        : await fetch(address, {
            method: 'POST',
            headers: { 'content-type': 'application/json' },
            body: JSON.stringify({ ticks, since, sentAt: new Date().toISOString() }),
            signal: stop.signal,
          })
    if (response.status >= 500 || response.status === 408 || response.status === 429) return { kind: 'no-connection' }
    const body = await response.json()
    if (!response.ok) return { kind: 'refused', detail: typeof body?.detail === 'string' ? body.detail : '' }
    removeTicks(walkId, ticks)
    return { kind: 'answered', body, ticks }
  } catch {
    return { kind: 'no-connection' }
  } finally {
    clearTimeout(timer)
  }
}
