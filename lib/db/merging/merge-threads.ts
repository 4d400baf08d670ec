import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { requireWhole } from '../access/whole'
import { newId } from '../new-id'
import { write } from '../write'
import { journalBatches } from './journal'
import { StepKeeper } from './keep-steps'
import { keepMerging } from './merging'
import type { MergingRefusal } from './merging-refusal'
import { type MovingThread, readMovingThread, uniteThreads } from './unite-threads'

type Refusal = Extract<MergingRefusal, { kind: 'no-such-thing' | 'same-thing' | 'strands-differ' | 'changed-meanwhile' }>

const timeoutMs = 180_000

const threadName = ({ makerName, line, code, name }: Pick<MovingThread, 'makerName' | 'line' | 'code' | 'name'>): string =>
  [makerName, line.name, code, name].filter((part) => part !== null && part !== '').join(' ')

/**
 * A thread entered twice becomes one: its stock with the promises on it, the keys that name it, orders, rules, bars, opinions and the record
 * of kits are the kept one's, and its maker, line and code find that one from now on. No length changes.
 */
export function mergeThreads(input: {
  keptId: string
  goneId: string
  keptVersion?: number | undefined
  goneVersion?: number | undefined
  who?: string | null
}): Promise<Result<{ mergingId: string; keptId: string }, Refusal>> {
  requireWhole()
  return write<{ mergingId: string; keptId: string }, Refusal>(async (open) => {
    const { keptId, goneId, who = null } = input
    if (keptId === goneId) return refused({ kind: 'same-thing' })
    const [kept, gone] = [await readMovingThread(open.tx, keptId), await readMovingThread(open.tx, goneId)]
    if (!kept || !gone) return refused({ kind: 'no-such-thing', noun: 'thread', id: kept ? goneId : keptId })
    if (input.keptVersion !== undefined && input.keptVersion !== kept.version) return refused({ kind: 'changed-meanwhile' })
    if (input.goneVersion !== undefined && input.goneVersion !== gone.version) return refused({ kind: 'changed-meanwhile' })
    if (kept.line.strands !== gone.line.strands)
      return refused({ kind: 'strands-differ', strands: kept.line.strands, otherStrands: gone.line.strands })
    const keeper = new StepKeeper(open)
    const { counts, batchIds } = await uniteThreads(keeper, { kept, gone })
    const merged = { noun: 'thread' as const, goneId, goneName: threadName(gone), keptId, keptName: threadName(kept) }
    await journalBatches(open, batchIds, { kind: 'merge', who, reason: `${merged.goneName} merged into ${merged.keptName}` })
    const mergingId = newId()
    await keepMerging(open, keeper, { id: mergingId, merged, who, counts, batchIds })
    return ok({ mergingId, keptId })
  }, timeoutMs)
}
