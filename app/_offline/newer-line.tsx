'use client'

import { useEffect, useState } from 'react'
import { say } from '#language/say'
import { Button } from '#ui/button'
import s from './newer-line.module.css'

/**
 * Another version of the program has taken over while a page of the one before is open. Its scripts go on as they are, and what was typed
 * stays; links open pages of the new one whole. What this page would still have to fetch of its own may be gone, so it says so, and leaves
 * it to whoever is at it when to open it anew.
 */
export function NewerLine() {
  const [isNewer, setNewer] = useState(false)
  useEffect(() => {
    const workers = navigator.serviceWorker
    // The first worker a device has is no other version.
    if (!workers?.controller) return
    const told = () => setNewer(true)
    workers.addEventListener('controllerchange', told)
    return () => workers.removeEventListener('controllerchange', told)
  }, [])
  return (
    <div className={s.line} role="status" data-newer={isNewer || undefined}>
      {isNewer && (
        <>
          <span>{say('Chart Larder has a newer version. This page goes on as it is; what you tick is kept.')}</span>
          <Button onClick={() => window.location.reload()}>{say('Open it anew')}</Button>
          <Button kind="quiet" onClick={() => setNewer(false)}>
            {say('Later')}
          </Button>
        </>
      )}
    </div>
  )
}
