import 'server-only'
import { createHash, randomBytes } from 'node:crypto'
import { forLog } from '#lib/access/audit'
import {
  isFormerGood,
  isRotationDue,
  isSecret,
  isSessionOver,
  isUseToWrite,
  type SessionTimes,
  sessionIdleMs,
  sessionLastsMs,
} from '#lib/access/session'
import type { Role, SignedIn } from '#lib/access/who'
import { ok, type Result, refused } from '#lib/result'
import { database } from '../client'
import { newId } from '../new-id'
import { writeTo } from '../write-gate'
import { asProgram } from './asking'
import { addAuditEntry } from './audit'
import { onAccountsChanged } from './known-accounts'

/** A device somebody is signed in on. */
export type Device = { id: string; device: string; address: string; createdAt: Date; usedAt: Date; expiresAt: Date }

/** Of a secret of 256 random bits a plain digest is enough: there is nothing to guess. */
const digestOf = (secret: string): string => createHash('sha256').update(secret).digest('base64url')
const newSecret = (): string => randomBytes(32).toString('base64url')

type Known = { who: SignedIn; times: SessionTimes; isFormer: boolean; readAtMs: number }
/** The one before is on its way out, with the one that takes its place. */
type Rotated = { sessionId: string; secret: string; expiresAtMs: number; atMs: number }

/** What was read stands for so long: somebody signed out by another process is let in no longer than this. */
const knownForMs = 2_000
const mostKnown = 2_000

const shared = globalThis as unknown as {
  larderSessions?: { known: Map<string, Known>; rotated: Map<string, Rotated>; writing: Set<string> }
}
shared.larderSessions ??= { known: new Map(), rotated: new Map(), writing: new Set() }
const kept = shared.larderSessions
onAccountsChanged(() => kept.known.clear())

const columns = {
  id: true,
  accountId: true,
  secretHash: true,
  rotatedAt: true,
  createdAt: true,
  usedAt: true,
  expiresAt: true,
  account: {
    select: { name: true, role: true, closedAt: true, seesEveryOwner: true, owners: { select: { ownerId: true } } },
  },
} as const

async function readSession(digest: string, nowMs: number): Promise<Known | null> {
  const row = await database().prisma.session.findFirst({
    where: { OR: [{ secretHash: digest }, { formerHash: digest }] },
    select: columns,
  })
  if (!row || row.account.closedAt !== null) return null
  const { account } = row
  return {
    who: {
      kind: 'account',
      accountId: row.accountId,
      name: account.name,
      role: account.role as Role,
      ownerIds: account.seesEveryOwner ? null : account.owners.map(({ ownerId }) => ownerId).sort(),
      by: { kind: 'session', sessionId: row.id },
    },
    times: {
      createdAtMs: row.createdAt.getTime(),
      usedAtMs: row.usedAt.getTime(),
      rotatedAtMs: row.rotatedAt.getTime(),
      expiresAtMs: row.expiresAt.getTime(),
    },
    isFormer: row.secretHash !== digest,
    readAtMs: nowMs,
  }
}

/**
 * Who a cookie's secret stands for; null for one that is no secret of ours, is over, or was taken back. Reads the database once in two
 * seconds for each; that it was used is written now and then, and nobody waits for it.
 */
export async function findSignedIn(secret: string, nowMs: number): Promise<SignedIn | null> {
  if (!isSecret(secret)) return null
  const digest = digestOf(secret)
  let known = kept.known.get(digest)
  if (!known || nowMs - known.readAtMs >= knownForMs || nowMs < known.readAtMs) {
    const read = await asProgram(() => readSession(digest, nowMs))
    kept.known.delete(digest)
    if (!read) return null
    if (kept.known.size >= mostKnown) kept.known.clear()
    kept.known.set(digest, read)
    known = read
  }
  if (isSessionOver(known.times, nowMs) || (known.isFormer && !isFormerGood(known.times, nowMs))) return null
  if (isUseToWrite(known.times, nowMs))
    writeUse(known.who.by.kind === 'session' ? known.who.by.sessionId : '', known.times, nowMs)
  return known.who
}

function writeUse(sessionId: string, times: SessionTimes, nowMs: number): void {
  if (kept.writing.has(sessionId)) return
  kept.writing.add(sessionId)
  times.usedAtMs = nowMs
  asProgram(() =>
    writeTo<null, never>(database(), async ({ tx }) => {
      await tx.session.updateMany({
        where: { id: sessionId, usedAt: { lt: new Date(nowMs) } },
        data: { usedAt: new Date(nowMs) },
      })
      return ok(null)
    }),
  )
    .catch((error) => console.error('the use of a device could not be written', error))
    .finally(() => kept.writing.delete(sessionId))
}

/**
 * Another secret in the place of one that was in use for a day: whoever copied it has it no longer. The former is taken for a minute
 * more, and whoever still comes with it meanwhile is handed the same new one.
 *
 * @returns the new secret and how long it lasts; null where none is due
 */
export async function rotateSession(secret: string, nowMs: number): Promise<{ secret: string; lastsMs: number } | null> {
  const digest = digestOf(secret)
  for (const [key, { atMs }] of kept.rotated) if (nowMs - atMs > 60_000) kept.rotated.delete(key)
  const before = kept.rotated.get(digest)
  if (before) return { secret: before.secret, lastsMs: before.expiresAtMs - nowMs }
  const known = kept.known.get(digest)
  if (!known || known.isFormer || !isRotationDue(known.times, nowMs) || known.who.by.kind !== 'session') return null
  const { sessionId } = known.who.by
  const rotated: Rotated = { sessionId, secret: newSecret(), expiresAtMs: known.times.expiresAtMs, atMs: nowMs }
  kept.rotated.set(digest, rotated)
  const at = new Date(nowMs)
  const result = await asProgram(() =>
    writeTo<null, 'gone'>(database(), async ({ tx }) => {
      const claimed = await tx.session.updateMany({
        where: { id: sessionId, secretHash: digest },
        data: { secretHash: digestOf(rotated.secret), formerHash: digest, rotatedAt: at, usedAt: at },
      })
      return claimed.count === 1 ? ok(null) : refused('gone')
    }),
  ).catch((error) => {
    kept.rotated.delete(digest)
    throw error
  })
  kept.known.delete(digest)
  // Another process was first: its answer carries the new one.
  if (!result.ok) kept.rotated.delete(digest)
  return result.ok ? { secret: rotated.secret, lastsMs: rotated.expiresAtMs - nowMs } : null
}

/**
 * Sign a device in, always with a secret of its own, whatever it had before.
 *
 * @param input.how  by what it was shown who they are
 * @returns the secret for its cookie, kept nowhere here
 */
export function startSession(input: {
  accountId: string
  how: 'password' | 'passkey'
  device: string
  address: string
}): Promise<Result<{ secret: string; sessionId: string; lastsMs: number }, { kind: 'no-such-account' }>> {
  const secret = newSecret()
  return writeTo<{ secret: string; sessionId: string; lastsMs: number }, { kind: 'no-such-account' }>(
    database(),
    async ({ tx, at }) => {
      const account = await tx.account.findFirst({
        where: { id: input.accountId, closedAt: null },
        select: { id: true, name: true },
      })
      if (!account) return refused({ kind: 'no-such-account' })
      const idleSince = new Date(at.getTime() - sessionIdleMs)
      await tx.session.deleteMany({ where: { OR: [{ expiresAt: { lte: at } }, { usedAt: { lte: idleSince } }] } })
      const sessionId = newId()
      await tx.session.create({
        data: {
          id: sessionId,
          accountId: account.id,
          secretHash: digestOf(secret),
          rotatedAt: at,
          createdAt: at,
          usedAt: at,
          expiresAt: new Date(at.getTime() + sessionLastsMs),
          device: forLog(input.device, 200),
          address: forLog(input.address, 60),
        },
      })
      await addAuditEntry(tx, { kind: 'sign-in', what: input.how, at, account, detail: { device: forLog(input.device, 200) } })
      return ok({ secret, sessionId, lastsMs: sessionLastsMs })
    },
  )
}

/** Where an account is signed in now, the latest used first. */
export async function listDevices(accountId: string, now: Date): Promise<Device[]> {
  const idleSince = new Date(now.getTime() - sessionIdleMs)
  return database().prisma.session.findMany({
    where: { accountId, expiresAt: { gt: now }, usedAt: { gt: idleSince } },
    select: { id: true, device: true, address: true, createdAt: true, usedAt: true, expiresAt: true },
    orderBy: [{ usedAt: 'desc' }, { id: 'desc' }],
  })
}

/** Sign one device out. It says whether there was one. */
export async function endSession(input: {
  accountId: string
  sessionId: string
  how: 'here' | 'other-device'
}): Promise<boolean> {
  const { accountId, sessionId, how } = input
  const ended = await writeTo<null, 'none'>(database(), async ({ tx, at }) => {
    const found = await tx.session.findFirst({
      where: { id: sessionId, accountId },
      select: { device: true, account: { select: { id: true, name: true } } },
    })
    if (!found) return refused('none')
    await tx.session.delete({ where: { id: sessionId } })
    const whose = how === 'here' ? { account: found.account } : {}
    await addAuditEntry(tx, {
      kind: 'sign-out',
      what: how,
      at,
      detail: { accountId, name: found.account.name, device: found.device },
      ...whose,
    })
    return ok(null)
  })
  kept.known.clear()
  return ended.ok
}

/** Sign an account out everywhere, but where `keepSessionId` is. */
export async function endSessions(input: { accountId: string; keepSessionId: string | null }): Promise<number> {
  const { accountId, keepSessionId } = input
  const ended = await writeTo<number, never>(database(), async ({ tx, at }) => {
    const { count } = await tx.session.deleteMany({
      where: { accountId, ...(keepSessionId === null ? {} : { id: { not: keepSessionId } }) },
    })
    const account = await tx.account.findUnique({ where: { id: accountId }, select: { name: true } })
    if (count > 0)
      await addAuditEntry(tx, { kind: 'sign-out', what: 'all-devices', at, detail: { accountId, name: account?.name, count } })
    return ok(count)
  })
  kept.known.clear()
  return ended.ok ? ended.value : 0
}
