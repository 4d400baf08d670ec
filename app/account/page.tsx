import type { Metadata } from 'next'
import { findAccount } from '#lib/db/access/accounts'
import { who } from '#lib/db/access/asking'
import { listOwners } from '#lib/db/owner/owners'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { TextField } from '#ui/field'
import { Form } from '#ui/form'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { roleWords, sightWords } from '#words/access'
import { dayOf } from '#words/date'
import { ownAccount } from '../_access/own-account'
import { changePasswordAction } from './actions'
import { DevicesSection } from './devices-section'
import { PasskeysSection } from './passkeys-section'
import { TokensSection } from './tokens-section'

export const metadata: Metadata = { title: 'Your account' }

export default async function AccountPage() {
  const own = ownAccount()
  const account = own && (await findAccount(own.accountId))
  if (!own || !account) return <NobodySignsIn />
  const owners = await listOwners()
  return (
    <>
      <PageHead
        title={account.name}
        crumbs={[{ label: 'Settings', href: '/settings' }]}
        note={account.role}
        byline={`You may ${roleWords[account.role]}. You see ${sightWords(account.ownerIds, owners)}.`}
      />
      <Section
        title="Password"
        id="password"
        note={account.passwordSetAt ? `Set on ${dayOf(account.passwordSetAt)}` : 'None: you sign in by passkey'}
      >
        <PasswordForm name={account.name} hasPassword={account.hasPassword} />
      </Section>
      <PasskeysSection accountId={account.id} hasPassword={account.hasPassword} />
      <DevicesSection accountId={account.id} sessionId={own.by.sessionId} />
      <TokensSection account={account} />
    </>
  )
}

/** The name goes along unseen, so that whatever keeps passwords knows whose this is. */
const PasswordForm = ({ name, hasPassword }: { name: string; hasPassword: boolean }) => (
  <Form
    action={changePasswordAction}
    submit={hasPassword ? 'Change the password' : 'Set a password'}
    submitKind="plain"
    clearsWhenDone
    label="Password"
  >
    <input type="text" name="username" autoComplete="username" defaultValue={name} hidden readOnly />
    {hasPassword && (
      <TextField
        name="former"
        label="Your password now"
        type="password"
        autoComplete="current-password"
        width="half"
        isRequired
      />
    )}
    <TextField
      name="password"
      label="The new one"
      type="password"
      autoComplete="new-password"
      width="half"
      isRequired
      hint="At least 12 characters. Four words that have nothing to do with each other are good. Every other device is signed out."
    />
    <TextField name="again" label="The new one again" type="password" autoComplete="new-password" width="half" isRequired />
  </Form>
)

function NobodySignsIn() {
  const isAtMachine = who().kind !== 'account'
  return (
    <>
      <PageHead title="Your account" crumbs={[{ label: 'Settings', href: '/settings' }]} />
      <Empty
        title={isAtMachine ? 'Nobody signs in here' : 'This account is not here any more'}
        actions={<LinkButton href="/settings/people">People</LinkButton>}
      >
        {isAtMachine
          ? 'Whoever sits at this machine may do everything, and nobody else on the network gets in. Where several people work, each can have an account: their password, passkeys and devices then stand here.'
          : 'A keeper took it away.'}
      </Empty>
    </>
  )
}
