import 'server-only'
import type { Write } from '../write-gate'

/** Kinds of movement after which a thing has been in somebody's hand. */
export const seenKinds = ['use', 'move', 'take', 'return', 'split', 'merge', 'transfer', 'cut'] as const

type Seen = { batchIds: readonly string[] } | { clothPieceId: string } | { chartId: string } | { notionId: string }

/** Whoever moves or uses a thing has it in hand: the question where it may be is answered. */
export async function settleSeen({ tx, at }: Pick<Write, 'tx' | 'at'>, seen: Seen, who: string | null): Promise<void> {
  if ('batchIds' in seen && seen.batchIds.length === 0) return
  await tx.missingThing.updateMany({
    where: { status: 'open', ...('batchIds' in seen ? { batchId: { in: [...seen.batchIds] } } : seen) },
    data: { status: 'found', settledAt: at, settledBy: who, version: { increment: 1 } },
  })
}
