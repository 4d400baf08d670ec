import { z } from 'zod'
import { type AuditKind, auditWhats } from '#lib/access/audit'
import type { AuditLine } from '#lib/db/access/list-audit'
import { counted, listed } from './amounts'

/** What kinds of lines are called over the log. */
export const auditKindWords: Record<AuditKind, string> = {
  'sign-in': 'Signed in',
  refused: 'Refused',
  'sign-out': 'Signed out',
  account: 'People',
  change: 'Change',
}

type What = { [Kind in AuditKind]: (typeof auditWhats)[Kind][number] }[AuditKind]

const isWhat = (line: Pick<AuditLine, 'kind' | 'what'>): line is { kind: AuditKind; what: What } =>
  (auditWhats[line.kind] as readonly string[]).includes(line.what)

const whyWords: Readonly<Record<string, string>> = {
  'challenge-over': 'it came too late, or a second time',
  'does-not-verify': 'it does not hold',
  'unknown-passkey': 'it is not on record',
  copied: 'there is a copy of it',
  'account-closed': 'the account is closed',
}

const textOf = (detail: AuditLine['detail'], key: string): string | null => {
  const value = detail[key]
  return typeof value === 'string' && value !== '' ? value : null
}

/** Whose account was changed: "their own", or "that of Corrie Dunn". */
function ofWhom({ accountId, detail }: Pick<AuditLine, 'accountId' | 'detail'>): { own: boolean; name: string } {
  return { own: accountId !== null && detail.accountId === accountId, name: textOf(detail, 'name') ?? 'somebody' }
}

/** Who it was: a name, or what stands in its place. */
export function doerWords({ accountId, accountName, kind }: Pick<AuditLine, 'accountId' | 'accountName' | 'kind'>): string {
  if (accountId !== null) return accountName
  if (accountName !== '') return `“${accountName}”`
  return kind === 'refused' ? 'somebody unknown' : 'at the machine itself'
}

/** What was done, as a sentence without its doer. */
export function auditWords(line: Pick<AuditLine, 'kind' | 'what' | 'accountId' | 'detail' | 'revision'>): string {
  if (!isWhat(line)) return `${auditKindWords[line.kind]}: ${line.what}`
  const { detail } = line
  const { own, name } = ofWhom(line)
  const whose = own ? 'their own' : `${name}’s`
  const label = textOf(detail, 'label')
  const called = label === null ? '' : ` “${label}”`
  switch (line.what) {
    case 'password':
      return 'By password'
    case 'passkey':
      return `By passkey${called}`
    case 'wrong-password':
      return 'Wrong name or password'
    case 'wrong-passkey': {
      const why = whyWords[textOf(detail, 'why') ?? '']
      return `Passkey${called} not taken${why === undefined ? '' : `: ${why}`}`
    }
    case 'too-many-tries':
      return 'Too many tries; kept waiting'
    case 'other-site':
      return 'A form sent from another site'
    case 'not-allowed':
      return 'Asked for what their role does not reach'
    case 'here':
      return 'On this device'
    case 'other-device':
      return own || detail.accountId === undefined ? 'Another device of theirs' : `A device of ${name}’s`
    case 'all-devices':
      return own || detail.accountId === undefined ? 'All their other devices' : `All devices of ${name}’s`
    case 'added':
      return `Added ${name}${textOf(detail, 'role') === null ? '' : ` as ${textOf(detail, 'role')}`}`
    case 'changed': {
      const former = textOf(detail, 'formerName')
      return `Changed ${former === null ? name : `${former}, now ${name}`}${textOf(detail, 'role') === null ? '' : `: ${textOf(detail, 'role')}`}`
    }
    case 'closed':
      return `Closed ${whose} account`
    case 'opened-again':
      return `Let ${name} in again`
    case 'password-set':
      return `Set ${whose} password`
    case 'passkey-added':
      return `Added ${own ? 'a' : `${name}’s`} passkey${called}`
    case 'passkey-removed':
      return `Took ${own ? 'their' : `${name}’s`} passkey${called} away`
    case 'token-added':
      return `Made ${own ? 'a' : `${name}’s`} token${called}`
    case 'token-removed':
      return `Took back ${own ? 'their' : `${name}’s`} token${called}`
    case 'written': {
      const touched = touchedWords(nounsOf(line))
      return touched === '' ? 'Changed what is on record' : `Changed ${touched}`
    }
  }
}

const nounsSchema = z.record(z.string(), z.int().min(1)).catch({})

/** How many of what a change touched, as its line says. */
export const nounsOf = ({ detail }: Pick<AuditLine, 'detail'>): { noun: string; count: number }[] =>
  Object.entries(nounsSchema.parse(detail.nouns ?? {})).map(([noun, count]) => ({ noun, count }))

const nounWords: Readonly<Record<string, string>> = {
  standIn: 'stand-in',
  list: 'thread list',
}

/** "3 batches of thread and 1 place"; empty where nothing was named. */
export function touchedWords(touched: readonly { noun: string; count: number }[]): string {
  if (touched.some(({ noun }) => noun === 'everything')) return 'the whole collection'
  return listed(
    touched.map(({ noun, count }) => {
      if (noun === 'cloth') return `${counted(count, 'piece')} of cloth`
      if (noun === 'batch') return `${counted(count, 'batch')} of thread`
      return counted(count, nounWords[noun] ?? noun)
    }),
  )
}
