import { say } from '#language/say'
import type { Right } from '#lib/access/who'
import { who } from '#lib/db/access/asking'
import { ButtonRow, LinkButton } from '#ui/button'
import { PageHead } from '#ui/page-head'
import { describeNotAllowed } from '#words/sign-in'

/** Stands in the place of whatever somebody asked for and may not do. */
export function NotAllowedScreen({ asked }: { asked?: Right | undefined }) {
  const asks = who()
  const isLooker = asks.kind === 'account' && asks.role === 'looker'
  return (
    <div role="alert">
      <PageHead
        title={say('Not for this account')}
        byline={say('{describeNotAllowed} Nothing was changed.', {
          describeNotAllowed: describeNotAllowed(asks, asked ?? (isLooker ? 'change' : 'keep')),
        })}
      />
      <div style={{ marginTop: 'var(--s5)' }}>
        <ButtonRow>
          <LinkButton kind="first" href="/">
            {say('To Find')}
          </LinkButton>
          <LinkButton href="/account">{say('Your account')}</LinkButton>
        </ButtonRow>
      </div>
    </div>
  )
}
