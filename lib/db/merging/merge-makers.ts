import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { requireWhole } from '../access/whole'
import { newId } from '../new-id'
import { write } from '../write'
import { journalBatches } from './journal'
import { readRows, StepKeeper } from './keep-steps'
import { keepMerging } from './merging'
import type { MergingRefusal } from './merging-refusal'
import { rememberCodes, uniteLines } from './unite-lines'
import { readMovingThreads } from './unite-threads'

type Refusal = Extract<MergingRefusal, { kind: 'no-such-thing' | 'same-thing' | 'strands-differ' }>

const timeoutMs = 180_000

/**
 * Two spellings of a maker become one: a line both have is one line, its threads one by one; the other lines go over as they are. The old
 * spelling with a code finds the thread.
 */
export function mergeMakers(input: {
  keptId: string
  goneId: string
  who?: string | null
}): Promise<Result<{ mergingId: string; keptId: string }, Refusal>> {
  requireWhole()
  return write<{ mergingId: string; keptId: string }, Refusal>(async (open) => {
    const { tx } = open
    const { keptId, goneId, who = null } = input
    if (keptId === goneId) return refused({ kind: 'same-thing' })
    const read = (id: string) =>
      tx.maker.findUnique({
        where: { id },
        select: {
          ...{ id: true, name: true },
          lines: { select: { id: true, name: true, nameKey: true, strands: true, putUpStrandTenths: true, putUpWord: true } },
        },
      })
    const [kept, gone] = [await read(keptId), await read(goneId)]
    if (!kept || !gone) return refused({ kind: 'no-such-thing', noun: 'maker', id: kept ? goneId : keptId })
    const keeper = new StepKeeper(open)
    const counts: Record<string, number> = { lines: 0, threads: 0, united: 0, batches: 0 }
    const batchIds: string[] = []
    for (const line of [...gone.lines].sort((a, b) => (a.id < b.id ? -1 : 1))) {
      const same = kept.lines.find(({ nameKey }) => nameKey === line.nameKey)
      if (same && same.strands !== line.strands)
        return refused({ kind: 'strands-differ', strands: same.strands, otherStrands: line.strands })
      if (same) {
        const united = await uniteLines(keeper, {
          kept: { ...same, makerName: kept.name },
          gone: { ...line, makerName: gone.name },
        })
        batchIds.push(...united.batchIds)
        for (const name of ['threads', 'united', 'batches']) counts[name] = (counts[name] ?? 0) + (united.counts[name] ?? 0)
        continue
      }
      const threads = await readMovingThreads(tx, line.id)
      await rememberCodes(keeper, threads)
      await keeper.change('threadLine', [{ id: line.id }], { makerId: goneId }, { makerId: keptId })
      keeper.touch('line', line.id)
      counts.lines = (counts.lines ?? 0) + 1
      counts.threads = (counts.threads ?? 0) + threads.length
    }
    for (const row of await readRows(tx, 'maker', { id: goneId })) await keeper.drop('maker', row)
    keeper.touch('maker', goneId)
    keeper.touch('maker', keptId)
    const merged = { noun: 'maker' as const, goneId, goneName: gone.name, keptId, keptName: kept.name }
    await journalBatches(open, batchIds, { kind: 'merge', who, reason: `${gone.name} merged into ${kept.name}` })
    const mergingId = newId()
    await keepMerging(open, keeper, { id: mergingId, merged, who, counts, batchIds })
    return ok({ mergingId, keptId })
  }, timeoutMs)
}
