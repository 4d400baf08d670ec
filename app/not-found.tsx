import { ButtonRow, LinkButton } from './_ui/button'
import { PageHead } from './_ui/page-head'

export const metadata = { title: 'Not here' }

export default function NotFound() {
  return (
    <>
      <PageHead
        title="Not here"
        byline="Nothing is kept under this address. It may have been moved, merged with another, or taken out; its history is still kept."
      />
      <div style={{ marginTop: 'var(--s5)' }}>
        <ButtonRow>
          <LinkButton kind="first" href="/">
            Find it
          </LinkButton>
          <LinkButton href="/charts">All charts</LinkButton>
          <LinkButton href="/places">All places</LinkButton>
        </ButtonRow>
      </div>
    </>
  )
}
