'use client'

import { usePathname, useRouter } from 'next/navigation'
import { useEffect, useRef, useState } from 'react'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { Link } from '#ui/link'
import { momentOf } from './moment'
import s from './seen-line.module.css'

const askAgainMs = 10_000

/**
 * Says that a page is as it was seen, and when. The worker marks such a page at its root element (`data-seen-at`), so that the line has
 * its room before the scripts run; as soon as the server answers again, the page is drawn anew and the line goes.
 */
export function SeenLine() {
  const router = useRouter()
  const path = usePathname()
  const [seenAt, setSeenAt] = useState<string | null>(null)
  const cameAt = useRef(path)

  useEffect(() => {
    const root = document.documentElement
    const cleared = () => {
      delete root.dataset.seenAt
      setSeenAt(null)
    }
    // Another page came from the server meanwhile.
    if (cameAt.current !== path) {
      cameAt.current = path
      cleared()
    }
    if (!root.dataset.seenAt) return
    setSeenAt(root.dataset.seenAt)
    const ask = async () => {
      if (document.hidden) return
      const answer = await fetch('/api/v1/health', { cache: 'no-store' }).catch(() => null)
      if (!answer?.ok) return
      cleared()
      router.refresh()
    }
    const timer = setInterval(() => void ask(), askAgainMs)
    const now = () => void ask()
    window.addEventListener('online', now)
    return () => {
      clearInterval(timer)
      window.removeEventListener('online', now)
    }
  }, [path, router])

  return (
    <p className={s.line} role="status">
      {seenAt && (
        <>
          <span>
            {sayParts('No connection: this page is as it was seen at {momentOf}.', {
              momentOf: momentOf(Date.parse(seenAt), Date.now(), document.documentElement.lang),
            })}
          </span>{' '}
          <Link href="/offline">{say('What can be opened')}</Link>
        </>
      )}
    </p>
  )
}
