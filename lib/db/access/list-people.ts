import 'server-only'
import type { Account } from '#lib/access/account'
import { sessionIdleMs } from '#lib/access/session'
import { database } from '../client'
import { listAccounts } from './accounts'
import { requireRight } from './right'

export type Person = Account & {
  /** Where they are signed in now, and when one of those was last used. */
  deviceCount: number
  usedAt: Date | null
  passkeyCount: number
  tokenCount: number
}

/** Everybody with an account, those closed last, with how they sign in. For keepers. */
export async function listPeople(now: Date): Promise<Person[]> {
  requireRight('keep')
  const { prisma } = database()
  const idleSince = new Date(now.getTime() - sessionIdleMs)
  const [accounts, devices, passkeys, tokens] = await Promise.all([
    listAccounts(),
    prisma.session.groupBy({
      by: ['accountId'],
      where: { expiresAt: { gt: now }, usedAt: { gt: idleSince } },
      _count: { _all: true },
      _max: { usedAt: true },
    }),
    prisma.passkey.groupBy({ by: ['accountId'], _count: { _all: true } }),
    prisma.apiToken.groupBy({ by: ['accountId'], _count: { _all: true } }),
  ])
  const countIn = (counts: readonly { accountId: string; _count: { _all: number } }[]) => {
    const byId = new Map(counts.map(({ accountId, _count }) => [accountId, _count._all]))
    return (id: string) => byId.get(id) ?? 0
  }
  const [deviceCount, passkeyCount, tokenCount] = [countIn(devices), countIn(passkeys), countIn(tokens)]
  const usedAt = new Map(devices.map(({ accountId, _max }) => [accountId, _max.usedAt]))
  const people = accounts.map((account) => ({
    ...account,
    deviceCount: deviceCount(account.id),
    usedAt: usedAt.get(account.id) ?? null,
    passkeyCount: passkeyCount(account.id),
    tokenCount: tokenCount(account.id),
  }))
  return [...people.filter(({ closedAt }) => closedAt === null), ...people.filter(({ closedAt }) => closedAt !== null)]
}
