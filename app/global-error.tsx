'use client'

import { language } from '#language/language'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import '@fontsource-variable/source-sans-3'
import './_ui/tokens.css'
import './_ui/ground.css'
import { Button } from './_ui/button'
import { PageHead } from './_ui/page-head'
import { describeTrouble, troubleOfDigest } from './_words/trouble'

type GlobalErrorProps = { error: Error & { digest?: string }; reset: () => void }

/** Stands in for the whole page, frame and all, when the frame itself could not be made. */
export default function GlobalError({ error, reset }: GlobalErrorProps) {
  const trouble = troubleOfDigest(error.digest)
  const { tag, direction } = language()
  return (
    <html lang={tag} dir={direction}>
      <body style={{ padding: 'var(--s6) var(--gutter)' }}>
        <title>{`${say('This did not work')} · Chart Larder`}</title>
        <main role="alert">
          <PageHead
            title={say('This did not work')}
            byline={
              trouble ? describeTrouble(trouble) : say('Something went wrong on our side. What was kept before is still kept.')
            }
          />
          {error.digest && !trouble && <p>{sayParts('Its number in the log is {digest}.', { digest: <b>{error.digest}</b> })}</p>}
          <p style={{ margin: 'var(--s5) 0' }}>
            <Button kind="first" onClick={reset}>
              {say('Try again')}
            </Button>
          </p>
          <p>{say('If it goes on, stop Chart Larder and start it again.')}</p>
        </main>
      </body>
    </html>
  )
}
