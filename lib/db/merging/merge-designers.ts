import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { requireWhole } from '../access/whole'
import { newId } from '../new-id'
import { write } from '../write'
import { readRows, StepKeeper } from './keep-steps'
import { keepMerging } from './merging'
import type { MergingRefusal } from './merging-refusal'

type Refusal = Extract<MergingRefusal, { kind: 'no-such-thing' | 'same-thing' }>

const timeoutMs = 180_000

/**
 * One spelling of a designer is given up for another: the charts are the other's, and whoever types or brings in the old spelling finds
 * that one.
 */
export function mergeDesigners(input: {
  keptId: string
  goneId: string
  who?: string | null
}): Promise<Result<{ mergingId: string; keptId: string }, Refusal>> {
  requireWhole()
  return write<{ mergingId: string; keptId: string }, Refusal>(async (open) => {
    const { tx } = open
    const { keptId, goneId, who = null } = input
    if (keptId === goneId) return refused({ kind: 'same-thing' })
    const [kept, gone] = [
      await tx.designer.findUnique({ where: { id: keptId } }),
      await tx.designer.findUnique({ where: { id: goneId } }),
    ]
    if (!kept || !gone) return refused({ kind: 'no-such-thing', noun: 'designer', id: kept ? goneId : keptId })
    const keeper = new StepKeeper(open)
    const both = new Set((await readRows(tx, 'chartDesigner', { designerId: keptId })).map(({ chartId }) => chartId))
    const theirs = await readRows(tx, 'chartDesigner', { designerId: goneId })
    for (const row of theirs) {
      await keeper.drop('chartDesigner', row)
      if (!both.has(row.chartId as string)) await keeper.add('chartDesigner', { ...row, designerId: keptId })
      keeper.touch('chart', String(row.chartId))
    }
    const formers = await readRows(tx, 'formerDesignerName', { designerId: goneId })
    await keeper.change(
      'formerDesignerName',
      formers.map(({ id }) => ({ id: String(id) })),
      { designerId: goneId },
      { designerId: keptId },
    )
    // A spelling that stands again for somebody is nobody's former one.
    for (const row of await readRows(tx, 'formerDesignerName', { nameKey: { in: [gone.nameKey, kept.nameKey] } }))
      await keeper.drop('formerDesignerName', row)
    await keeper.drop('designer', { id: gone.id, name: gone.name, nameKey: gone.nameKey })
    await keeper.add('formerDesignerName', { id: newId(), designerId: keptId, name: gone.name, nameKey: gone.nameKey })
    keeper.touch('designer', goneId)
    keeper.touch('designer', keptId)
    const mergingId = newId()
    const merged = { noun: 'designer' as const, goneId, goneName: gone.name, keptId, keptName: kept.name }
    await keepMerging(open, keeper, { id: mergingId, merged, who, counts: { charts: theirs.length } })
    return ok({ mergingId, keptId })
  }, timeoutMs)
}
