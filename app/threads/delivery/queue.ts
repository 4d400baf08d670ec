// The small build: this is read in the browser.
import * as z from 'zod/mini'

/** A thread as the desk needs it; what the API's look-up gives. */
export type DeskThread = {
  threadId: string
  /** Larkholm stranded 0017 Straw. */
  title: string
  lineId: string
  strands: number
  putUpWord: string
  lotsMatter: boolean
  /** Its colour as a browser takes it, or null. */
  hex: string | null
  isSolid: boolean
  heldPutUps: number
  homes: { placeId: string; label: string; pathText: string }[]
  putUps: { word: string | null; strandTenths: number }[]
  lots: string[]
  orders: {
    orderId: string
    putUps: number
    receivedPutUps: number
    lot: string | null
    orderedOn: string
    supplier: string | null
  }[]
}

/**
 * Where an entry is on its way. `waiting`: still to be received; `received`; `refused`, with what was said; `leaving`: to be taken back;
 * `taken back`. What was sent without an answer may have been received: it is sent again until it is known.
 */
export const entryStates = ['waiting', 'received', 'refused', 'leaving', 'taken back'] as const
export type EntryState = (typeof entryStates)[number]

const entrySchema = z.object({
  entryId: z.string(),
  ownerId: z.string(),
  threadId: z.string(),
  title: z.string(),
  homePlaceId: z.nullable(z.string()),
  homeLabel: z.string(),
  wholePutUps: z.int().check(z.minimum(1)),
  lot: z.nullable(z.string()),
  putUpWord: z.nullable(z.string()),
  /** What one is called, for the list. */
  calledWord: z.string(),
  putUpStrandTenths: z.nullable(z.int()),
  orderId: z.nullable(z.string()),
  /** Milliseconds since 1970, for the order of the list. */
  at: z.number(),
  state: z.enum(entryStates),
  /** How often it was sent. */
  tries: z.int(),
  said: z.nullable(z.string()),
})

export type Entry = z.infer<typeof entrySchema>

const keyPrefix = 'larder-delivery:'
/** What was received is shown for the day; what was not is kept until it is. */
const shownForMs = 14 * 60 * 60 * 1000

/** The part of a browser's store that is used: each entry has a key of its own, so that two pages do not undo each other's. */
export type Store = Pick<Storage, 'getItem' | 'setItem' | 'removeItem' | 'key' | 'length'>

/** Every entry kept in this browser for an owner, the latest first. Old ones that are done with are dropped, broken ones passed over. */
export function readEntries(store: Store, asked: { ownerId: string; now: number }): Entry[] {
  const keys = Array.from({ length: store.length }, (_, at) => store.key(at)).filter((key) => key?.startsWith(keyPrefix))
  const entries: Entry[] = []
  for (const key of keys) {
    const entry = parseEntry(store.getItem(key as string))
    if (!entry) continue
    if (isDone(entry) && asked.now - entry.at > shownForMs) store.removeItem(key as string)
    else if (entry.ownerId === asked.ownerId) entries.push(entry)
  }
  return entries.sort((a, b) => b.at - a.at || (a.entryId < b.entryId ? 1 : -1))
}

function parseEntry(text: string | null): Entry | null {
  try {
    const read = entrySchema.safeParse(JSON.parse(text ?? ''))
    return read.success ? read.data : null
  } catch {
    return null
  }
}

export const keepEntry = (store: Store, entry: Entry): void =>
  store.setItem(`${keyPrefix}${entry.entryId}`, JSON.stringify(entry))

export const dropEntry = (store: Store, entry: Entry): void => store.removeItem(`${keyPrefix}${entry.entryId}`)

const isDone = ({ state }: Entry): boolean => state === 'received' || state === 'taken back'

/** The entry to be sent next: the oldest that is still on its way. */
export const nextToSend = (entries: readonly Entry[]): Entry | null =>
  entries.filter(({ state }) => state === 'waiting' || state === 'leaving').sort((a, b) => a.at - b.at)[0] ?? null

/** What one answer of the server comes to. `lost`: no answer, or a fault on its side. */
export type Answer = { kind: 'lost' } | { kind: 'done' } | { kind: 'refused'; said: string }

/** An entry after it was sent: received, refused, or still to be sent. */
export function afterSent(entry: Entry, answer: Answer): Entry {
  const tries = entry.tries + 1
  if (answer.kind === 'lost') return { ...entry, tries }
  if (answer.kind === 'done') return { ...entry, tries, state: entry.state === 'leaving' ? 'leaving' : 'received', said: null }
  // It never came in, so there is nothing to take back.
  if (entry.state === 'leaving') return { ...entry, tries, state: 'taken back', said: null }
  return { ...entry, tries, state: 'refused', said: answer.said }
}

/** An entry after it was asked to be taken back: refused, it stays received. */
export function afterUndo(entry: Entry, answer: Answer): Entry {
  if (answer.kind === 'lost') return { ...entry, tries: entry.tries + 1 }
  if (answer.kind === 'refused') return { ...entry, state: 'received', said: answer.said }
  return { ...entry, state: 'taken back', said: null }
}

/** An entry the person takes back: one that was never sent is done with at once. */
export function takenBack(entry: Entry): Entry {
  const isKnownOut = entry.state === 'refused' || (entry.state === 'waiting' && entry.tries === 0)
  return { ...entry, state: isKnownOut ? 'taken back' : 'leaving', said: null }
}

const longestWaitMs = 30_000

/** How long to wait before trying again, after so many tries in a row without an answer: longer each time, up to half a minute. */
export const waitBeforeTry = (lostInARow: number): number =>
  lostInARow === 0 ? 0 : Math.min(longestWaitMs, 1_000 * 2 ** Math.min(10, lostInARow))

/** Whole put-ups of the entries that came in or are on their way, for the foot of the list. */
export const putUpsIn = (entries: readonly Entry[]): number =>
  entries.reduce((sum, { state, wholePutUps }) => sum + (state === 'received' || state === 'waiting' ? wholePutUps : 0), 0)
