'use client'

import { useEffect } from 'react'
import { exchangeTicks, listsWaiting, waitingTicks } from './tick-queue'

/** Ticks of a list that was closed before they could be sent are sent from the next page that is opened. */
export function SendWaiting() {
  useEffect(() => {
    const send = () => {
      for (const list of listsWaiting()) if (waitingTicks(list).length > 0) void exchangeTicks(list, 0)
    }
    send()
    window.addEventListener('online', send)
    return () => window.removeEventListener('online', send)
  }, [])
  return null
}
