'use client'

import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { Button, ButtonRow, LinkButton } from './_ui/button'
import { PageHead } from './_ui/page-head'
import { describeTrouble, troubleOfDigest } from './_words/trouble'

type ErrorPageProps = { error: Error & { digest?: string }; reset: () => void }

export default function ErrorPage({ error, reset }: ErrorPageProps) {
  const trouble = troubleOfDigest(error.digest)
  return (
    <div role="alert">
      <PageHead
        title={say('This did not work')}
        byline={
          trouble
            ? describeTrouble(trouble)
            : say(
                'Something went wrong on our side while this page was being made. A change that did not finish was not half made: nothing of it is kept.',
              )
        }
      />
      {error.digest && !trouble && <p>{sayParts('Its number in the log is {digest}.', { digest: <b>{error.digest}</b> })}</p>}
      <div style={{ marginTop: 'var(--s5)' }}>
        <ButtonRow>
          <Button kind="first" onClick={reset}>
            {say('Try again')}
          </Button>
          <LinkButton href="/">{say('To Find')}</LinkButton>
        </ButtonRow>
      </div>
    </div>
  )
}
