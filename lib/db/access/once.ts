import 'server-only'
import type { Result } from '#lib/result'
import { database } from '../client'
import { newId } from '../new-id'
import { holdWritesTo, type Write } from '../write-gate'
import { type Asking, asking, whileAsking } from './asking'

/** What may be done once: whose it is, what is asked and the key it carries, and a digest of all that was sent with it. */
export type OnceKey = { scope: string; fingerprint: string }

/** How something that carries a key came out. */
export type Once<T> =
  | { kind: 'done'; answer: T }
  /** It was done before, and answered so. */
  | { kind: 'answered'; answerJson: string }
  /** It was done before; what was answered is not known any more: the program ended in between, or it was too long to keep. */
  | { kind: 'answer-lost' }
  /** The key came with something else before. */
  | { kind: 'other-content' }

const dayMs = 24 * 60 * 60 * 1000
/** A key is good for a day. */
const keptMs = dayMs
/** Keys beyond so many are forgotten too, the oldest first, whatever sends them. */
const mostKept = 20_000
/** Answers longer than this are not kept. */
const mostAnswerLength = 200_000
/** While another process is still at work on the same, its answer is waited for so long. */
const waitsForAnswer = 20
const waitMs = 100

type Claim = OnceKey & { rowId: string; isWritten: boolean }

// What belongs to a request is found by whatever part of the program serves it.
const shared = globalThis as unknown as { larderOnce?: WeakMap<Asking, Claim> }
shared.larderOnce ??= new WeakMap()
const claims = shared.larderOnce

/** Thrown inside a write whose key another request has claimed: nothing of it is done. */
export class AlreadyDone extends Error {
  override name = 'AlreadyDone'
}
/** Whatever is bundled apart has a class of its own. */
export const isAlreadyDone = (error: unknown): boolean => (error as { name?: unknown } | null)?.name === 'AlreadyDone'

/**
 * Do something unless it was done before. Its first write keeps the key, in the write's own transaction: whether it was done is known by
 * the same commit that did it, to every process, and after any end of this one. What wrote nothing is done again, unless its answer is to
 * be kept all the same, as where work in the background was begun. What goes on in the background has no key.
 *
 * @param keep.pack    the answer as it is to be kept for a repeat; null where it may be tried again, though something was written
 * @param keep.always  also where nothing was written
 */
export async function onlyOnce<T>(
  key: OnceKey,
  work: () => Promise<T>,
  keep: { pack: (answer: T) => string | null; always?: boolean },
): Promise<Once<T>> {
  const before = await findKey(key)
  if (before !== null) return before
  const request: Asking = { ...(asking() ?? { who: { kind: 'program' }, address: '' }), onceKey: key.scope }
  const claim: Claim = { ...key, rowId: newId(), isWritten: false }
  claims.set(request, claim)
  try {
    const answer = await whileAsking(request, work)
    claims.delete(request)
    if (claim.isWritten || keep.always) await keepAnswer(claim, keep.pack(answer))
    return { kind: 'done', answer }
  } catch (error) {
    if (!isAlreadyDone(error)) throw error
    return (await findKey(key)) ?? { kind: 'answer-lost' }
  }
}

/** What is known of a key; null where it is new. */
async function findKey({ scope, fingerprint }: OnceKey): Promise<Exclude<Once<never>, { kind: 'done' }> | null> {
  for (let waited = 0; ; waited++) {
    const row = await database().prisma.answeredKey.findUnique({ where: { scope } })
    if (!row || row.createdAt.getTime() < Date.now() - keptMs) return null
    if (row.fingerprint !== fingerprint) return { kind: 'other-content' }
    if (row.answerJson !== null) return { kind: 'answered', answerJson: row.answerJson }
    if (waited >= waitsForAnswer || row.createdAt.getTime() < Date.now() - waitsForAnswer * waitMs) return { kind: 'answer-lost' }
    await new Promise((resolve) => setTimeout(resolve, waitMs))
  }
}

async function keepAnswer({ rowId: id, isWritten, scope, fingerprint }: Claim, answerJson: string | null): Promise<void> {
  if (answerJson === null ? !isWritten : answerJson.length > mostAnswerLength) return
  const { prisma, url } = database()
  try {
    await holdWritesTo(url, async () => {
      if (answerJson === null) await prisma.answeredKey.deleteMany({ where: { id } })
      else if (!isWritten)
        await prisma.answeredKey.create({ data: { id, scope, fingerprint, revision: null, answerJson, createdAt: new Date() } })
      else await prisma.answeredKey.updateMany({ where: { id }, data: { answerJson } })
    })
  } catch (error) {
    // It was done all the same, and a repeat is told so.
    console.error('an answer could not be kept for a repeat', error)
  }
}

/** Carry out a write with the key of the request at work, if it has one. */
export async function writeOnce<T, E>(
  work: (write: Write) => Promise<Result<T, E>>,
  carryOut: (work: (write: Write) => Promise<Result<T, E>>) => Promise<Result<T, E>>,
): Promise<Result<T, E>> {
  const request = asking()
  const claim = request?.onceKey ? claims.get(request) : undefined
  if (!claim) return carryOut(work)
  const result = await carryOut(async (write) => {
    await claimIn(write, claim)
    return work(write)
  })
  if (result.ok) claim.isWritten = true
  return result
}

/** Nobody else writes meanwhile, so that looking and keeping are one. */
async function claimIn({ tx, revision, at }: Write, { rowId, scope, fingerprint }: Claim): Promise<void> {
  const forgotten = new Date(at.getTime() - keptMs)
  await tx.answeredKey.deleteMany({ where: { createdAt: { lt: forgotten } } })
  const row = await tx.answeredKey.findUnique({ where: { scope }, select: { id: true } })
  if (row?.id === rowId) return
  if (row) throw new AlreadyDone(scope)
  await tx.answeredKey.create({ data: { id: rowId, scope, fingerprint, revision, createdAt: at } })
  if (revision % 50 !== 0) return
  const [beyond] = await tx.answeredKey.findMany({
    orderBy: { createdAt: 'desc' },
    skip: mostKept,
    take: 1,
    select: { createdAt: true },
  })
  if (beyond) await tx.answeredKey.deleteMany({ where: { createdAt: { lte: beyond.createdAt } } })
}
