'use client'

import { useRouter } from 'next/navigation'
import { useEffect, useTransition } from 'react'

const askAgainMs = 1_500

/** Draws the list anew while something of it is still being read. */
export function RefreshWhileReading({ isReading }: { isReading: boolean }) {
  const router = useRouter()
  // Asked again only once the answer before is drawn: on a busy machine answers would else overtake one another for ever.
  const [isDrawing, draw] = useTransition()
  useEffect(() => {
    if (!isReading || isDrawing) return
    const timer = setTimeout(() => draw(() => router.refresh()), askAgainMs)
    return () => clearTimeout(timer)
  }, [isReading, isDrawing, router])
  return null
}
