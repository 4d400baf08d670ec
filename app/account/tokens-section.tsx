import type { Account } from '#lib/access/account'
import { reaches, reachOf, rights } from '#lib/access/who'
import { listTokens, type Token } from '#lib/db/access/tokens'
import { DateField, FieldRow, SelectField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { type Column, Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { scopeWords } from '#words/access'
import { calendarDay, dayOf, momentWords } from '#words/date'
import a from './account.module.css'
import { makeTokenAction, revokeTokenAction } from './actions'
import { InRow } from './in-row'

/** By which other programs ask in this account's name. */
export async function TokensSection({ account }: { account: Account }) {
  const tokens = await listTokens(account.id)
  const now = new Date()
  const scopes = rights.filter((right) => reaches(reachOf(account.role), right))
  return (
    <Section
      title="Tokens for programs"
      id="tokens"
      note={
        <>
          With one, a program uses the <Link href="/reference">HTTP API</Link> in your name.
        </>
      }
    >
      {tokens.length === 0 ? (
        <p className="quiet">No program asks in your name yet.</p>
      ) : (
        <Ledger caption="Your tokens" columns={columnsFor(now)} rows={tokens} rowKey={({ id }) => id} isTight />
      )}
      <h3 className={a.add}>Another token</h3>
      <Form action={makeTokenAction} submit="Make a token" submitKind="plain" clearsWhenDone label="Make a token">
        <FieldRow>
          <TextField name="label" label="What it is for" maxLength={60} isRequired hint="Such as the till, or the web shop." />
          <SelectField
            name="scope"
            label="It may"
            defaultValue="read"
            options={scopes.map((scope) => ({ value: scope, label: scopeWords[scope] }))}
            hint="Never more than you may yourself."
          />
        </FieldRow>
        <FieldRow>
          <DateField name="until" label="Good until" min={calendarDay(now)} hint="Left empty: until you take it back." />
          {account.hasPassword && (
            <TextField name="former" label="Your password" type="password" autoComplete="current-password" isRequired />
          )}
        </FieldRow>
      </Form>
    </Section>
  )
}

const columnsFor = (now: Date): readonly Column<Token>[] => [
  { key: 'label', head: 'For', phone: 'lead', width: '30%', cell: ({ label }) => label },
  { key: 'scope', head: 'It may', phone: 'labelled', cell: ({ scope }) => scopeWords[scope] },
  {
    key: 'until',
    head: 'Good until',
    phone: 'labelled',
    cell: ({ expiresAt }) =>
      expiresAt === null ? 'you take it back' : expiresAt <= now ? `over since ${lastDay(expiresAt)}` : lastDay(expiresAt),
  },
  {
    key: 'used',
    head: 'Last used',
    phone: 'labelled',
    cell: ({ usedAt }) => (usedAt ? momentWords(usedAt) : 'not yet'),
  },
  {
    key: 'revoke',
    head: 'Take back',
    headIsHidden: true,
    phone: 'line',
    isAtEnd: true,
    cell: ({ id, label }) => (
      <div className={a.end}>
        <Form
          action={revokeTokenAction}
          hidden={{ tokenId: id }}
          submit={<InRow act="Take it back" of={label} />}
          submitKind="quiet"
          isInline
        />
      </div>
    ),
  },
]

/** It ends with a day, at its midnight. */
const lastDay = (expiresAt: Date): string => dayOf(new Date(expiresAt.getTime() - 1))
