'use client'

import { useEffect } from 'react'
import { sendCarryOut } from './carry-outs'
import { sendFigures } from './count-figures'
import { sendFound } from './found-things'
import { exchangeTicks, listsWaiting, waitingTicks } from './tick-queue'

/** Ticks and counts of a list that was closed before they could be sent are sent from the next page that is opened. */
export function SendWaiting() {
  useEffect(() => {
    const send = () => {
      for (const list of listsWaiting()) {
        if (waitingTicks(list).length === 0) continue
        if (list.kind === 'count') void sendFigures(list.id)
        else if (list.kind === 'found') void sendFound(list.id)
        else if (list.kind === 'carry') void sendCarryOut(list.id)
        else void exchangeTicks({ kind: list.kind, id: list.id }, 0)
      }
    }
    send()
    window.addEventListener('online', send)
    return () => window.removeEventListener('online', send)
  }, [])
  return null
}
