import type { z } from 'zod'
import { describeMovement } from '#api/describe-stock'
import { addMovement, listMovementsOperation } from '#api/movements'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { describePartRefusal, describeStockRefusal, type StockRefusal } from '#api/stock-refusal'
import { listMovements } from '#lib/db/movement/list-movements'
import type { StockChanged } from '#lib/db/stock/change-batch'
import { correctBatch } from '#lib/db/stock/correct-batch'
import { mergeBatches } from '#lib/db/stock/merge-batches'
import { moveBatch } from '#lib/db/stock/move-batch'
import { type BatchFigures, findBatchThread, findThreadFigures } from '#lib/db/stock/queries'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { recordUse } from '#lib/db/stock/record-use'
import { relabelBatch } from '#lib/db/stock/relabel-batch'
import { returnBatch } from '#lib/db/stock/return-batch'
import { splitBatch } from '#lib/db/stock/split-batch'
import { takeThread } from '#lib/db/stock/take-thread'
import { transferBatch } from '#lib/db/stock/transfer-batch'
import type { Result } from '#lib/result'
import type { PartCertainty } from '#lib/stock/batch'
import { fullOfLength, type Part, parsePart } from '#lib/stock/part-length'

/** One change of stock writes a few lines. */
const mostOfOneChange = 100
/** As the schema's own bound for a part. */
const mostPartStrandTenths = 100_000_000

const list = serve(listMovementsOperation, async ({ query }) => {
  const { batch, thread, cloth, chart, notion, project, since, limit, after } = query
  const filter = {
    batchId: batch,
    threadId: thread,
    clothPieceId: cloth,
    chartId: chart,
    notionId: notion,
    projectId: project,
    since,
  }
  const lines = await listMovements(filter, { limit, after })
  if (!lines) {
    const errors = [{ parameter: 'after', message: 'There is no such line.', accepted: 'the next of the page before' }]
    return new Problem('bad-parameter', 'after: there is no such line of the journal.', { errors })
  }
  const shown = lines.slice(0, limit)
  return { movements: shown.map(describeMovement), next: lines.length > limit ? (shown.at(-1)?.id ?? null) : null }
})

type Body = z.output<typeof addMovement.body & object>
type SaidPart = { part?: string | undefined; partStrandTenths: number; partCertainty: PartCertainty }

/** The part as `part` says it, read by what a full put-up of the batch or the thread holds and weighs. */
async function readPart(said: SaidPart, figures: BatchFigures | null, putUpStrandTenths: number | null): Promise<Part | Problem> {
  if (said.part === undefined || figures === null) return said
  const full = putUpStrandTenths === null ? figures : fullOfLength(figures, putUpStrandTenths)
  const read = parsePart(said.part, { ...full, unit: 'm' }, mostPartStrandTenths)
  return read.ok ? read.value : describePartRefusal(read.error)
}

async function change(body: Body): Promise<Result<StockChanged, StockRefusal> | Problem> {
  switch (body.kind) {
    case 'receive': {
      const part = await readPart(body, await findThreadFigures(body.threadId), body.putUpStrandTenths)
      return part instanceof Problem ? part : receiveThread({ ...body, ...part })
    }
    case 'use':
      return recordUse(body)
    case 'move':
      return moveBatch(body)
    case 'take':
      return takeThread(body)
    case 'return':
      return returnBatch(body)
    case 'correct': {
      const part = await readPart(body, await findBatchThread(body.batchId), null)
      return part instanceof Problem ? part : correctBatch({ ...body, ...part })
    }
    case 'relabel':
      return relabelBatch(body)
    case 'transfer':
      return transferBatch(body)
    case 'split':
      return splitBatch(body)
    case 'merge':
      return mergeBatches(body)
  }
}

const add = serve(addMovement, async ({ body }) => {
  const changed = await change(body)
  if (changed instanceof Problem) return changed
  if (!changed.ok) return describeStockRefusal(changed.error, body.kind)
  const { batchId, revision } = changed.value
  const lines = (await listMovements({ revision }, { limit: mostOfOneChange })) ?? []
  return { batchId, revision, movements: lines.map(describeMovement) }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list, POST: add })
