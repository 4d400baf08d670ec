import type { Metadata } from 'next'
import { say } from '#language/say'
import { ButtonRow, LinkButton } from './_ui/button'
import { PageHead } from './_ui/page-head'

export const generateMetadata = (): Metadata => ({ title: say('Not here') })

export default function NotFound() {
  return (
    <>
      <PageHead
        title={say('Not here')}
        byline={say(
          'Nothing is kept under this address. It may have been moved, merged with another, or taken out; its history is still kept.',
        )}
      />
      <div style={{ marginTop: 'var(--s5)' }}>
        <ButtonRow>
          <LinkButton kind="first" href="/">
            {say('Find it')}
          </LinkButton>
          <LinkButton href="/charts">{say('All charts')}</LinkButton>
          <LinkButton href="/places">{say('All places')}</LinkButton>
        </ButtonRow>
      </div>
    </>
  )
}
