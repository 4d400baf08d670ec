'use client'

import { useEffect, useState } from 'react'
import { say } from '#language/say'
import { Button } from '#ui/button'
import { Section } from '#ui/section'

type InstallOffer = Event & { prompt(): Promise<unknown>; userChoice: Promise<{ outcome: string }> }

/** What a browser that cannot offer it by itself is told: nothing is kept on plain HTTP, and some have it in their menu. */
type Standing = 'unknown' | 'offered' | 'by-menu' | 'installed' | 'not-secure'

/** On the home screen: offered where the browser does, else how to go about it. */
export function InstallHint() {
  const [standing, setStanding] = useState<Standing>('unknown')
  const [offer, setOffer] = useState<InstallOffer | null>(null)
  useEffect(() => {
    const isOpenedAsOwn = window.matchMedia('(display-mode: standalone)').matches
    setStanding(isOpenedAsOwn ? 'installed' : window.isSecureContext ? 'by-menu' : 'not-secure')
    const offered = (event: Event) => {
      event.preventDefault()
      setOffer(event as InstallOffer)
      setStanding('offered')
    }
    const done = () => setStanding('installed')
    window.addEventListener('beforeinstallprompt', offered)
    window.addEventListener('appinstalled', done)
    return () => {
      window.removeEventListener('beforeinstallprompt', offered)
      window.removeEventListener('appinstalled', done)
    }
  }, [])
  return (
    <Section title={say('On this device')}>
      <p>
        {say(
          'Put on the home screen, Chart Larder opens by itself, without the browser’s own bars, with Find, Pull and Stitchable now one press away. What was seen on this device opens without a connection too; ticks and counts made then are kept and sent later.',
        )}
      </p>
      {standing === 'offered' && offer && (
        <p>
          <Button
            onClick={async () => {
              await offer.prompt()
              const { outcome } = await offer.userChoice
              setOffer(null)
              setStanding(outcome === 'accepted' ? 'installed' : 'by-menu')
            }}
          >
            {say('Install on this device')}
          </Button>
        </p>
      )}
      {standing === 'by-menu' && (
        <p className="quiet">{say('Look in the browser’s menu or under Share for “Install” or “Add to Home Screen”.')}</p>
      )}
      {standing === 'installed' && <p className="quiet">{say('It is installed here.')}</p>}
      {standing === 'not-secure' && (
        <p className="quiet">
          {say(
            'Browsers allow this over HTTPS only, and this page came by plain HTTP. The README says how to set up HTTPS. Lists that are open go on without a connection all the same.',
          )}
        </p>
      )}
    </Section>
  )
}
