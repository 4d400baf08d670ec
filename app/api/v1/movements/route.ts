import type { z } from 'zod'
import { describeMovement } from '#api/describe-stock'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { addMovement, listMovementsOperation } from '#api/stock'
import { describeStockRefusal, type StockRefusal } from '#api/stock-refusal'
import { listMovements } from '#lib/db/movement/list-movements'
import type { StockChanged } from '#lib/db/stock/change-batch'
import { correctBatch } from '#lib/db/stock/correct-batch'
import { moveBatch } from '#lib/db/stock/move-batch'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { recordUse } from '#lib/db/stock/record-use'
import { returnBatch } from '#lib/db/stock/return-batch'
import { takeThread } from '#lib/db/stock/take-thread'
import { transferBatch } from '#lib/db/stock/transfer-batch'
import type { Result } from '#lib/result'

/** One change of stock writes a few lines. */
const mostOfOneChange = 100

const list = serve(listMovementsOperation, async ({ query }) => {
  const { batch, thread, cloth, chart, project, since, limit, after } = query
  const filter = { batchId: batch, threadId: thread, clothPieceId: cloth, chartId: chart, projectId: project, since }
  const lines = await listMovements(filter, { limit, after })
  if (!lines) {
    const errors = [{ parameter: 'after', message: 'There is no such line.', accepted: 'the next of the page before' }]
    return new Problem('bad-parameter', 'after: there is no such line of the journal.', { errors })
  }
  const shown = lines.slice(0, limit)
  return { movements: shown.map(describeMovement), next: lines.length > limit ? (shown.at(-1)?.id ?? null) : null }
})

function change(body: z.output<typeof addMovement.body & object>): Promise<Result<StockChanged, StockRefusal>> {
  switch (body.kind) {
    case 'receive':
      return receiveThread(body)
    case 'use':
      return recordUse(body)
    case 'move':
      return moveBatch(body)
    case 'take':
      return takeThread(body)
    case 'return':
      return returnBatch(body)
    case 'correct':
      return correctBatch(body)
    case 'transfer':
      return transferBatch(body)
  }
}

const add = serve(addMovement, async ({ body }) => {
  const changed = await change(body)
  if (!changed.ok) return describeStockRefusal(changed.error, body.kind)
  const { batchId, revision } = changed.value
  const lines = (await listMovements({ revision }, { limit: mostOfOneChange })) ?? []
  return { batchId, revision, movements: lines.map(describeMovement) }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list, POST: add })
