'use client'

import { useCallback, useEffect, useReducer, useRef } from 'react'
import { type RowsAnswer, rowsAtOnce } from './rows-answer'

type Held = { revision: number; total: number; runs: RowsAnswer<unknown>['runs']; blocks: Map<number, readonly unknown[]> }

/** Lists looked at lately, so that coming back to one draws it at once. */
const held = new Map<string, Held>()
const listsHeld = 4
/** Blocks of one list that are kept: some ten thousand rows. */
const blocksHeld = 120
/** Scrolled past quicker than this, a block is not asked for. */
const restMs = 60

function takeIn(address: string, answer: RowsAnswer<unknown>): void {
  const { revision, total } = answer
  const before = held.get(address)
  // Of another state of the collection: nothing of it may stand beside the new rows.
  const isSame = before?.revision === revision
  const blocks = isSame ? before.blocks : new Map<number, readonly unknown[]>()
  // The same headings come with every block; as long as they are the same object, nothing is reckoned anew.
  const runs = isSame ? before.runs : answer.runs
  blocks.delete(answer.from / rowsAtOnce)
  blocks.set(answer.from / rowsAtOnce, answer.rows)
  for (const block of blocks.keys()) {
    if (blocks.size <= blocksHeld) break
    blocks.delete(block)
  }
  held.delete(address)
  held.set(address, { revision, total, runs, blocks })
  for (const other of held.keys()) {
    if (held.size <= listsHeld) break
    held.delete(other)
  }
}

export type Rows<Row> = {
  /** Null until the first rows are there. */
  list: { total: number; runs: RowsAnswer<Row>['runs']; revision: number } | null
  rowAt(index: number): Row | null
  /** Asks for the rows from `first` to `last` that are not there, once scrolling rests. */
  want(first: number, last: number): void
  /** The ids of a run of rows, both ends included. @throws when they do not come */
  idsBetween(first: number, last: number): Promise<string[]>
  hasFailed: boolean
}

/**
 * The rows of a long list, fetched in blocks as they are wanted.
 *
 * @param address   answers a `RowsAnswer` to `…&from=`
 * @param revision  as the page knows it; a newer one has everything fetched anew, the old rows standing until then
 */
export function useRows<Row>(address: string, revision: number, startAt: number): Rows<Row> {
  const [, redraw] = useReducer((count: number) => count + 1, 0)
  const asked = useRef(new Map<number, AbortController>())
  const waiting = useRef<ReturnType<typeof setTimeout>>(undefined)
  const hasFailed = useRef(false)

  const fetchBlock = useCallback(
    async (block: number) => {
      if (asked.current.has(block)) return
      const control = new AbortController()
      asked.current.set(block, control)
      try {
        const response = await fetch(`${address}&from=${block * rowsAtOnce}`, { signal: control.signal })
        if (!response.ok) throw new Error(`useRows: ${address} was answered with ${response.status}`)
        takeIn(address, (await response.json()) as RowsAnswer<unknown>)
        hasFailed.current = false
      } catch {
        if (control.signal.aborted) return
        hasFailed.current = true
      } finally {
        if (asked.current.get(block) === control) asked.current.delete(block)
      }
      redraw()
    },
    [address],
  )

  useEffect(() => {
    const mine = asked.current
    const first = Math.floor(startAt / rowsAtOnce)
    const here = held.get(address)
    if (!here || here.revision < revision || !here.blocks.has(first)) void fetchBlock(first)
    return () => {
      clearTimeout(waiting.current)
      for (const control of mine.values()) control.abort()
      mine.clear()
    }
  }, [address, revision, startAt, fetchBlock])

  const want = useCallback(
    (first: number, last: number) => {
      clearTimeout(waiting.current)
      const lacks = (block: number) => !held.get(address)?.blocks.has(block)
      const blocks: number[] = []
      for (let block = Math.floor(first / rowsAtOnce); block <= Math.floor(last / rowsAtOnce); block++)
        if (lacks(block)) blocks.push(block)
      if (blocks.length === 0) return
      waiting.current = setTimeout(() => {
        // What was asked for and scrolled past is let go of.
        for (const [block, control] of asked.current) {
          if (blocks.includes(block)) continue
          control.abort()
          asked.current.delete(block)
        }
        for (const block of blocks) void fetchBlock(block)
      }, restMs)
    },
    [address, fetchBlock],
  )

  const here = held.get(address)
  return {
    list: here ? { total: here.total, runs: here.runs, revision: here.revision } : null,
    rowAt: (index) => (here?.blocks.get(Math.floor(index / rowsAtOnce))?.[index % rowsAtOnce] as Row | undefined) ?? null,
    want,
    idsBetween: async (first, last) => {
      const response = await fetch(`${address}&from=${first}&to=${last}`)
      if (!response.ok) throw new Error(`useRows: ${address} was answered with ${response.status}`)
      return ((await response.json()) as { ids: string[] }).ids
    },
    hasFailed: hasFailed.current,
  }
}
