import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { requireWhole } from '../access/whole'
import type { Transaction } from '../client'
import { newId } from '../new-id'
import { write } from '../write'
import { journalBatches } from './journal'
import { StepKeeper } from './keep-steps'
import { keepMerging } from './merging'
import type { MergingRefusal } from './merging-refusal'
import { uniteLines } from './unite-lines'

type Refusal = Extract<MergingRefusal, { kind: 'no-such-thing' | 'same-thing' | 'strands-differ' | 'other-maker' }>

const timeoutMs = 180_000

const readLine = (tx: Transaction, id: string) =>
  tx.threadLine.findUnique({
    where: { id },
    select: {
      ...{ id: true, name: true, strands: true, putUpStrandTenths: true, putUpWord: true, makerId: true },
      maker: { select: { name: true } },
    },
  })

/** Two lines of a maker that are one, spelt twice: the threads of the one go under the other, one by one, and the line is gone. */
export function mergeLines(input: {
  keptId: string
  goneId: string
  who?: string | null
}): Promise<Result<{ mergingId: string; keptId: string }, Refusal>> {
  requireWhole()
  return write<{ mergingId: string; keptId: string }, Refusal>(async (open) => {
    const { tx } = open
    const { keptId, goneId, who = null } = input
    if (keptId === goneId) return refused({ kind: 'same-thing' })
    const [kept, gone] = [await readLine(tx, keptId), await readLine(tx, goneId)]
    if (!kept || !gone) return refused({ kind: 'no-such-thing', noun: 'line', id: kept ? goneId : keptId })
    if (kept.makerId !== gone.makerId) return refused({ kind: 'other-maker' })
    if (kept.strands !== gone.strands)
      return refused({ kind: 'strands-differ', strands: kept.strands, otherStrands: gone.strands })
    const keeper = new StepKeeper(open)
    const lineOf = ({ maker, ...line }: NonNullable<Awaited<ReturnType<typeof readLine>>>) => ({ ...line, makerName: maker.name })
    const { counts, batchIds } = await uniteLines(keeper, { kept: lineOf(kept), gone: lineOf(gone) })
    const nameOf = ({ maker, name }: NonNullable<Awaited<ReturnType<typeof readLine>>>) => `${maker.name} ${name}`.trim()
    const merged = { noun: 'line' as const, goneId, goneName: nameOf(gone), keptId, keptName: nameOf(kept) }
    await journalBatches(open, batchIds, { kind: 'merge', who, reason: `${merged.goneName} merged into ${merged.keptName}` })
    const mergingId = newId()
    await keepMerging(open, keeper, { id: mergingId, merged, who, counts, batchIds })
    return ok({ mergingId, keptId })
  }, timeoutMs)
}
