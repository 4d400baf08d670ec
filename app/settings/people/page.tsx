import type { Metadata } from 'next'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { asProgram, who } from '#lib/db/access/asking'
import { listPeople, type Person } from '#lib/db/access/list-people'
import { requireRight } from '#lib/db/access/right'
import { listOwners, type Owner } from '#lib/db/owner/owners'
import { LinkButton } from '#ui/button'
import { ChoiceField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { type Column, Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { UnfoldButton } from '#ui/unfold'
import { roleOptions, sightWords } from '#words/access'
import { counted } from '#words/amounts'
import { dayOf, momentWords } from '#words/date'
import {
  addFirstAccountAction,
  addPersonAction,
  changePersonAction,
  closeAccountAction,
  givePasswordAction,
  openAgainAction,
  signOutEverywhereAction,
} from './actions'
import s from './people.module.css'
import { SightFields } from './sight-fields'

export const generateMetadata = (): Metadata => ({ title: say('People') })

export default async function PeoplePage() {
  requireRight('keep')
  // Whoever says whose goods others see has to see every owner's name, though not the goods.
  const [people, owners] = await Promise.all([listPeople(new Date()), asProgram(() => listOwners())])
  const open = people.filter(({ closedAt }) => closedAt === null)
  const closed = people.filter(({ closedAt }) => closedAt !== null)
  const asks = who()
  const ownId = asks.kind === 'account' ? asks.accountId : null
  return (
    <>
      <PageHead
        title={say('People')}
        crumbs={[{ label: say('Settings'), href: '/settings' }]}
        note={open.length > 0 && `${counted(open.length, 'account')}`}
        byline={open.length === 0 ? say('Nobody signs in so far.') : say('Everybody signs in, on this machine too.')}
        actions={<LinkButton href="/settings/people/log">{say('Who did what')}</LinkButton>}
      />
      {open.length === 0 ? (
        <FirstAccount />
      ) : (
        <>
          <Section title={say('Who signs in')} id="people">
            <Ledger
              caption={say('People with an account')}
              columns={columnsFor(owners, ownId)}
              rows={open}
              rowKey={({ id }) => id}
              under={(person) => <PersonForms person={person} owners={owners} isOwn={person.id === ownId} />}
            />
          </Section>
          <Section title={say('Add a person')} id="add">
            <AddPerson owners={owners} />
          </Section>
        </>
      )}
      {closed.length > 0 && (
        <Section title={say('Closed')} id="closed" note={say('They sign in no more; their names stay beside what they did.')}>
          <Ledger caption={say('Closed accounts')} columns={closedColumns()} rows={closed} rowKey={({ id }) => id} isTight />
        </Section>
      )}
    </>
  )
}

const FirstAccount = () => (
  <Section title={say('The first account')}>
    <div className={s.first}>
      <p>
        {say(
          'So far whoever sits at this machine may do everything, and nobody else on the network gets in. With the first account that changes:',
        )}
      </p>
      <ul>
        <li>{say('From then on everybody signs in, on this machine too. This browser is signed in at once.')}</li>
        <li>
          {sayParts(
            'The first account is a <b>keeper’s</b>: it looks after people, settings and backups, and lets others in as keepers, helpers or lookers.',
            { b: (words) => <b>{words}</b> },
          )}
        </li>
        <li>{say('Every change is then written down with who made it.')}</li>
        <li>{say('Only then can the program be opened to other machines on the network; the README says how.')}</li>
      </ul>
      <p>{say('Keep the password well. Another can be set only by a keeper, or with a command on this machine.')}</p>
    </div>
    <Form action={addFirstAccountAction} submit={say('Add the first account')} label={say('The first account')}>
      <TextField
        name="name"
        label={say('Name')}
        autoComplete="username"
        width="half"
        isRequired
        hint={say('What you sign in with.')}
      />
      <PasswordField label={say('Password')} />
      <TextField
        name="again"
        label={say('The password again')}
        type="password"
        autoComplete="new-password"
        width="half"
        isRequired
      />
    </Form>
  </Section>
)

const PasswordField = ({ label }: { label: string }) => (
  <TextField
    name="password"
    label={label}
    type="password"
    autoComplete="new-password"
    width="half"
    isRequired
    hint={say('At least 12 characters. Four words that have nothing to do with each other are good.')}
  />
)

const AddPerson = ({ owners }: { owners: readonly Owner[] }) => (
  <Form action={addPersonAction} submit={say('Add this person')} submitKind="plain" clearsWhenDone label={say('Add a person')}>
    <TextField
      name="name"
      label={say('Name')}
      width="half"
      isRequired
      hint={say('What they sign in with, and what stands beside what they do.')}
    />
    <ChoiceField name="role" label={say('They are a')} defaultValue="looker" options={roleOptions()} />
    <SightFields owners={owners} ownerIds={null} />
    <PasswordField label={say('First password')} />
  </Form>
)

const columnsFor = (owners: readonly Owner[], ownId: string | null): readonly Column<Person>[] => [
  {
    key: 'name',
    head: say('Name'),
    phone: 'lead',
    width: '26%',
    cell: ({ id, name }) => (
      <>
        <UnfoldButton>{name}</UnfoldButton>
        {id === ownId && <span className="quiet"> {say('(you)')}</span>}
      </>
    ),
  },
  { key: 'role', head: say('Role'), phone: 'side', cell: ({ role }) => role },
  { key: 'sees', head: say('Sees'), phone: 'labelled', cell: ({ ownerIds }) => sightWords(ownerIds, owners) },
  { key: 'how', head: say('Signs in with'), phone: 'labelled', cell: howWords },
  {
    key: 'where',
    head: say('Signed in'),
    phone: 'labelled',
    cell: ({ deviceCount, usedAt }) =>
      deviceCount === 0
        ? say('nowhere now')
        : say('on {deviceCount, plural, one {# device} other {# devices}}, last {rest}', {
            deviceCount,
            rest: usedAt ? momentWords(usedAt) : say('not known'),
          }),
  },
]

function howWords({ hasPassword, passkeyCount, tokenCount }: Person): string {
  const ways = [
    hasPassword && say('password'),
    passkeyCount > 0 && counted(passkeyCount, 'passkey'),
    tokenCount > 0 && say('{tokenCount, plural, one {# token} other {# tokens}} for programs', { tokenCount }),
  ].filter((way) => way !== false)
  return ways.join(', ') || say('nothing yet')
}

type PersonFormsProps = { person: Person; owners: readonly Owner[]; isOwn: boolean }

function PersonForms({ person, owners, isOwn }: PersonFormsProps) {
  const { id, version, name, role, ownerIds } = person
  return (
    <div className={s.parts}>
      <Form
        action={changePersonAction}
        hidden={{ id, version: String(version) }}
        submit={say('Keep the change')}
        submitKind="plain"
        label={say('Change {name}', { name })}
      >
        <TextField name="name" label={say('Name')} defaultValue={name} width="half" isRequired />
        <ChoiceField name="role" label={say('Role')} defaultValue={role} options={roleOptions()} />
        <SightFields owners={owners} ownerIds={ownerIds} />
      </Form>
      {isOwn ? (
        <p>
          {sayParts('Your password, passkeys and devices are under <link>your account</link>.', {
            link: (words) => <Link href="/account">{words}</Link>,
          })}
        </p>
      ) : (
        <OthersForms person={person} />
      )}
    </div>
  )
}

const OthersForms = ({ person: { id, version, name, deviceCount } }: { person: Person }) => (
  <>
    <Form
      action={givePasswordAction}
      hidden={{ id }}
      submit={say('Set the password')}
      submitKind="plain"
      clearsWhenDone
      label={say('Another password for {name}', { name })}
    >
      <TextField
        name="password"
        label={say('Another password')}
        type="password"
        autoComplete="new-password"
        width="half"
        hint={say('For when theirs is forgotten. It signs them out everywhere; tell it to them yourself.')}
      />
    </Form>
    <div className={s.acts}>
      {deviceCount > 0 && (
        <Form
          action={signOutEverywhereAction}
          hidden={{ id }}
          submit={say('Sign out everywhere')}
          submitKind="plain"
          isInline
          label={say('Sign {name} out everywhere', { name })}
        />
      )}
      <Form
        action={closeAccountAction}
        hidden={{ id, version: String(version) }}
        submit={say('Close the account')}
        submitKind="quiet"
        isInline
        label={say('Close the account of {name}', { name })}
      />
    </div>
    <p className="quiet">
      {sayParts('Closed, {name} signs in no more and their tokens are taken back. They can be let in again.', { name })}
    </p>
  </>
)

const closedColumns = (): readonly Column<Person>[] => [
  { key: 'name', head: say('Name'), phone: 'lead', width: '26%', cell: ({ name }) => name },
  { key: 'role', head: say('Role'), phone: 'side', cell: ({ role }) => role },
  { key: 'closed', head: say('Closed'), phone: 'labelled', cell: ({ closedAt }) => (closedAt ? dayOf(closedAt) : '') },
  {
    key: 'again',
    head: say('Let in again'),
    headIsHidden: true,
    phone: 'line',
    isAtEnd: true,
    cell: ({ id, version, name }) => (
      <div className={s.end}>
        <Form
          action={openAgainAction}
          hidden={{ id, version: String(version) }}
          submit={say('Let in again')}
          submitKind="quiet"
          isInline
          label={say('Let {name} in again', { name })}
        />
      </div>
    ),
  },
]
