import type { Metadata } from 'next'
import { say } from '#language/say'
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

export const generateMetadata = (): Metadata => ({ title: say('Your account') })

export default async function AccountPage() {
  const own = ownAccount()
  const account = own && (await findAccount(own.accountId))
  if (!own || !account) return <NobodySignsIn />
  const owners = await listOwners()
  return (
    <>
      <PageHead
        title={account.name}
        crumbs={[{ label: say('Settings'), href: '/settings' }]}
        note={account.role}
        byline={say('You may {role}. You see {sight}.', {
          role: roleWords[account.role],
          sight: sightWords(account.ownerIds, owners),
        })}
      />
      <Section
        title={say('Password')}
        id="password"
        note={
          account.passwordSetAt
            ? say('Set on {passwordSetAt}', { passwordSetAt: dayOf(account.passwordSetAt) })
            : say('None: you sign in by passkey')
        }
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
    submit={hasPassword ? say('Change the password') : say('Set a password')}
    submitKind="plain"
    clearsWhenDone
    label={say('Password')}
  >
    <input type="text" name="username" autoComplete="username" defaultValue={name} hidden readOnly />
    {hasPassword && (
      <TextField
        name="former"
        label={say('Your password now')}
        type="password"
        autoComplete="current-password"
        width="half"
        isRequired
      />
    )}
    <TextField
      name="password"
      label={say('The new one')}
      type="password"
      autoComplete="new-password"
      width="half"
      isRequired
      hint={say(
        'At least 12 characters. Four words that have nothing to do with each other are good. Every other device is signed out.',
      )}
    />
    <TextField
      name="again"
      label={say('The new one again')}
      type="password"
      autoComplete="new-password"
      width="half"
      isRequired
    />
  </Form>
)

function NobodySignsIn() {
  const isAtMachine = who().kind !== 'account'
  return (
    <>
      <PageHead title={say('Your account')} crumbs={[{ label: say('Settings'), href: '/settings' }]} />
      <Empty
        title={isAtMachine ? say('Nobody signs in here') : say('This account is not here any more')}
        actions={<LinkButton href="/settings/people">{say('People')}</LinkButton>}
      >
        {isAtMachine
          ? say(
              'Whoever sits at this machine may do everything, and nobody else on the network gets in. Where several people work, each can have an account: their password, passkeys and devices then stand here.',
            )
          : say('A keeper took it away.')}
      </Empty>
    </>
  )
}
