import { placeRef } from '#api/collection'
import { describeBroken } from '#api/describe-broken'
import { notFound } from '#api/problem'
import { getProjectStock } from '#api/project-stock'
import { readThreadRefs } from '#api/read-thread-refs'
import { endpoint, serve } from '#api/serve'
import { readPullList } from '#lib/db/project/pull-list'
import { findProject } from '#lib/db/project/queries'
import { readSwapChoices } from '#lib/db/project/swap-choices'
import { listBrokenPromises } from '#lib/db/stock/broken-promises'

const get = serve(getProjectStock, async ({ path: { projectId } }) => {
  const [project, pull, choices, broken, refOf] = await Promise.all([
    findProject(projectId),
    readPullList(projectId),
    readSwapChoices(projectId),
    listBrokenPromises({ projectId }),
    readThreadRefs(),
  ])
  if (!project || !pull) return notFound('project', projectId)
  return {
    version: project.version,
    needs: pull.threads.map((row) => ({
      thread: refOf(row.thread.id),
      insteadOf: row.insteadOf.map(({ id }) => refOf(id)),
      needStrandTenths: row.needStrandTenths,
      promisedStrandTenths: row.promisedStrandTenths,
      freeBesideStrandTenths: row.moreStrandTenths,
      kits: row.kits,
    })),
    promises: pull.lines.map(({ batch, place, isInBag, promisedStrandTenths, heldStrandTenths, pull: take }) => ({
      ...{ thread: refOf(batch.threadId), batchId: batch.id, lot: batch.lot, place: placeRef(place) },
      ...{ isInBag, promisedStrandTenths, heldStrandTenths, take },
    })),
    broken: broken.map((promise) => describeBroken(promise, refOf)),
    swaps: choices.flatMap(({ charted, worked, reason }) =>
      worked ? [{ thread: refOf(charted.id), standIn: refOf(worked.id), reason }] : [],
    ),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
