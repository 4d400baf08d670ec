import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
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
      title={say('Tokens for programs')}
      id="tokens"
      note={sayParts('With one, a program uses the <link>HTTP API</link> in your name.', {
        link: (words) => <Link href="/reference">{words}</Link>,
      })}
    >
      {tokens.length === 0 ? (
        <p className="quiet">{say('No program asks in your name yet.')}</p>
      ) : (
        <Ledger caption={say('Your tokens')} columns={columnsFor(now)} rows={tokens} rowKey={({ id }) => id} isTight />
      )}
      <h3 className={a.add}>{say('Another token')}</h3>
      <Form action={makeTokenAction} submit={say('Make a token')} submitKind="plain" clearsWhenDone label={say('Make a token')}>
        <FieldRow>
          <TextField
            name="label"
            label={say('What it is for')}
            maxLength={60}
            isRequired
            hint={say('Such as the till, or the web shop.')}
          />
          <SelectField
            name="scope"
            label={say('It may')}
            defaultValue="read"
            options={scopes.map((scope) => ({ value: scope, label: scopeWords[scope] }))}
            hint={say('Never more than you may yourself.')}
          />
        </FieldRow>
        <FieldRow>
          <DateField
            name="until"
            label={say('Good until')}
            min={calendarDay(now)}
            hint={say('Left empty: until you take it back.')}
          />
          {account.hasPassword && (
            <TextField name="former" label={say('Your password')} type="password" autoComplete="current-password" isRequired />
          )}
        </FieldRow>
      </Form>
    </Section>
  )
}

const columnsFor = (now: Date): readonly Column<Token>[] => [
  { key: 'label', head: say('For'), phone: 'lead', width: '30%', cell: ({ label }) => label },
  { key: 'scope', head: say('It may'), phone: 'labelled', cell: ({ scope }) => scopeWords[scope] },
  {
    key: 'until',
    head: say('Good until'),
    phone: 'labelled',
    cell: ({ expiresAt }) =>
      expiresAt === null
        ? say('you take it back')
        : expiresAt <= now
          ? say('over since {lastDay}', { lastDay: lastDay(expiresAt) })
          : lastDay(expiresAt),
  },
  {
    key: 'used',
    head: say('Last used'),
    phone: 'labelled',
    cell: ({ usedAt }) => (usedAt ? momentWords(usedAt) : say('not yet')),
  },
  {
    key: 'revoke',
    head: say('Take back'),
    headIsHidden: true,
    phone: 'line',
    isAtEnd: true,
    cell: ({ id, label }) => (
      <div className={a.end}>
        <Form
          action={revokeTokenAction}
          hidden={{ tokenId: id }}
          submit={<InRow act={say('Take it back')} of={label} />}
          submitKind="quiet"
          isInline
        />
      </div>
    ),
  },
]

/** It ends with a day, at its midnight. */
const lastDay = (expiresAt: Date): string => dayOf(new Date(expiresAt.getTime() - 1))
