import 'server-only'
import { ok, type Result } from '#lib/result'
import type { StockChange } from '#lib/stock/stock-change'
import { applyStockChange, type ChangedMeanwhile } from '../stock/apply-stock-change'
import type { Write } from '../write-gate'

/** Ids in one statement: SQLite takes no more than 999 parameters. */
const idsAtATime = 400

export function inParts<Item>(items: readonly Item[]): Item[][] {
  const parts: Item[][] = []
  for (let from = 0; from < items.length; from += idsAtATime) parts.push(items.slice(from, from + idsAtATime))
  return parts
}

/** Read what is asked for by many ids, some hundreds of them a statement, one after another: a transaction has one connection. */
export async function readInParts<Row>(ids: readonly (string | null)[], read: (ids: string[]) => Promise<Row[]>): Promise<Row[]> {
  const rows: Row[] = []
  for (const part of inParts([...new Set(ids.flatMap((id) => id ?? []))])) rows.push(...(await read(part)))
  return rows
}

/** `applyStockChange` for a change of any number of batches: what is split off is written with what it was split from. */
export async function applyLargeChange(
  writing: Write,
  change: StockChange,
  context: { versions: Map<string, number>; who?: string | null },
): Promise<Result<null, ChangedMeanwhile>> {
  const rootOf = new Map(change.batches.map((batch) => [batch.id, batch.isNew && batch.parentId ? batch.parentId : batch.id]))
  const root = (batchId: string) => rootOf.get(batchId) ?? batchId
  const roots = new Set([...change.batches.map(({ id }) => root(id)), ...change.promises.map(({ batchId }) => root(batchId))])
  for (const part of inParts([...roots])) {
    const these = new Set(part)
    const applied = await applyStockChange(
      writing,
      {
        batches: change.batches.filter(({ id }) => these.has(root(id))),
        movements: change.movements.filter(({ batchId }) => these.has(root(batchId))),
        promises: change.promises.filter(({ batchId }) => these.has(root(batchId))),
      },
      context,
    )
    if (!applied.ok) return applied
  }
  return ok(null)
}
