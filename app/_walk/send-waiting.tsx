'use client'

import { useEffect } from 'react'
import { exchangeTicks, waitingTicks, walksWaiting } from './tick-queue'

/** Ticks of a list that was closed before they could be sent are sent from the next page that is opened. */
export function SendWaiting() {
  useEffect(() => {
    const send = () => {
      for (const walkId of walksWaiting()) if (waitingTicks(walkId).length > 0) void exchangeTicks(walkId, 0)
    }
    send()
    window.addEventListener('online', send)
    return () => window.removeEventListener('online', send)
  }, [])
  return null
}
