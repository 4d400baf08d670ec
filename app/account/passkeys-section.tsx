import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { listPasskeys, type Passkey } from '#lib/db/access/passkeys'
import { Empty } from '#ui/empty'
import { TextField } from '#ui/field'
import { Form } from '#ui/form'
import { type Column, Ledger } from '#ui/ledger'
import { Section } from '#ui/section'
import { UnfoldButton } from '#ui/unfold'
import { noPasskeyPlaceWords } from '#words/access'
import { dayOf, momentWords } from '#words/date'
import { passkeyPlace } from '../_access/passkey-place'
import a from './account.module.css'
import { removePasskeyAction, renamePasskeyAction } from './actions'
import { AddPasskey } from './add-passkey'
import { InRow } from './in-row'

/** Passkeys of an account, and the way to one more. */
export async function PasskeysSection({ accountId, hasPassword }: { accountId: string; hasPassword: boolean }) {
  const [passkeys, place] = await Promise.all([listPasskeys(accountId), passkeyPlace()])
  return (
    <Section title={say('Passkeys')} id="passkeys" note={say('A finger, a face or a device’s PIN in place of the password.')}>
      {passkeys.length === 0 ? (
        <Empty title={say('No passkey yet')}>
          {say(
            'A phone, a computer or a security key can hold one. It signs you in without a password, and only at the address it was made for.',
          )}
        </Empty>
      ) : (
        <Ledger
          caption={say('Your passkeys')}
          columns={columns()}
          rows={passkeys}
          rowKey={({ id }) => id}
          under={(passkey) => <PasskeyForms passkey={passkey} />}
        />
      )}
      {place.ok ? (
        <>
          <h3 className={a.add}>{say('Another passkey')}</h3>
          <AddPasskey place={place.value.rpId} asksPassword={hasPassword} />
        </>
      ) : (
        <p className={a.lone}>
          {sayParts('{noPasskeyPlace} None can be added from here{rest}', {
            noPasskeyPlace: noPasskeyPlaceWords(place.error),
            rest:
              place.error.kind === 'no-name' && isThisMachine(place.error.origin)
                ? sayParts('; on this machine, open {asLocalhost} in its place and sign in there.', {
                    asLocalhost: <a href={asLocalhost(place.error.origin)}>{asLocalhost(place.error.origin)}</a>,
                  })
                : say('; whoever looks after this machine can give it a name and HTTPS.'),
          })}
        </p>
      )}
    </Section>
  )
}

const isThisMachine = (origin: string): boolean => /^https?:\/\/(?:127\.|\[::1\])/.test(origin)

function asLocalhost(origin: string): string {
  const address = new URL('/account', origin)
  address.hostname = 'localhost'
  return address.href
}

const columns = (): readonly Column<Passkey>[] => [
  {
    key: 'label',
    head: say('Called'),
    phone: 'lead',
    cell: ({ label }) => <UnfoldButton>{label}</UnfoldButton>,
  },
  { key: 'made', head: say('Made'), phone: 'labelled', cell: ({ createdAt }) => <span className="nb">{dayOf(createdAt)}</span> },
  {
    key: 'used',
    head: say('Last used'),
    phone: 'labelled',
    cell: ({ usedAt }) => (usedAt ? momentWords(usedAt) : say('not yet')),
  },
  {
    key: 'kept',
    head: say('Kept'),
    phone: 'labelled',
    cell: ({ isShared, isBackedUp }) =>
      isShared ? (isBackedUp ? say('with a copy elsewhere') : say('no copy of it yet')) : say('on that one device only'),
  },
]

const PasskeyForms = ({ passkey: { id, label } }: { passkey: Passkey }) => (
  <div className={`${a.row} ${a.under}`}>
    <Form
      action={renamePasskeyAction}
      hidden={{ passkeyId: id }}
      submit={<InRow act={say('Rename')} of={label} />}
      submitKind="plain"
      isInline
    >
      <TextField name="label" label={say('What to call it')} defaultValue={label} maxLength={60} width="half" />
    </Form>
    <Form
      action={removePasskeyAction}
      hidden={{ passkeyId: id }}
      submit={<InRow act={say('Take it away')} of={label} />}
      submitKind="quiet"
      isInline
    />
  </div>
)
