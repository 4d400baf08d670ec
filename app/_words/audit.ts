import { z } from 'zod'
import { say, sayings } from '#language/say'
import { type AuditKind, auditWhats } from '#lib/access/audit'
import type { AuditLine } from '#lib/db/access/list-audit'
import { counted, listed } from './amounts'

/** What kinds of lines are called over the log. */
export const auditKindWords: Record<AuditKind, string> = sayings({
  'sign-in': 'Signed in',
  refused: 'Refused',
  'sign-out': 'Signed out',
  account: 'People',
  change: 'Change',
})

type What = { [Kind in AuditKind]: (typeof auditWhats)[Kind][number] }[AuditKind]

const isWhat = (line: Pick<AuditLine, 'kind' | 'what'>): line is { kind: AuditKind; what: What } =>
  (auditWhats[line.kind] as readonly string[]).includes(line.what)

const whyWords: Readonly<Record<string, string>> = sayings({
  'challenge-over': 'it came too late, or a second time',
  'does-not-verify': 'it does not hold',
  'unknown-passkey': 'it is not on record',
  copied: 'there is a copy of it',
  'account-closed': 'the account is closed',
})

const textOf = (detail: AuditLine['detail'], key: string): string | null => {
  const value = detail[key]
  return typeof value === 'string' && value !== '' ? value : null
}

/** Whose account was changed: "their own", or "that of Corrie Dunn". */
function ofWhom({ accountId, detail }: Pick<AuditLine, 'accountId' | 'detail'>): { own: boolean; name: string } {
  return { own: accountId !== null && detail.accountId === accountId, name: textOf(detail, 'name') ?? say('somebody') }
}

/** Who it was: a name, or what stands in its place. */
export function doerWords({ accountId, accountName, kind }: Pick<AuditLine, 'accountId' | 'accountName' | 'kind'>): string {
  if (accountId !== null) return accountName
  if (accountName !== '') return `“${accountName}”`
  return kind === 'refused' ? say('somebody unknown') : say('at the machine itself')
}

/** What was done, as a sentence without its doer. */
export function auditWords(line: Pick<AuditLine, 'kind' | 'what' | 'accountId' | 'detail' | 'revision'>): string {
  if (!isWhat(line)) return `${auditKindWords[line.kind]}: ${line.what}`
  const { detail } = line
  const { own, name } = ofWhom(line)
  const whose = own ? say('their own') : `${name}’s`
  const label = textOf(detail, 'label')
  const called = label === null ? '' : ` “${label}”`
  switch (line.what) {
    case 'password':
      return say('By password')
    case 'passkey':
      return say('By passkey{called}', { called })
    case 'wrong-password':
      return say('Wrong name or password')
    case 'wrong-passkey': {
      const why = whyWords[textOf(detail, 'why') ?? '']
      return say('Passkey{called} not taken{rest}', { called, rest: why === undefined ? '' : `: ${why}` })
    }
    case 'too-many-tries':
      return say('Too many tries; kept waiting')
    case 'other-site':
      return say('A form sent from another site')
    case 'not-allowed':
      return say('Asked for what their role does not reach')
    case 'here':
      return say('On this device')
    case 'other-device':
      return own || detail.accountId === undefined ? say('Another device of theirs') : say('A device of {name}’s', { name })
    case 'all-devices':
      return own || detail.accountId === undefined ? say('All their other devices') : say('All devices of {name}’s', { name })
    case 'added':
      return say('Added {name}{rest}', {
        name,
        rest: textOf(detail, 'role') === null ? '' : say(' as {textOf}', { textOf: textOf(detail, 'role') }),
      })
    case 'changed': {
      const former = textOf(detail, 'formerName')
      return say('Changed {name}{rest}', {
        name: former === null ? name : say('{former}, now {name}', { former, name }),
        rest: textOf(detail, 'role') === null ? '' : `: ${textOf(detail, 'role')}`,
      })
    }
    case 'closed':
      return say('Closed {whose} account', { whose })
    case 'opened-again':
      return say('Let {name} in again', { name })
    case 'password-set':
      return say('Set {whose} password', { whose })
    case 'passkey-added':
      return say('Added {rest} passkey{called}', { rest: own ? say('a') : `${name}’s`, called })
    case 'passkey-removed':
      return say('Took {rest} passkey{called} away', { rest: own ? say('their') : `${name}’s`, called })
    case 'token-added':
      return say('Made {rest} token{called}', { rest: own ? say('a') : `${name}’s`, called })
    case 'token-removed':
      return say('Took back {rest} token{called}', { rest: own ? say('their') : `${name}’s`, called })
    case 'written': {
      const touched = touchedWords(nounsOf(line))
      return touched === '' ? say('Changed what is on record') : say('Changed {touched}', { touched })
    }
  }
}

const nounsSchema = z.record(z.string(), z.int().min(1)).catch({})

/** How many of what a change touched, as its line says. */
export const nounsOf = ({ detail }: Pick<AuditLine, 'detail'>): { noun: string; count: number }[] =>
  Object.entries(nounsSchema.parse(detail.nouns ?? {})).map(([noun, count]) => ({ noun, count }))

const nounWords: Readonly<Record<string, string>> = sayings({
  standIn: 'stand-in',
  list: 'thread list',
})

/** "3 batches of thread and 1 place"; empty where nothing was named. */
export function touchedWords(touched: readonly { noun: string; count: number }[]): string {
  if (touched.some(({ noun }) => noun === 'everything')) return say('the whole collection')
  return listed(
    touched.map(({ noun, count }) => {
      if (noun === 'cloth') return say('{count, plural, one {# piece} other {# pieces}} of cloth', { count })
      if (noun === 'batch') return say('{count, plural, one {# batch} other {# batches}} of thread', { count })
      return counted(count, nounWords[noun] ?? noun)
    }),
  )
}
