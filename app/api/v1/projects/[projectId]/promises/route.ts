import { notFound } from '#api/problem'
import { promiseStockOperation } from '#api/project-stock'
import { endpoint, serve } from '#api/serve'
import { describeStockRefusal } from '#api/stock-refusal'
import { findProject } from '#lib/db/project/queries'
import { promiseStock } from '#lib/db/stock/promise-stock'
import { releasePromises } from '#lib/db/stock/release-promises'

const promise = serve(promiseStockOperation, async ({ path: { projectId }, body }) => {
  if (!(await findProject(projectId))) return notFound('project', projectId)
  const { batchId, strandTenths } = body
  const changed = strandTenths === 0 ? await releasePromises({ projectId, batchId }) : await promiseStock({ ...body, projectId })
  return changed.ok ? { batchId, strandTenths } : describeStockRefusal(changed.error, 'promise')
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: promise })
