'use client'

import { useRouter } from 'next/navigation'
import { useEffect, useState } from 'react'

const askAgainMs = 500

/**
 * Ask an address again and again for how some long work stands.
 *
 * @param isOver  whether an answer says the work has ended; then, or where nothing is known of it any more, the page is drawn anew
 * @returns the last answer; null until there is one
 */
export function usePolling<Answer>(address: string, isOver: (answer: Answer) => boolean): Answer | null {
  const router = useRouter()
  const [answer, setAnswer] = useState<Answer | null>(null)

  // biome-ignore lint/correctness/useExhaustiveDependencies: a new function that says the same is no reason to begin again
  useEffect(() => {
    let isGone = false
    let timer: ReturnType<typeof setTimeout>
    const ask = async () => {
      const response = await fetch(address).catch(() => null)
      const said: Answer | null = response?.ok ? await response.json().catch(() => null) : null
      if (isGone) return
      if (response?.status === 404 || (said !== null && isOver(said))) {
        router.refresh()
        return
      }
      if (said !== null) setAnswer(said)
      timer = setTimeout(ask, askAgainMs)
    }
    timer = setTimeout(ask, askAgainMs)
    return () => {
      isGone = true
      clearTimeout(timer)
    }
  }, [address, router])

  return answer
}
