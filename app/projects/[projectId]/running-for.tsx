'use client'

import { useEffect, useState } from 'react'
import { minutesWords } from '#words/work'

type RunningForProps = {
  /** ISO 8601. */
  since: string
  /** How long it ran when the page was drawn. */
  minutes: number
}

/** How long a timer has run, by the minute. The server has its start, so a page that is drawn anew goes on from there. */
export function RunningFor({ since, minutes }: RunningForProps) {
  const [ran, setRan] = useState(minutes)
  useEffect(() => {
    const look = () => setRan(Math.max(0, Math.floor((Date.now() - Date.parse(since)) / 60_000)))
    look()
    const clock = setInterval(look, 10_000)
    return () => clearInterval(clock)
  }, [since])
  return <span data-timer>{minutesWords(ran)}</span>
}
