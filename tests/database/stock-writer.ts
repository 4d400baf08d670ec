import { database } from '#lib/db/client'
import { promiseStock } from '#lib/db/stock/promise-stock'
import { recordUse } from '#lib/db/stock/record-use'
import { takeThread } from '#lib/db/stock/take-thread'
import { transferBatch } from '#lib/db/stock/transfer-batch'

/** One thing asked of the stock; a `version` is what somebody saw. */
export type Job = { batchId: string; version?: number } & (
  | { verb: 'promise'; projectId: string; strandTenths: number }
  | { verb: 'use'; strandTenths: number }
  | { verb: 'take'; wholePutUps: number; toPlaceId: string }
  | { verb: 'transfer'; wholePutUps: number; toOwnerId: string }
)
export type Done = { ok: true } | { ok: false; kind: string }

function work(job: Job) {
  const { batchId, version } = job
  switch (job.verb) {
    case 'promise':
      return promiseStock({ batchId, version, projectId: job.projectId, strandTenths: job.strandTenths })
    case 'use':
      return recordUse({ batchId, version, strandTenths: job.strandTenths })
    case 'take':
      return takeThread({ batchId, version, wholePutUps: job.wholePutUps, takesPart: false, toPlaceId: job.toPlaceId })
    case 'transfer':
      return transferBatch({
        ...{ batchId, version, toOwnerId: job.toOwnerId },
        parting: { wholePutUps: job.wholePutUps, takesPart: false },
      })
  }
}

/** A process of its own, as a second one of the program would be: does all it is told at once, and says how each came out. */
process.once('message', async (jobs: Job[]) => {
  const done = await Promise.all(
    jobs.map(async (job): Promise<Done> => {
      const result = await work(job)
      return result.ok ? { ok: true } : { ok: false, kind: result.error.kind }
    }),
  )
  await database().prisma.$disconnect()
  process.send?.(done, () => process.exit(0))
})
process.send?.('ready')
