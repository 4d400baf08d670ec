import 'server-only'
import { type Account, type AccountRefusal, isAccountName, isLastKeeper } from '#lib/access/account'
import { refusePassword } from '#lib/access/password'
import type { Role } from '#lib/access/who'
import { textKey } from '#lib/quantity/text-key'
import { ok, type Result, refused } from '#lib/result'
import { database, type Transaction } from '../client'
import { newId } from '../new-id'
import { type Write, writeTo } from '../write-gate'
import { addAuditEntry } from './audit'
import { accountsChanged } from './known-accounts'
import { hashPassword } from './passwords'
import { requireRight, requireSelfOrKeeper } from './right'

type Changed<T> = Promise<Result<T, AccountRefusal>>

const columns = {
  id: true,
  name: true,
  role: true,
  passwordHash: true,
  seesEveryOwner: true,
  createdAt: true,
  passwordSetAt: true,
  closedAt: true,
  version: true,
  owners: { select: { ownerId: true }, orderBy: { ownerId: 'asc' } },
} as const

type Row = {
  id: string
  name: string
  role: string
  passwordHash: string | null
  seesEveryOwner: boolean
  createdAt: Date
  passwordSetAt: Date | null
  closedAt: Date | null
  version: number
  owners: { ownerId: string }[]
}

function toAccount({ passwordHash, seesEveryOwner, owners, role, ...row }: Row): Account {
  return {
    ...row,
    role: role as Role,
    ownerIds: seesEveryOwner ? null : owners.map(({ ownerId }) => ownerId),
    hasPassword: passwordHash !== null,
  }
}

/** How many can sign in. */
export const countAccounts = (): Promise<number> => database().prisma.account.count({ where: { closedAt: null } })

/** Whether somebody can sign in who keeps house: without one the program stays on its own machine. */
export const hasKeeper = async (): Promise<boolean> =>
  (await database().prisma.account.count({ where: { closedAt: null, role: 'keeper' } })) > 0

/** Every account, the closed ones too, by name. */
export async function listAccounts(): Promise<Account[]> {
  const rows = await database().prisma.account.findMany({ select: columns, orderBy: [{ nameKey: 'asc' }, { id: 'asc' }] })
  return rows.map(toAccount)
}

export async function findAccount(accountId: string): Promise<Account | null> {
  const row = await database().prisma.account.findUnique({ where: { id: accountId }, select: columns })
  return row && toAccount(row)
}

/** By its name as it is typed; `passwordHash` is for `isPassword` alone. */
export async function findAccountByName(name: string): Promise<{ account: Account; passwordHash: string | null } | null> {
  const row = await database().prisma.account.findUnique({ where: { nameKey: textKey(name) }, select: columns })
  return row && { account: toAccount(row), passwordHash: row.passwordHash }
}

/** Accounts are written by the write gate itself: a looker may change their own password, and who may do what is asked here, each time. */
async function writeAccounts<T>(work: (write: Write) => Changed<T>): Changed<T> {
  const result = await writeTo<T, AccountRefusal>(database(), work)
  if (result.ok) accountsChanged()
  return result
}

const openKeepers = async (tx: Transaction): Promise<string[]> => {
  const keepers = await tx.account.findMany({ where: { closedAt: null, role: 'keeper' }, select: { id: true } })
  return keepers.map(({ id }) => id)
}

const getRow = async (tx: Transaction, id: string): Promise<Account> =>
  toAccount(await tx.account.findUniqueOrThrow({ where: { id }, select: columns }))

/** Claim the account as it was looked at; a count of 0 means somebody got there first. */
const claim = (tx: Transaction, account: { id: string; version: number }, data: Record<string, unknown>) =>
  tx.account.updateMany({ where: { id: account.id, version: account.version }, data: { ...data, version: { increment: 1 } } })

async function setOwners(tx: Transaction, accountId: string, ownerIds: readonly string[] | null): Promise<void> {
  await tx.accountOwner.deleteMany({ where: { accountId } })
  if (ownerIds === null || ownerIds.length === 0) return
  // An owner taken out meanwhile is no owner to see.
  const owners = await tx.owner.findMany({ where: { id: { in: [...ownerIds] } }, select: { id: true } })
  await tx.accountOwner.createMany({ data: owners.map(({ id }) => ({ accountId, ownerId: id })) })
}

/**
 * Add an account. The first must be a keeper's: from then on everybody signs in.
 *
 * @param input.password  null for whoever is to sign in by passkey alone
 */
export async function addAccount(input: {
  name: string
  role: Role
  password: string | null
  ownerIds: readonly string[] | null
}): Changed<Account> {
  requireRight('keep')
  const { name, role, password, ownerIds } = input
  if (!isAccountName(name)) return refused({ kind: 'name-unfit' })
  if (role === 'keeper' && ownerIds !== null) return refused({ kind: 'keeper-sees-all' })
  const refusal = password === null ? null : refusePassword(password, name)
  if (refusal) return refused({ kind: 'password', refusal })
  const passwordHash = password === null ? null : await hashPassword(password)
  return writeAccounts<Account>(async ({ tx, at }) => {
    const nameKey = textKey(name)
    if (await tx.account.findUnique({ where: { nameKey }, select: { id: true } })) return refused({ kind: 'name-taken', name })
    if (role !== 'keeper' && (await openKeepers(tx)).length === 0) return refused({ kind: 'first-is-keeper' })
    const id = newId()
    await tx.account.create({
      data: {
        id,
        name,
        nameKey,
        role,
        passwordHash,
        seesEveryOwner: ownerIds === null,
        createdAt: at,
        passwordSetAt: passwordHash === null ? null : at,
      },
    })
    await setOwners(tx, id, ownerIds)
    await addAuditEntry(tx, { kind: 'account', what: 'added', at, detail: { accountId: id, name, role } })
    return ok(await getRow(tx, id))
  })
}

/** Another name, role or other owners to see. What they are signed in on stays signed in, as the account now is. */
export function changeAccount(input: {
  id: string
  version: number
  name: string
  role: Role
  ownerIds: readonly string[] | null
}): Changed<Account> {
  requireRight('keep')
  return writeAccounts<Account>(async ({ tx, at }) => {
    const { id, name, role, ownerIds } = input
    if (!isAccountName(name)) return refused({ kind: 'name-unfit' })
    if (role === 'keeper' && ownerIds !== null) return refused({ kind: 'keeper-sees-all' })
    const before = await tx.account.findUnique({ where: { id }, select: columns })
    if (!before) return refused({ kind: 'no-such-account' })
    const nameKey = textKey(name)
    const namesake = await tx.account.findUnique({ where: { nameKey }, select: { id: true } })
    if (namesake && namesake.id !== id) return refused({ kind: 'name-taken', name })
    if (role !== 'keeper' && isLastKeeper(id, await openKeepers(tx))) return refused({ kind: 'last-keeper', name: before.name })
    const claimed = await claim(tx, input, { name, nameKey, role, seesEveryOwner: ownerIds === null })
    if (claimed.count === 0) return refused({ kind: 'changed-meanwhile' })
    await setOwners(tx, id, ownerIds)
    const was = before.name === name ? {} : { formerName: before.name }
    await addAuditEntry(tx, { kind: 'account', what: 'changed', at, detail: { accountId: id, name, role, ...was } })
    return ok(await getRow(tx, id))
  })
}

/** Close it: it signs in no more, wherever it was signed in it is no longer, and its tokens are taken off. Its name stays beside what it did. */
export function closeAccount(input: { id: string; version: number }): Changed<Account> {
  requireRight('keep')
  return writeAccounts<Account>(async ({ tx, at }) => {
    const { id } = input
    const before = await tx.account.findUnique({ where: { id }, select: { name: true, closedAt: true } })
    if (!before) return refused({ kind: 'no-such-account' })
    if (isLastKeeper(id, await openKeepers(tx))) return refused({ kind: 'last-keeper', name: before.name })
    const claimed = await claim(tx, input, { closedAt: before.closedAt ?? at })
    if (claimed.count === 0) return refused({ kind: 'changed-meanwhile' })
    await tx.session.deleteMany({ where: { accountId: id } })
    await tx.apiToken.deleteMany({ where: { accountId: id } })
    await addAuditEntry(tx, { kind: 'account', what: 'closed', at, detail: { accountId: id, name: before.name } })
    return ok(await getRow(tx, id))
  })
}

/** Let a closed account sign in again, with what it signed in with before. */
export function openAccountAgain(input: { id: string; version: number }): Changed<Account> {
  requireRight('keep')
  return writeAccounts<Account>(async ({ tx, at }) => {
    const before = await tx.account.findUnique({ where: { id: input.id }, select: { name: true } })
    if (!before) return refused({ kind: 'no-such-account' })
    const claimed = await claim(tx, input, { closedAt: null })
    if (claimed.count === 0) return refused({ kind: 'changed-meanwhile' })
    await addAuditEntry(tx, { kind: 'account', what: 'opened-again', at, detail: { accountId: input.id, name: before.name } })
    return ok(await getRow(tx, input.id))
  })
}

/**
 * Give an account a password, its own holder or a keeper. Every device it is signed in on is signed out, but `keepSessionId`: the one the
 * holder sits at. Tokens stay: they are not made from the password.
 */
export async function setPassword(input: { id: string; password: string; keepSessionId?: string | null }): Changed<Account> {
  requireSelfOrKeeper(input.id)
  const found = await findAccount(input.id)
  if (!found) return refused({ kind: 'no-such-account' })
  const refusal = refusePassword(input.password, found.name)
  if (refusal) return refused({ kind: 'password', refusal })
  const passwordHash = await hashPassword(input.password)
  return writeAccounts<Account>(async ({ tx, at }) => {
    const { id } = input
    const set = await tx.account.updateMany({
      where: { id },
      data: { passwordHash, passwordSetAt: at, version: { increment: 1 } },
    })
    if (set.count === 0) return refused({ kind: 'no-such-account' })
    await tx.session.deleteMany({
      where: { accountId: id, ...(input.keepSessionId ? { id: { not: input.keepSessionId } } : {}) },
    })
    await addAuditEntry(tx, { kind: 'account', what: 'password-set', at, detail: { accountId: id, name: found.name } })
    return ok(await getRow(tx, id))
  })
}
