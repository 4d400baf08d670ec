import 'server-only'
import { database } from '../client'
import { asProgram } from './asking'

/** What is known of accounts stands for so long, where another process may have changed them. */
const knownForMs = 2_000

const shared = globalThis as unknown as {
  larderAccounts?: { hasAccounts: { is: boolean; url: string; readAtMs: number } | null; listeners: Set<() => void> }
}
shared.larderAccounts ??= { hasAccounts: null, listeners: new Set() }
const known = shared.larderAccounts

/** Be told when this process changed an account. */
export function onAccountsChanged(listener: () => void): void {
  known.listeners.add(listener)
}

/** Called by whatever writes an account. */
export function accountsChanged(): void {
  known.hasAccounts = null
  for (const listener of known.listeners) listener()
}

/** Whether anybody has to sign in; read from the database once in two seconds. */
export async function hasAccounts(nowMs: number): Promise<boolean> {
  const { url, prisma } = database()
  const before = known.hasAccounts
  if (before && before.url === url && nowMs >= before.readAtMs && nowMs - before.readAtMs < knownForMs) return before.is
  const is = (await asProgram(() => prisma.account.findFirst({ where: { closedAt: null }, select: { id: true } }))) !== null
  known.hasAccounts = { is, url, readAtMs: nowMs }
  return is
}
