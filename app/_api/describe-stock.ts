import type { JournalLine } from '#lib/db/movement/list-movements'
import { placeRef } from './collection'
import type { ThreadRef } from './cover'

export const namedThread = (thread: {
  id: string
  line: { makerName: string; name: string }
  code: string
  name: string | null
}): ThreadRef => ({
  threadId: thread.id,
  maker: thread.line.makerName,
  line: thread.line.name,
  code: thread.code,
  name: thread.name,
})

/** A line of the journal as the API gives it. */
export function describeMovement(line: JournalLine) {
  const { id, at, batch, cloth, chart, notion, from, to, project, ...rest } = line
  return {
    ...rest,
    movementId: id,
    at: at.toISOString(),
    batch: batch && {
      batchId: batch.id,
      lot: batch.lot,
      thread: { threadId: batch.threadId, maker: batch.makerName, line: batch.lineName, code: batch.code, name: batch.name },
    },
    cloth: cloth && { clothPieceId: cloth.id, label: cloth.label, name: cloth.name },
    chart: chart && { chartId: chart.id, title: chart.title },
    notion: notion && { notionId: notion.id, name: notion.name, size: notion.size },
    from: placeRef(from),
    to: placeRef(to),
    project: project && { projectId: project.id, title: project.title },
  }
}
