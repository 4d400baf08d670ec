import 'server-only'
import { type AuditFact, forLog } from '#lib/access/audit'
import type { SignInRefusal } from '#lib/access/sign-in'
import { ok, type Result, refused } from '#lib/result'
import { database } from '../client'
import { writeTo } from '../write-gate'
import { findAccountByName } from './accounts'
import { addAuditEntry } from './audit'
import { isPassword } from './passwords'
import { startSession } from './sessions'
import { countTry, forgetTries } from './sign-in-limits'

/** Refusals written in the log in an hour at most: a flood must not fill the disk. */
const mostRefusalsAnHour = 300
const shared = globalThis as unknown as { larderRefusals?: { hour: number; count: number } }

/** Write in the log that somebody was refused; a flood of them only begins there. */
export async function logRefusal(
  fact: Extract<AuditFact, { kind: 'refused' }>,
  account: { id: string | null; name: string },
  now: Date,
): Promise<void> {
  const hour = Math.floor(now.getTime() / 3_600_000)
  if (shared.larderRefusals?.hour !== hour) shared.larderRefusals = { hour, count: 0 }
  shared.larderRefusals.count++
  if (shared.larderRefusals.count > mostRefusalsAnHour) return
  await writeTo<null, never>(database(), async ({ tx, at }) => {
    await addAuditEntry(tx, { ...fact, at, account: { id: account.id, name: forLog(account.name, 80) } })
    return ok(null)
  })
}

/**
 * Sign somebody in by name and password. Whether it was the name or the password that was wrong is neither said nor shown by how long it
 * takes.
 */
export async function signInByPassword(input: {
  name: string
  password: string
  device: string
  address: string
}): Promise<Result<{ secret: string; sessionId: string; lastsMs: number; name: string }, SignInRefusal>> {
  const now = new Date()
  const { name, address } = input
  const tried = await countTry(name, address)
  if (tried.waitSeconds > 0) {
    if (tried.isFirstRefusal) await logRefusal({ kind: 'refused', what: 'too-many-tries' }, { id: null, name }, now)
    return refused({ kind: 'wait', seconds: tried.waitSeconds })
  }
  const found = await findAccountByName(name)
  const kept = found && found.account.closedAt === null ? found.passwordHash : null
  if (!(await isPassword(kept, input.password)) || !found) {
    await logRefusal({ kind: 'refused', what: 'wrong-password' }, { id: found?.account.id ?? null, name }, now)
    return refused({ kind: 'wrong' })
  }
  const started = await startSession({ accountId: found.account.id, how: 'password', device: input.device, address })
  if (!started.ok) return refused({ kind: 'wrong' })
  await forgetTries(name)
  return ok({ ...started.value, name: found.account.name })
}
