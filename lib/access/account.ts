import type { PasswordRefusal } from './password'
import type { Role } from './who'

export type Account = {
  id: string
  name: string
  role: Role
  /** Whose goods are seen; null for everybody's. */
  ownerIds: readonly string[] | null
  hasPassword: boolean
  createdAt: Date
  passwordSetAt: Date | null
  /** When it was closed; null while it signs in. */
  closedAt: Date | null
  version: number
}

export type AccountRefusal =
  | { kind: 'no-such-account' }
  | { kind: 'name-taken'; name: string }
  | { kind: 'name-unfit' }
  | { kind: 'changed-meanwhile' }
  /** Nobody could keep house any more. */
  | { kind: 'last-keeper'; name: string }
  /** The first account must be able to let others in. */
  | { kind: 'first-is-keeper' }
  /** Keeping house takes the whole collection. */
  | { kind: 'keeper-sees-all' }
  | { kind: 'password'; refusal: PasswordRefusal }

/** Characters a name may have. */
export const longestAccountName = 80

/** One line that shows something. */
export const isAccountName = (name: string): boolean =>
  name === name.trim() &&
  /[\p{L}\p{N}]/u.test(name) &&
  [...name].length <= longestAccountName &&
  !/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u.test(name)

/** Whether taking a keeper's work from this account would leave nobody to do it. `openKeepers` are the ids of those who can sign in. */
export const isLastKeeper = (accountId: string, openKeepers: readonly string[]): boolean =>
  openKeepers.length === 1 && openKeepers[0] === accountId
