import 'server-only'
import type { WalkLineStatus, WalkThing } from '#lib/project/walk'
import { bulkInsert, timestamp } from '../bulk-insert'
import type { Write } from '../write-gate'

/** A line as its row has it. */
export type LineRow = WalkThing & {
  id: string
  projectId: string | null
  count: number
  takesPart: boolean
  toPlaceId: string | null
  status: WalkLineStatus
  insteadBatchId: string | null
  tickedAt: Date | null
  tickedBy: string | null
  revision: number
  carriedAt: Date | null
  note: string | null
}

/** What nobody has said anything of. */
export const untouchedLine = {
  ...{ status: 'open' as const, insteadBatchId: null, tickedAt: null, tickedBy: null, carriedAt: null, note: null },
}

/** Write a walk's lines, in their order; it must have none. */
export async function insertLines({ tx, engine }: Write, walkId: string, lines: readonly LineRow[]): Promise<void> {
  const rows = lines.map((line, position) => ({
    ...{ id: line.id, walkId, position, projectId: line.projectId },
    ...{ batchId: line.batchId, clothPieceId: line.clothPieceId, chartId: line.chartId, notionId: line.notionId },
    ...{ count: line.count, takesPart: line.takesPart, toPlaceId: line.toPlaceId },
    ...{ status: line.status, insteadBatchId: line.insteadBatchId, tickedBy: line.tickedBy, revision: line.revision },
    tickedAt: line.tickedAt && timestamp(line.tickedAt),
    carriedAt: line.carriedAt && timestamp(line.carriedAt),
    note: line.note,
  }))
  await bulkInsert(tx, engine, 'WalkLine', rows)
}
