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
        title="Not for this account"
        byline={`${describeNotAllowed(asks, asked ?? (isLooker ? 'change' : 'keep'))} Nothing was changed.`}
      />
      <div style={{ marginTop: 'var(--s5)' }}>
        <ButtonRow>
          <LinkButton kind="first" href="/">
            To Find
          </LinkButton>
          <LinkButton href="/account">Your account</LinkButton>
        </ButtonRow>
      </div>
    </div>
  )
}
