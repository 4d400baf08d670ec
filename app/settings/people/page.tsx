import type { Metadata } from 'next'
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

export const metadata: Metadata = { title: 'People' }

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
        title="People"
        crumbs={[{ label: 'Settings', href: '/settings' }]}
        note={open.length > 0 && `${counted(open.length, 'account')}`}
        byline={open.length === 0 ? 'Nobody signs in so far.' : 'Everybody signs in, on this machine too.'}
        actions={<LinkButton href="/settings/people/log">Who did what</LinkButton>}
      />
      {open.length === 0 ? (
        <FirstAccount />
      ) : (
        <>
          <Section title="Who signs in" id="people">
            <Ledger
              caption="People with an account"
              columns={columnsFor(owners, ownId)}
              rows={open}
              rowKey={({ id }) => id}
              under={(person) => <PersonForms person={person} owners={owners} isOwn={person.id === ownId} />}
            />
          </Section>
          <Section title="Add a person" id="add">
            <AddPerson owners={owners} />
          </Section>
        </>
      )}
      {closed.length > 0 && (
        <Section title="Closed" id="closed" note="They sign in no more; their names stay beside what they did.">
          <Ledger caption="Closed accounts" columns={closedColumns} rows={closed} rowKey={({ id }) => id} isTight />
        </Section>
      )}
    </>
  )
}

const FirstAccount = () => (
  <Section title="The first account">
    <div className={s.first}>
      <p>
        So far whoever sits at this machine may do everything, and nobody else on the network gets in. With the first account that
        changes:
      </p>
      <ul>
        <li>From then on everybody signs in, on this machine too. This browser is signed in at once.</li>
        <li>
          The first account is a <b>keeper’s</b>: it looks after people, settings and backups, and lets others in as keepers,
          helpers or lookers.
        </li>
        <li>Every change is then written down with who made it.</li>
        <li>Only then can the program be opened to other machines on the network; the README says how.</li>
      </ul>
      <p>Keep the password well. Another can be set only by a keeper, or with a command on this machine.</p>
    </div>
    <Form action={addFirstAccountAction} submit="Add the first account" label="The first account">
      <TextField name="name" label="Name" autoComplete="username" width="half" isRequired hint="What you sign in with." />
      <PasswordField label="Password" />
      <TextField name="again" label="The password again" type="password" autoComplete="new-password" width="half" isRequired />
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
    hint="At least 12 characters. Four words that have nothing to do with each other are good."
  />
)

const AddPerson = ({ owners }: { owners: readonly Owner[] }) => (
  <Form action={addPersonAction} submit="Add this person" submitKind="plain" clearsWhenDone label="Add a person">
    <TextField
      name="name"
      label="Name"
      width="half"
      isRequired
      hint="What they sign in with, and what stands beside what they do."
    />
    <ChoiceField name="role" label="They are a" defaultValue="looker" options={roleOptions} />
    <SightFields owners={owners} ownerIds={null} />
    <PasswordField label="First password" />
  </Form>
)

const columnsFor = (owners: readonly Owner[], ownId: string | null): readonly Column<Person>[] => [
  {
    key: 'name',
    head: 'Name',
    phone: 'lead',
    width: '26%',
    cell: ({ id, name }) => (
      <>
        <UnfoldButton>{name}</UnfoldButton>
        {id === ownId && <span className="quiet"> (you)</span>}
      </>
    ),
  },
  { key: 'role', head: 'Role', phone: 'side', cell: ({ role }) => role },
  { key: 'sees', head: 'Sees', phone: 'labelled', cell: ({ ownerIds }) => sightWords(ownerIds, owners) },
  { key: 'how', head: 'Signs in with', phone: 'labelled', cell: howWords },
  {
    key: 'where',
    head: 'Signed in',
    phone: 'labelled',
    cell: ({ deviceCount, usedAt }) =>
      deviceCount === 0
        ? 'nowhere now'
        : `on ${counted(deviceCount, 'device')}, last ${usedAt ? momentWords(usedAt) : 'not known'}`,
  },
]

function howWords({ hasPassword, passkeyCount, tokenCount }: Person): string {
  const ways = [
    hasPassword && 'password',
    passkeyCount > 0 && counted(passkeyCount, 'passkey'),
    tokenCount > 0 && `${counted(tokenCount, 'token')} for programs`,
  ].filter((way) => way !== false)
  return ways.join(', ') || 'nothing yet'
}

type PersonFormsProps = { person: Person; owners: readonly Owner[]; isOwn: boolean }

function PersonForms({ person, owners, isOwn }: PersonFormsProps) {
  const { id, version, name, role, ownerIds } = person
  return (
    <div className={s.parts}>
      <Form
        action={changePersonAction}
        hidden={{ id, version: String(version) }}
        submit="Keep the change"
        submitKind="plain"
        label={`Change ${name}`}
      >
        <TextField name="name" label="Name" defaultValue={name} width="half" isRequired />
        <ChoiceField name="role" label="Role" defaultValue={role} options={roleOptions} />
        <SightFields owners={owners} ownerIds={ownerIds} />
      </Form>
      {isOwn ? (
        <p>
          Your password, passkeys and devices are under <Link href="/account">your account</Link>.
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
      submit="Set the password"
      submitKind="plain"
      clearsWhenDone
      label={`Another password for ${name}`}
    >
      <TextField
        name="password"
        label="Another password"
        type="password"
        autoComplete="new-password"
        width="half"
        hint="For when theirs is forgotten. It signs them out everywhere; tell it to them yourself."
      />
    </Form>
    <div className={s.acts}>
      {deviceCount > 0 && (
        <Form
          action={signOutEverywhereAction}
          hidden={{ id }}
          submit="Sign out everywhere"
          submitKind="plain"
          isInline
          label={`Sign ${name} out everywhere`}
        />
      )}
      <Form
        action={closeAccountAction}
        hidden={{ id, version: String(version) }}
        submit="Close the account"
        submitKind="quiet"
        isInline
        label={`Close the account of ${name}`}
      />
    </div>
    <p className="quiet">Closed, {name} signs in no more and their tokens are taken back. They can be let in again.</p>
  </>
)

const closedColumns: readonly Column<Person>[] = [
  { key: 'name', head: 'Name', phone: 'lead', width: '26%', cell: ({ name }) => name },
  { key: 'role', head: 'Role', phone: 'side', cell: ({ role }) => role },
  { key: 'closed', head: 'Closed', phone: 'labelled', cell: ({ closedAt }) => (closedAt ? dayOf(closedAt) : '') },
  {
    key: 'again',
    head: 'Let in again',
    headIsHidden: true,
    phone: 'line',
    isAtEnd: true,
    cell: ({ id, version, name }) => (
      <div className={s.end}>
        <Form
          action={openAgainAction}
          hidden={{ id, version: String(version) }}
          submit="Let in again"
          submitKind="quiet"
          isInline
          label={`Let ${name} in again`}
        />
      </div>
    ),
  },
]
