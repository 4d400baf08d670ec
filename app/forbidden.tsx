import { who } from '#lib/db/access/asking'
import { describeNotAllowed } from '#words/sign-in'
import { ButtonRow, LinkButton } from './_ui/button'
import { PageHead } from './_ui/page-head'

export const metadata = { title: 'Not for this account' }

/** Stands in the place of whatever somebody asked for and may not do. */
export default function Forbidden() {
  const asks = who()
  const isLooker = asks.kind === 'account' && asks.role === 'looker'
  return (
    <div role="alert">
      <PageHead
        title="Not for this account"
        byline={`${describeNotAllowed(asks, isLooker ? 'change' : 'keep')} Nothing was changed.`}
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
