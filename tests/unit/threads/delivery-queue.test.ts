import { describe, expect, it } from 'vitest'
import {
  type Answer,
  afterSent,
  afterUndo,
  dropEntry,
  type Entry,
  keepEntry,
  nextToSend,
  putUpsIn,
  readEntries,
  type Store,
  takenBack,
  waitBeforeTry,
} from '../../../app/threads/delivery/queue'

const anEntry = (over: Partial<Entry> = {}): Entry => ({
  ...{ entryId: 'e1', ownerId: 'shop', threadId: 't1', title: 'Larkholm 0017', homePlaceId: 'p1', homeLabel: 'T2.1' },
  ...{ wholePutUps: 2, lot: null, putUpWord: null, calledWord: 'skein', putUpStrandTenths: null, orderId: null },
  ...{ at: 1_000, state: 'waiting', tries: 0, said: null },
  ...over,
})

function aStore(): Store {
  const map = new Map<string, string>()
  return {
    getItem: (key) => map.get(key) ?? null,
    setItem: (key, value) => void map.set(key, value),
    removeItem: (key) => void map.delete(key),
    key: (at) => [...map.keys()][at] ?? null,
    get length() {
      return map.size
    },
  }
}

const lost: Answer = { kind: 'lost' }
const done: Answer = { kind: 'done' }
const no: Answer = { kind: 'refused', said: 'It was used since.' }

describe('the list of a delivery', () => {
  it('is the same after the page was closed: nothing that was not received is dropped, however old', () => {
    const store = aStore()
    const old = anEntry({ at: 0 })
    const received = anEntry({ entryId: 'e2', at: 0, state: 'received' })
    const fresh = anEntry({ entryId: 'e3', at: 100_000_000, state: 'received' })
    for (const entry of [old, received, fresh]) keepEntry(store, entry)
    keepEntry(store, anEntry({ entryId: 'e4', ownerId: 'hanne' }))
    store.setItem('larder-delivery:broken', '{')
    expect(readEntries(store, { ownerId: 'shop', now: 100_000_001 }).map(({ entryId }) => entryId)).toEqual(['e3', 'e1'])
    dropEntry(store, old)
    expect(readEntries(store, { ownerId: 'shop', now: 100_000_001 })).toHaveLength(1)
  })

  it('is sent in the order it was entered', () => {
    const entries = [anEntry({ entryId: 'b', at: 2 }), anEntry({ entryId: 'a', at: 1 }), anEntry({ at: 0, state: 'received' })]
    expect(nextToSend(entries)?.entryId).toBe('a')
    expect(nextToSend([anEntry({ state: 'refused' })])).toBeNull()
  })

  it('counts what came in or is on its way', () => {
    expect(putUpsIn([anEntry(), anEntry({ state: 'received', wholePutUps: 3 }), anEntry({ state: 'refused' })])).toBe(5)
  })
})

describe('one entry', () => {
  it('stays waiting when no answer comes, and is received when one does', () => {
    const unheard = afterSent(anEntry(), lost)
    expect(unheard).toMatchObject({ state: 'waiting', tries: 1 })
    expect(afterSent(unheard, done)).toMatchObject({ state: 'received', tries: 2 })
    expect(afterSent(unheard, no)).toMatchObject({ state: 'refused', said: 'It was used since.' })
  })

  it('taken back before it was sent is done with; taken back after, it may have been received and must be asked back', () => {
    expect(takenBack(anEntry()).state).toBe('taken back')
    expect(takenBack(anEntry({ tries: 1 })).state).toBe('leaving')
    expect(takenBack(anEntry({ state: 'received', tries: 1 })).state).toBe('leaving')
    expect(takenBack(anEntry({ state: 'refused', tries: 1 })).state).toBe('taken back')
  })

  it('that cannot be taken back stays received, with what was said', () => {
    const leaving = anEntry({ state: 'leaving', tries: 1 })
    expect(afterUndo(leaving, lost).state).toBe('leaving')
    expect(afterUndo(leaving, done).state).toBe('taken back')
    expect(afterUndo(leaving, no)).toMatchObject({ state: 'received', said: 'It was used since.' })
    expect(afterSent(leaving, no).state).toBe('taken back')
    expect(afterSent(leaving, done).state).toBe('leaving')
  })
})

describe('waitBeforeTry', () => {
  it('waits longer each time, and never more than half a minute', () => {
    expect([0, 1, 2, 3, 4, 5, 50].map(waitBeforeTry)).toEqual([0, 2_000, 4_000, 8_000, 16_000, 30_000, 30_000])
  })
})
