'use client'

import { useCallback, useEffect, useRef, useState } from 'react'
import { afterSent, afterUndo, dropEntry, type Entry, keepEntry, nextToSend, readEntries, waitBeforeTry } from './queue'
import { sendEntry, sendUndo } from './server-calls'

type Queue = {
  /** The latest first. */
  entries: Entry[]
  /** The last try found no connection. */
  isLost: boolean
  /** Keep an entry, new or changed, and send it. */
  put: (entry: Entry) => void
  drop: (entry: Entry) => void
}

/** The entries of this browser for one owner: kept before they are sent, sent one after another, tried again until they are answered. */
export function useQueue(ownerId: string): Queue {
  const [entries, setEntries] = useState<Entry[]>([])
  const [lostInARow, setLostInARow] = useState(0)
  const isSending = useRef(false)

  const readAgain = useCallback(() => setEntries(readEntries(localStorage, { ownerId, now: Date.now() })), [ownerId])

  const put = useCallback(
    (entry: Entry) => {
      keepEntry(localStorage, entry)
      setLostInARow(0)
      readAgain()
    },
    [readAgain],
  )
  const drop = useCallback(
    (entry: Entry) => {
      dropEntry(localStorage, entry)
      readAgain()
    },
    [readAgain],
  )

  useEffect(() => {
    const tryNow = () => {
      setLostInARow(0)
      readAgain()
    }
    readAgain()
    window.addEventListener('online', tryNow)
    window.addEventListener('storage', readAgain)
    return () => {
      window.removeEventListener('online', tryNow)
      window.removeEventListener('storage', readAgain)
    }
  }, [readAgain])

  useEffect(() => {
    const next = nextToSend(entries)
    if (!next || isSending.current) return
    const send = async () => {
      if (isSending.current) return
      isSending.current = true
      const heard = await sendOne(next)
      isSending.current = false
      keepEntry(localStorage, heard.entry)
      setLostInARow((before) => (heard.isLost ? before + 1 : 0))
      readAgain()
    }
    const timer = setTimeout(send, waitBeforeTry(lostInARow))
    return () => clearTimeout(timer)
  }, [entries, lostInARow, readAgain])

  return { entries, isLost: lostInARow > 0, put, drop }
}

/** Send an entry, or take it back: what may have come in unheard is sent once more first, so that it is known what there is to take back. */
async function sendOne(entry: Entry): Promise<{ entry: Entry; isLost: boolean }> {
  const sent = await sendEntry(entry)
  const after = afterSent(entry, sent)
  if (after.state !== 'leaving' || sent.kind === 'lost') return { entry: after, isLost: sent.kind === 'lost' }
  const undone = await sendUndo(entry)
  return { entry: afterUndo(after, undone), isLost: undone.kind === 'lost' }
}
