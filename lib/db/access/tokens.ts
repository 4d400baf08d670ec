import 'server-only'
import { createHash, randomBytes } from 'node:crypto'
import { readToken, tokenBytes, writeToken } from '#lib/access/token'
import { type Right, type Role, reaches, reachOf, type SignedIn } from '#lib/access/who'
import { ok, type Result, refused } from '#lib/result'
import { database } from '../client'
import { newId } from '../new-id'
import { writeTo } from '../write-gate'
import { addAuditEntry } from './audit'
import { requireSelfOrKeeper } from './right'

/** More than so many at a time, and nobody knows any more what each is for. */
export const mostTokens = 20
/** A token's last use is written down no more often than this. */
const usedAtStepMs = 3_600_000

export type Token = {
  id: string
  label: string
  scope: Right
  createdAt: Date
  /** Null for one that goes on until it is taken back. */
  expiresAt: Date | null
  usedAt: Date | null
}

export type TokenRefused =
  | { kind: 'no-such-account' }
  | { kind: 'beyond-role'; role: Role; scope: Right }
  | { kind: 'too-many'; most: number }
  | { kind: 'over-already' }

const columns = { id: true, label: true, scope: true, createdAt: true, expiresAt: true, usedAt: true } as const

/** Of a secret of 256 random bits a plain digest is enough: there is nothing to guess. */
const digestOf = (token: string): string => createHash('sha256').update(token).digest('base64url')

/**
 * Make a token by which a program does what this account may, as far as `scope` goes.
 *
 * @returns  the token as listed, and its text: kept nowhere, so this is the only time it is seen.
 */
export function makeToken(input: {
  accountId: string
  label: string
  scope: Right
  expiresAt: Date | null
}): Promise<Result<{ token: Token; text: string }, TokenRefused>> {
  const { accountId, label, scope, expiresAt } = input
  requireSelfOrKeeper(accountId)
  const text = writeToken(randomBytes(tokenBytes))
  return writeTo<{ token: Token; text: string }, TokenRefused>(database(), async ({ tx, at }) => {
    const account = await tx.account.findFirst({ where: { id: accountId, closedAt: null }, select: { name: true, role: true } })
    if (!account) return refused({ kind: 'no-such-account' })
    const role = account.role as Role
    if (!reaches(reachOf(role), scope)) return refused({ kind: 'beyond-role', role, scope })
    if (expiresAt !== null && expiresAt <= at) return refused({ kind: 'over-already' })
    if ((await tx.apiToken.count({ where: { accountId } })) >= mostTokens) return refused({ kind: 'too-many', most: mostTokens })
    const token = { id: newId(), label, scope, createdAt: at, expiresAt, usedAt: null }
    await tx.apiToken.create({ data: { ...token, accountId, secretHash: digestOf(text) } })
    await addAuditEntry(tx, {
      kind: 'account',
      what: 'token-added',
      at,
      detail: { accountId, name: account.name, label, scope, until: expiresAt?.toISOString() ?? null },
    })
    return ok({ token, text })
  })
}

/** An account's tokens, the newest first; those that are over too, until they are taken away. */
export async function listTokens(accountId: string): Promise<Token[]> {
  const rows = await database().prisma.apiToken.findMany({ where: { accountId }, select: columns, orderBy: { id: 'desc' } })
  return rows as Token[]
}

/** Take a token back: from now on it opens nothing. */
export function revokeToken(input: { accountId: string; tokenId: string }): Promise<Result<Token, { kind: 'no-such-token' }>> {
  const { accountId, tokenId } = input
  requireSelfOrKeeper(accountId)
  return writeTo<Token, { kind: 'no-such-token' }>(database(), async ({ tx, at }) => {
    const row = await tx.apiToken.findFirst({
      where: { id: tokenId, accountId },
      select: { ...columns, account: { select: { name: true } } },
    })
    if (!row) return refused({ kind: 'no-such-token' })
    const { account, ...token } = row
    await tx.apiToken.delete({ where: { id: tokenId } })
    await addAuditEntry(tx, {
      kind: 'account',
      what: 'token-removed',
      at,
      detail: { accountId, name: account.name, label: token.label },
    })
    return ok(token as Token)
  })
}

/** Who asks by this token; null where it does not read, was taken back or is over, or its account is closed. */
export async function holderOfToken(text: string): Promise<SignedIn | null> {
  const read = readToken(text)
  if (!read.ok) return null
  const { prisma } = database()
  const now = new Date()
  const token = await prisma.apiToken.findUnique({
    where: { secretHash: digestOf(read.value) },
    select: {
      id: true,
      scope: true,
      expiresAt: true,
      usedAt: true,
      account: {
        select: {
          id: true,
          name: true,
          role: true,
          closedAt: true,
          seesEveryOwner: true,
          owners: { select: { ownerId: true }, orderBy: { ownerId: 'asc' } },
        },
      },
    },
  })
  if (!token || token.account.closedAt !== null) return null
  if (token.expiresAt !== null && token.expiresAt <= now) return null
  if (token.usedAt === null || now.getTime() - token.usedAt.getTime() >= usedAtStepMs) {
    await writeTo(database(), async ({ tx, at }) => {
      await tx.apiToken.updateMany({ where: { id: token.id }, data: { usedAt: at } })
      return ok(null)
    })
  }
  const { account } = token
  return {
    kind: 'account',
    accountId: account.id,
    name: account.name,
    role: account.role as Role,
    ownerIds: account.seesEveryOwner ? null : account.owners.map(({ ownerId }) => ownerId),
    by: { kind: 'token', tokenId: token.id, scope: token.scope as Right },
  }
}
