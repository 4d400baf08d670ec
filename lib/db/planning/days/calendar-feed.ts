import 'server-only'
import { randomBytes } from 'node:crypto'
import { z } from 'zod'
import { ok, type Result, refused } from '#lib/result'
import { database, type Transaction } from '../../client'
import { beyondSight } from '../../sight/sighted-client'
import { write } from '../../write'

const keyOf = (ownerId: string): string => `calendar-feed.${ownerId}`
const prefix = keyOf('')
const keptSchema = z.object({ token: z.string().regex(/^[\w-]{43}$/) })

const tokenIn = (valueJson: string): string | null => {
  const kept = keptSchema.safeParse(JSON.parse(valueJson))
  return kept.success ? kept.data.token : null
}

type NoSuchOwner = { kind: 'no-such-owner'; ownerId: string }

/** An address tells all of an owner's calendar: it is for those who see the owner's goods. */
const isSeen = async (tx: Pick<Transaction, 'owner'>, ownerId: string): Promise<boolean> =>
  (await tx.owner.count({ where: { id: ownerId } })) > 0

/** What stands in the address of an owner's calendar; null while it has none. */
export async function findFeedToken(ownerId: string): Promise<string | null> {
  if (!(await isSeen(database().prisma, ownerId))) return null
  const row = await database().prisma.setting.findUnique({ where: { key: keyOf(ownerId) }, select: { valueJson: true } })
  return row && tokenIn(row.valueJson)
}

/**
 * Give an owner's calendar an address that nobody can guess, 256 random bits; where it has one, another, and the old one is answered
 * no more. Whoever knows it can read the calendar, so it is to be kept as a password is.
 */
export function renewFeedToken(ownerId: string): Promise<Result<{ token: string }, NoSuchOwner>> {
  return write<{ token: string }, NoSuchOwner>(async ({ tx }) => {
    if (!(await isSeen(tx, ownerId))) return refused({ kind: 'no-such-owner', ownerId })
    const token = randomBytes(32).toString('base64url')
    const valueJson = JSON.stringify({ token })
    const key = keyOf(ownerId)
    await tx.setting.upsert({
      where: { key },
      create: { key, valueJson },
      update: { valueJson, version: { increment: 1 } },
    })
    return ok({ token })
  })
}

/** Take the address away: what asks for it gets nothing any more. */
export function removeFeedToken(ownerId: string): Promise<Result<null, never>> {
  return write<null, never>(async ({ tx }) => {
    if (await isSeen(tx, ownerId)) await tx.setting.deleteMany({ where: { key: keyOf(ownerId) } })
    return ok(null)
  })
}

/** Whose calendar an address is, whoever asks by it; null for one that is not any more. */
export async function findFeedOwner(token: string): Promise<{ id: string; name: string } | null> {
  const prisma = beyondSight(database().prisma)
  if (!keptSchema.shape.token.safeParse(token).success) return null
  const rows = await prisma.setting.findMany({ where: { key: { startsWith: prefix } }, select: { key: true, valueJson: true } })
  const row = rows.find(({ valueJson }) => tokenIn(valueJson) === token)
  return row ? prisma.owner.findUnique({ where: { id: row.key.slice(prefix.length) }, select: { id: true, name: true } }) : null
}
