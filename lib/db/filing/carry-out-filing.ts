import 'server-only'
import { type FilingChoice, type FilingWay, filingMoves } from '#lib/place/filing-moves'
import { ok, type Result, refused } from '#lib/result'
import type { Batch } from '#lib/stock/batch'
import { type BulkStep, planHome } from '#lib/stock/plan-bulk-edit'
import type { StockChange } from '#lib/stock/stock-change'
import { requireWhole } from '../access/whole'
import { writeStock } from '../bulk-edit/apply-bulk-edit'
import { chunks } from '../bulk-edit/read-bulk-edit'
import { newId } from '../new-id'
import { type ChangedMeanwhile, readBatches } from '../stock/apply-stock-change'
import { write } from '../write'
import type { Write } from '../write-gate'
import { addDrawer } from './add-drawer'
import { addedPlace, type Filing, type FilingDrawer, type FilingRequest, readFiling } from './read-filing'

export type FilingRefused = ChangedMeanwhile | { kind: 'no-such-choice'; way: FilingWay } | { kind: 'nothing-moves' }

const timeoutMs = 180_000

/**
 * Carry a filing plan out in one write: every batch that goes to another drawer or compartment, or comes in, has its new home there; what lies at
 * home goes along, what is out stays out. Kept as one change that `undoBulkEdit` takes back; a drawer put in stays then, with its compartments, empty.
 *
 * @param request.fingerprint  of the plan the person saw; refused as `changed-meanwhile` when anything it rests on is otherwise now
 */
export function carryOutFiling(
  request: FilingRequest & { way: FilingWay; fingerprint: string; what: string; who?: string | null },
): Promise<Result<{ bulkEditId: string; moved: number; addedPlaceId: string | null }, FilingRefused>> {
  requireWhole()
  type Done = { bulkEditId: string; moved: number; addedPlaceId: string | null }
  return write<Done, FilingRefused>(async (writing) => {
    const { tx, at } = writing
    const { way, what, who = null } = request
    const filing = await readFiling(tx, request)
    if (filing.fingerprint !== request.fingerprint) return refused({ kind: 'changed-meanwhile' })
    const choice = filing.growth.choices.find((one) => one.way === way)
    if (!choice) return refused({ kind: 'no-such-choice', way })

    const filed = filing.lines.map(({ drawer }) => drawer)
    const moves = filingMoves(choice, filed, filing.compartments)
    // In the order of the moves, as they are read again afterwards.
    const going = moves.flatMap(({ to, items }) =>
      items.flatMap((item) => (filing.lines[item]?.batches ?? []).map(({ id }) => ({ batchId: id, item, to }))),
    )
    if (going.length === 0) return refused({ kind: 'nothing-moves' })

    const added = await putIn(writing, filing, choice)
    const placeOf = ({ item, to }: { item: number; to: number }): string => {
      const place = choice.placeOf?.[item]
      if (place !== undefined) return added?.compartments.get(place) ?? place
      const before = choice.drawers[to]?.before ?? null
      return before === null ? (added?.id as string) : (filing.drawers[before]?.id as string)
    }
    const goesTo = new Map(going.map((one) => [one.batchId, placeOf(one)]))
    const { stock, steps, versions } = await planHomes(tx, { goesTo, what })
    const applied = await writeStock(writing, stock, { versions, who })
    if (!applied.ok) return applied
    const bulkEditId = newId()
    const written = steps.map((step) => ({ ...step, versionAfter: versions.get(step.batchId as string) as number }))
    await tx.bulkEdit.create({
      data: { id: bulkEditId, at, who, what, stepsJson: JSON.stringify({ change: { kind: 'filing' }, steps: written }) },
    })
    return ok({ bulkEditId, moved: steps.length, addedPlaceId: added?.id ?? null })
  }, timeoutMs)
}

/** The drawer a choice puts in, with its compartments by the names they have in the plan; null when it puts none in. */
async function putIn(
  writing: Write,
  { drawers, added }: Filing,
  choice: FilingChoice,
): Promise<{ id: string; compartments: Map<string, string> } | null> {
  const at = choice.drawers.findIndex(({ before }) => before === null)
  if (at < 0 || !added) return null
  const beside = drawers[Math.max(0, at - 1)] as FilingDrawer
  const { id, compartmentIds } = await addDrawer(writing, { ...added, beside, isBefore: at === 0 })
  return { id, compartments: new Map(compartmentIds.map((placeId, turn) => [addedPlace(turn), placeId])) }
}

async function planHomes(
  tx: Write['tx'],
  { goesTo, what }: { goesTo: ReadonlyMap<string, string>; what: string },
): Promise<{ stock: StockChange; steps: BulkStep[]; versions: Map<string, number> }> {
  const batches = new Map<string, Batch>()
  const versions = new Map<string, number>()
  for (const ids of chunks([...goesTo.keys()])) {
    const read = await readBatches(tx, { id: { in: ids } })
    for (const batch of read.batches) batches.set(batch.id, batch)
    for (const [id, version] of read.versions) versions.set(id, version)
  }
  const stock: StockChange = { batches: [], movements: [], promises: [] }
  const steps: BulkStep[] = []
  for (const [batchId, toPlaceId] of goesTo) {
    const batch = batches.get(batchId) as Batch
    const planned = planHome(batch, toPlaceId, what)
    if (!planned.stock) continue
    stock.batches.push(...planned.stock.batches)
    stock.movements.push(...planned.stock.movements)
    steps.push({ threadId: batch.threadId, batchId: batch.id, before: planned.before, versionAfter: 0, toPlaceId })
  }
  return { stock, steps, versions }
}
