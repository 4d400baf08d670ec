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
    <Section title="Passkeys" id="passkeys" note="A finger, a face or a device’s PIN in place of the password.">
      {passkeys.length === 0 ? (
        <Empty title="No passkey yet">
          A phone, a computer or a security key can hold one. It signs you in without a password, and only at the address it was
          made for.
        </Empty>
      ) : (
        <Ledger
          caption="Your passkeys"
          columns={columns}
          rows={passkeys}
          rowKey={({ id }) => id}
          under={(passkey) => <PasskeyForms passkey={passkey} />}
        />
      )}
      {place.ok ? (
        <>
          <h3 className={a.add}>Another passkey</h3>
          <AddPasskey place={place.value.rpId} asksPassword={hasPassword} />
        </>
      ) : (
        <p className={a.lone}>
          {noPasskeyPlaceWords(place.error)} None can be added from here
          {place.error.kind === 'no-name' && isThisMachine(place.error.origin) ? (
            <>
              ; on this machine, open <a href={asLocalhost(place.error.origin)}>{asLocalhost(place.error.origin)}</a> in its place
              and sign in there.
            </>
          ) : (
            '; whoever looks after this machine can give it a name and HTTPS.'
          )}
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

const columns: readonly Column<Passkey>[] = [
  {
    key: 'label',
    head: 'Called',
    phone: 'lead',
    cell: ({ label }) => <UnfoldButton>{label}</UnfoldButton>,
  },
  { key: 'made', head: 'Made', phone: 'labelled', cell: ({ createdAt }) => <span className="nb">{dayOf(createdAt)}</span> },
  {
    key: 'used',
    head: 'Last used',
    phone: 'labelled',
    cell: ({ usedAt }) => (usedAt ? momentWords(usedAt) : 'not yet'),
  },
  {
    key: 'kept',
    head: 'Kept',
    phone: 'labelled',
    cell: ({ isShared, isBackedUp }) =>
      isShared ? (isBackedUp ? 'with a copy elsewhere' : 'no copy of it yet') : 'on that one device only',
  },
]

const PasskeyForms = ({ passkey: { id, label } }: { passkey: Passkey }) => (
  <div className={`${a.row} ${a.under}`}>
    <Form
      action={renamePasskeyAction}
      hidden={{ passkeyId: id }}
      submit={<InRow act="Rename" of={label} />}
      submitKind="plain"
      isInline
    >
      <TextField name="label" label="What to call it" defaultValue={label} maxLength={60} width="half" />
    </Form>
    <Form
      action={removePasskeyAction}
      hidden={{ passkeyId: id }}
      submit={<InRow act="Take it away" of={label} />}
      submitKind="quiet"
      isInline
    />
  </div>
)
