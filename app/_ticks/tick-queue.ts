import { type Overruled, overruledBy, type ToldLine } from './overruled'

/**
 * A tick that waits on this device until it is sent, with whatever else it says. `tickedAt` is an ISO moment by this device's clock; the
 * later tick of a line stands.
 */
export type WaitingTick = { lineId: string; status: string; tickedAt: string; by: string | null }

/** A list whose lines are ticked: one walks past drawers by it, or shops by it. */
export type TickedList = { kind: 'walk' | 'shop'; id: string }
/**
 * What waits under a name of its own: a count's figures (count-figures.ts), what was found beside them (found-things.ts), and what is to be
 * written on the record of a walk once its ticks are sent (carry-outs.ts) too.
 */
export type WaitingList = TickedList | { kind: 'count' | 'found' | 'carry'; id: string }

// In the order they are sent: what is carried out has to be ticked before.
const kinds = ['walk', 'shop', 'count', 'found', 'carry'] as const
const prefixes = {
  ...{ walk: 'larder-walk ', shop: 'larder-shop ', count: 'larder-count ', found: 'larder-found ' },
  carry: 'larder-carry ',
} as const
const addresses = { walk: '/api/v1/walks', shop: '/api/v1/buy/lists' } as const
/** Ticks sent at once; more wait for the next turn. What is bought is written to the stock tick by tick. */
const sentAtOnce = { walk: 1_000, shop: 100 } as const

const keyOf = ({ kind, id }: WaitingList): string => prefixes[kind] + id

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

/** What waits for a list, the oldest first; the same array as long as nothing changes. */
export function waitingTicks(list: WaitingList): readonly WaitingTick[] {
  const key = keyOf(list)
  const text = readText(key)
  if (text === '') return none
  const known = parsed.get(key)
  if (known?.text === text) return known.ticks
  let ticks: readonly WaitingTick[] = none
  try {
    const read: unknown = JSON.parse(text)
    if (Array.isArray(read)) ticks = read.filter(isTick)
  } catch {
    // Something else wrote there; it is no tick of ours.
  }
  parsed.set(key, { text, ticks })
  return ticks
}

/** Let ticks wait. A later tick of a line takes the place of an earlier one that waits. */
export function addTicks(list: WaitingList, ticks: readonly WaitingTick[]): void {
  const lines = new Set(ticks.map(({ lineId }) => lineId))
  const others = waitingTicks(list).filter(({ lineId }) => !lines.has(lineId))
  writeText(keyOf(list), JSON.stringify([...others, ...ticks]))
}

/** Take off what arrived; a line ticked again while they were on their way keeps waiting. */
export function removeTicks(list: WaitingList, sent: readonly WaitingTick[]): void {
  const gone = new Set(sent.map(({ lineId, tickedAt }) => `${lineId} ${tickedAt}`))
  const left = waitingTicks(list).filter(({ lineId, tickedAt }) => !gone.has(`${lineId} ${tickedAt}`))
  writeText(keyOf(list), left.length === 0 ? '' : JSON.stringify(left))
}

/** Lists with ticks that wait on this device. */
export function listsWaiting(): WaitingList[] {
  const keys: string[] = []
  try {
    for (let at = 0; at < window.localStorage.length; at++) keys.push(window.localStorage.key(at) ?? '')
  } catch {
    keys.push(...memory.keys())
  }
  return kinds.flatMap((kind) =>
    keys.flatMap((key) => (key.startsWith(prefixes[kind]) ? [{ kind, id: key.slice(prefixes[kind].length) }] : [])),
  )
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

const overruledKey = ({ kind, id }: WaitingList): string => `larder-overruled ${kind} ${id}`
const noneOverruled: readonly Overruled[] = []
const parsedOverruled = new Map<string, { text: string; lines: readonly Overruled[] }>()

/** Ticks of a list that went from this device, from whatever page, and that another's later ones stand over; until somebody has read it. */
export function overruledTicks(list: WaitingList): readonly Overruled[] {
  const key = overruledKey(list)
  const text = readText(key)
  if (text === '') return noneOverruled
  const known = parsedOverruled.get(key)
  if (known?.text === text) return known.lines
  let lines = noneOverruled
  try {
    lines = JSON.parse(text) as Overruled[]
  } catch {
    // Something else wrote there.
  }
  parsedOverruled.set(key, { text, lines })
  return lines
}

export const readOverruled = (list: WaitingList): void => writeText(overruledKey(list), '')

function keepOverruled(list: WaitingList, over: readonly Overruled[]): void {
  if (over.length === 0) return
  const anew = new Set(over.map(({ lineId }) => lineId))
  const before = overruledTicks(list).filter(({ lineId }) => !anew.has(lineId))
  writeText(overruledKey(list), JSON.stringify([...before, ...over]))
}

const patienceMs = 10_000
/** A tick that is sent later than this has waited for a network. */
const waitedMs = 3_000

export type Sent =
  | { kind: 'answered'; body: unknown; ticks: readonly WaitingTick[] }
  | { kind: 'refused'; detail: string }
  | { kind: 'no-connection' }

/**
 * Send what waits for a list and ask what is new since a revision; with nothing waiting, only ask. What arrived is taken off the list.
 * Nothing here needs a secure context: a shop's own network has none.
 */
export async function exchangeTicks(list: TickedList, since: number): Promise<Sent> {
  const ticks = waitingTicks(list).slice(0, sentAtOnce[list.kind])
  // What waited may have been overruled before the page was drawn, which its news would leave out.
  const hasWaited = ticks.some(({ tickedAt }) => Date.now() - Date.parse(tickedAt) > waitedMs)
  const from = hasWaited ? 0 : since
  const address = `${addresses[list.kind]}/${encodeURIComponent(list.id)}/ticks`
  const stop = new AbortController()
  const timer = setTimeout(() => stop.abort(), patienceMs)
  try {
    const response =
      ticks.length === 0
        ? await fetch(`${address}?since=${since}`, { signal: stop.signal, cache: 'no-store' })
        : await fetch(address, {
            method: 'POST',
            headers: { 'content-type': 'application/json' },
            body: JSON.stringify({ ticks, since: from, sentAt: new Date().toISOString() }),
            signal: stop.signal,
          })
    if (response.status >= 500 || response.status === 408 || response.status === 429) return { kind: 'no-connection' }
    const body = await response.json()
    if (!response.ok) return { kind: 'refused', detail: typeof body?.detail === 'string' ? body.detail : '' }
    removeTicks(list, ticks)
    if (ticks.length > 0) keepOverruled(list, overruledBy(ticks, ((body as { lines?: ToldLine[] }).lines ?? []) as ToldLine[]))
    return { kind: 'answered', body, ticks }
  } catch {
    return { kind: 'no-connection' }
  } finally {
    clearTimeout(timer)
  }
}
