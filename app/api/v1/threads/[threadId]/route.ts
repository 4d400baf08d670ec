import { placeRef } from '#api/collection'
import { namedThread } from '#api/describe-stock'
import { chosenOwners } from '#api/owners'
import { notFound, Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { getThread } from '#api/stock'
import { findThread } from '#lib/db/thread/find-thread'

const get = serve(getThread, async ({ path, query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const thread = await findThread(path.threadId, { ownerIds })
  if (!thread) return notFound('thread', path.threadId)
  return {
    ownerIds,
    thread: namedThread(thread),
    lineId: thread.line.id,
    strands: thread.line.strands,
    putUpStrandTenths: thread.line.putUpStrandTenths,
    lotsMatter: thread.line.lotsMatter,
    batches: thread.batches.map(({ batch, version, home, current, promises }) => ({
      batchId: batch.id,
      version,
      ownerId: batch.ownerId,
      lot: batch.lot,
      putUpWord: batch.putUpWord,
      putUpStrandTenths: batch.putUpStrandTenths,
      wholePutUps: batch.wholePutUps,
      partStrandTenths: batch.partStrandTenths,
      partCertainty: batch.partCertainty,
      home: placeRef(home),
      current: placeRef(current ?? home),
      promises: promises.map(({ projectId, title, strandTenths }) => ({ projectId, title, strandTenths })),
    })),
    standIns: thread.standIns.map((standIn) => namedThread(standIn.thread)),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
