'use client'

import { useEffect } from 'react'

/**
 * Sets up the worker that keeps what was seen, once the page is at rest; or ends it, where the server does not offer it any more. Without
 * HTTPS, off the machine itself, browsers have no such workers, and nothing is kept.
 */
export function OfflineCare({ isOffered }: { isOffered: boolean }) {
  useEffect(() => {
    const workers = navigator.serviceWorker
    if (!workers) return
    const begin = async () => {
      if (!isOffered) {
        for (const registration of await workers.getRegistrations()) await registration.unregister()
        for (const name of await caches.keys()) if (/^(larder|serwist)-/.test(name)) await caches.delete(name)
        return
      }
      const registration = await workers.register('/worker.js', { updateViaCache: 'none' })
      // A page that was open before the worker would not be among what it has seen.
      if (!workers.controller) (await workers.ready).active?.postMessage('opened')
      // One that stays open for days hears of another version too.
      return setInterval(() => void registration.update().catch(() => {}), 3_600_000)
    }
    let clock: ReturnType<typeof setInterval> | undefined
    const rest = setTimeout(
      () =>
        void begin()
          .then((begun) => (clock = begun))
          .catch(() => {}),
      800,
    )
    return () => {
      clearTimeout(rest)
      clearInterval(clock)
    }
  }, [isOffered])
  return null
}
