import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { barcodeKey } from '#lib/thread/barcode'
import { database } from '../client'
import { newId } from '../new-id'
import { write } from '../write'

export type Barcode = { id: string; code: string }

export type BarcodeRefused =
  | { kind: 'no-such-thread'; threadId: string }
  /** It is on record for another thread: that one is to forget it first. */
  | { kind: 'barcode-taken'; code: string; threadId: string }
  | { kind: 'no-such-barcode' }

export const listBarcodes = (threadId: string): Promise<Barcode[]> =>
  database().prisma.threadBarcode.findMany({
    where: { threadId },
    select: { id: true, code: true },
    orderBy: [{ code: 'asc' }],
  })

/** The thread these bars are remembered for, or null. */
export async function findBarcodeThreadId(text: string): Promise<string | null> {
  const code = barcodeKey(text)
  if (code === null) return null
  const row = await database().prisma.threadBarcode.findFirst({
    where: { code, thread: { goneAt: null } },
    select: { threadId: true },
  })
  return row?.threadId ?? null
}

/**
 * Remember what is printed as bars on a thread's band. Saying the same again changes nothing; bars of a thread that is gone go over.
 *
 * @throws {RangeError} if the code is blank.
 */
export function rememberBarcode(input: { code: string; threadId: string }): Promise<Result<Barcode, BarcodeRefused>> {
  const code = barcodeKey(input.code)
  if (code === null) throw new RangeError(`rememberBarcode: code ${JSON.stringify(input.code)}`)
  const { threadId } = input
  return write<Barcode, BarcodeRefused>(async ({ tx, touch }) => {
    if ((await tx.thread.count({ where: { id: threadId, goneAt: null } })) === 0)
      return refused({ kind: 'no-such-thread', threadId })
    const there = await tx.threadBarcode.findUnique({
      where: { code },
      select: { id: true, threadId: true, thread: { select: { goneAt: true } } },
    })
    if (there && there.threadId !== threadId && there.thread.goneAt === null)
      return refused({ kind: 'barcode-taken', code, threadId: there.threadId })
    const id = there?.id ?? newId()
    if (there) await tx.threadBarcode.update({ where: { id }, data: { threadId } })
    else await tx.threadBarcode.create({ data: { id, code, threadId } })
    touch('thread', threadId)
    return ok({ id, code })
  })
}

/** Forget bars, by what is printed or by their id. */
export function forgetBarcode(which: { id: string } | { code: string }): Promise<Result<{ threadId: string }, BarcodeRefused>> {
  return write<{ threadId: string }, BarcodeRefused>(async ({ tx, touch }) => {
    const row = await tx.threadBarcode.findFirst({
      where: 'id' in which ? { id: which.id } : { code: barcodeKey(which.code) ?? '' },
      select: { id: true, threadId: true },
    })
    if (!row) return refused({ kind: 'no-such-barcode' })
    await tx.threadBarcode.delete({ where: { id: row.id } })
    touch('thread', row.threadId)
    return ok({ threadId: row.threadId })
  })
}
