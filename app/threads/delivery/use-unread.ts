'use client'

import { useCallback, useEffect, useState } from 'react'
import * as z from 'zod/mini'

/** A text typed or scanned while there was no connection to look it up, and how many were in the hand. */
export type Unread = { text: string; count: number }

const key = 'larder-delivery-unread'
const unreadSchema = z.catch(z.array(z.object({ text: z.string(), count: z.int().check(z.minimum(1)) })), [])

function readUnread(): Unread[] {
  try {
    return unreadSchema.parse(JSON.parse(localStorage.getItem(key) ?? '[]'))
  } catch {
    return []
  }
}

/** What could not be looked up, kept in this browser until it is. */
export function useUnread() {
  const [unread, setUnread] = useState<Unread[]>([])
  useEffect(() => setUnread(readUnread()), [])
  const keep = useCallback((changed: Unread[]) => {
    localStorage.setItem(key, JSON.stringify(changed))
    setUnread(changed)
  }, [])
  const addUnread = useCallback(
    (text: string, count: number) => {
      const before = readUnread()
      const known = before.find((one) => one.text === text)
      const others = before.filter((one) => one !== known)
      keep([...others, { text, count: (known?.count ?? 0) + count }])
    },
    [keep],
  )
  const dropUnread = useCallback((text: string) => keep(readUnread().filter((one) => one.text !== text)), [keep])
  return { unread, addUnread, dropUnread }
}
