import 'server-only'
import { newId } from '../new-id'
import type { Write } from '../write-gate'

type Line = { kind: 'merge' | 'undo'; who: string | null; reason: string }

/** A line of the journal on each batch that became another thread's, or its own again: nothing is gained or lost. */
export async function journalBatches(
  { tx, revision, at }: Pick<Write, 'tx' | 'revision' | 'at'>,
  batchIds: readonly string[],
  line: Line,
): Promise<void> {
  if (batchIds.length === 0) return
  await tx.movement.createMany({ data: batchIds.map((batchId) => ({ id: newId(), revision, at, batchId, ...line })) })
}

/** Copies that are counted with another chart from now on. Unlike a handing over it settles nothing: nobody had them in hand. */
export async function journalCopies(
  { tx, revision, at }: Pick<Write, 'tx' | 'revision' | 'at'>,
  copies: { fromId: string; toId: string; count: number },
  line: Line,
): Promise<void> {
  const { fromId, toId, count } = copies
  await tx.movement.createMany({
    data: [
      { id: newId(), revision, at, chartId: fromId, wholeDelta: -count, ...line },
      { id: newId(), revision, at, chartId: toId, wholeDelta: count, ...line },
    ],
  })
}
